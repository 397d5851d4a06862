#include <doctest/doctest.h>

#include "tests/cli/season/made_season.h"

namespace season_text_test {

using namespace acre;
using namespace made_season;

TEST_CASE("jobs of two years say the year of each day, jobs of one year once") {
    const auto jobs = [](const std::string& second) {
        return section(cli::season_text(season_of({made_job("One", "2027-06-21", 2),
                                                   made_job("Two", second, 1)}),
                                        names_of(), false),
                       "Jobs");
    };
    CHECK(jobs("2027-12-31") == R"(Jobs of 2027, least profit a day first
     start   done    job  days   price  contribution  profit  a day
  1  Jun 21  Jun 22  One     2  $2,000          $800    $600   $300
  2  Dec 31  Dec 31  Two     1  $1,000          $400    $300   $300
)");
    CHECK(jobs("2028-01-01") == R"(Jobs, least profit a day first
     start         done          job  days   price  contribution  profit  a day
  1  Jun 21, 2027  Jun 22, 2027  One     2  $2,000          $800    $600   $300
  2  Jan 1, 2028   Jan 1, 2028   Two     1  $1,000          $400    $300   $300
)");
}

TEST_CASE("what stands first says which jobs count, and what is left out") {
    engine::SeasonJob offer = made_job("Two", "2027-07-01", 2);
    offer.chance = 0.4;
    cli::SeasonNames names = names_of(cli::Counted::Book);
    names.title = "book";
    CHECK(cli::season_text(season_of({made_job("One", "2027-06-21", 2), offer}), names, false)
              .substr(0, 292) == R"(Season: book: 2 jobs, $2,800 in prices, $840 profit
The firm's own page: it shows cost and margin. Not for the customer.
Accepted quotes count as work, at the prices and costs quoted. `acrewright
variance` has what finished jobs made. 1 quote is still offered: money, hours
and acres count by)");
    names.counted = cli::Counted::Folder;
    names.without = {"a", "b"};
    names.undated = {"Some day"};
    CHECK(cli::season_text(season_of({made_job("One", "2027-06-21", 2)}), names, false)
              .substr(0, 265) == R"(Season: book: 1 job, $2,000 in prices, $600 profit
The firm's own page: it shows cost and margin. Not for the customer.
Every dated job of the folder counts as work, whether anybody said yes or not.
Left out: a. Left out: b. Not dated, so not counted: "Some day".

)");
}

TEST_CASE("a machine wanted twice is named, with who wants it and whether it must be") {
    const auto twice = [](std::vector<engine::SeasonJob> jobs, int owned = 1) {
        engine::SeasonQuestion question;
        question.fleet["crawler"].count = owned;
        const std::string page =
            cli::season_text(season_of(std::move(jobs), question), names_of(), false);
        return section(page, "Wanted twice") + section(page, "A plan");
    };
    CHECK(twice({made_job("One", "2027-06-21", 3), made_job("Two", "2027-06-24", 2)}) ==
          R"(Wanted twice
  no machine is wanted by more jobs at once than there are of it
A plan that fits
  All jobs fit as they are dated.
)");
    CHECK(twice({made_job("One", "2027-06-21", 3), made_job("Two", "2027-06-23", 2)}) ==
          R"(Wanted twice
  June 23, 2027, crawler: "One" and "Two"
A plan that fits
  Each job as early as its date and the machines allow: no job starts later
    than dated; 1 job does not fit and would leave $920.
  A job that says no latest day is done by June 24, 2027: --until sets it.
  With the days until June 25, 2027, all that say no latest day fit.
  No other order of the jobs, each as early as it goes, loses less.
     job  as dated  as planned    done  later
  2  Two  Jun 23    does not fit
)");
    CHECK(twice({made_job("One", "2027-06-21", 3, "crawler", 2)}) == R"(Wanted twice
  June 21 to June 23, 2027, crawler: "One" (2 wanted, 1 owned)
A plan that fits
  Each job as early as its date and the machines allow: no job starts later
    than dated; 1 job does not fit and would leave $1,380.
  A job that says no latest day is done by June 23, 2027: --until sets it.
  No other order of the jobs, each as early as it goes, loses less.
     job  as dated  as planned    done  later
  1  One  Jun 21    does not fit
)");
    CHECK(twice({made_job("One", "2027-06-21", 3, "crawler", 2)}, 2) == R"(Wanted twice
  no machine is wanted by more jobs at once than there are of it
A plan that fits
  All jobs fit as they are dated.
)");
    engine::SeasonJob offer = made_job("Two", "2027-06-22", 2);
    offer.chance = 0.5;
    CHECK(twice({made_job("One", "2027-06-21", 3), offer}) == R"(Wanted twice
  June 22 to June 23, 2027, crawler: "One" and "Two", if the offer is taken
A plan that fits
  Each job as early as its date and the machines allow: no job starts later
    than dated; 1 job does not fit and would leave $460.
  A job that says no latest day is done by June 23, 2027: --until sets it.
  With the days until June 25, 2027, all that say no latest day fit.
  No other order of the jobs, each as early as it goes, loses less.
     job            as dated  as planned    done  later
  2  Two (offered)  Jun 22    does not fit
)");
    engine::SeasonJob late = made_job("Two", "2027-06-22", 2);
    late.latest = day("2027-06-24");
    CHECK(twice({made_job("One", "2027-06-21", 3), late}) == R"(Wanted twice
  June 22 to June 23, 2027, crawler: "One" and "Two"
A plan that fits
  Each job as early as its date and the machines allow: no job starts later
    than dated; 1 job does not fit and would leave $920.
  A job that says no latest day is done by June 23, 2027: --until sets it.
  No other order of the jobs, each as early as it goes, loses less.
     job  as dated  as planned    done  later
  2  Two  Jun 22    does not fit
)");
}

TEST_CASE("hours beyond those assumed are told, and a machine of which jobs dispute") {
    engine::SeasonJob job = made_job("One", "2027-06-01", 20, "tractor");
    job.uses[0].hours = 500;
    const auto owned = [&] {
        return section(cli::season_text(season_of({job}), names_of(), false), "Machines owned");
    };
    CHECK(owned() == R"(Machines owned, as dated
                                    fixed a                at hours
           booked  assumed  share      year  priced at       booked  not covered
  Walt      500 h    500 h  100 %   $20,000   $40.00/h     $40.00/h           $0
  crawler     0 h  1,000 h    0 %  $100,000  $100.00/h            -     $100,000
  Priced at: the fixed cost that an hour of a job's price carries. Each hour
    short of those assumed leaves it uncovered.
)");
    job.uses[0].hours = 510;
    CHECK(owned() == R"(Machines owned, as dated
                                    fixed a                at hours
           booked  assumed  share      year  priced at       booked  not covered
  Walt      510 h    500 h  102 %   $20,000   $40.00/h     $39.22/h        -$400
  crawler     0 h  1,000 h    0 %  $100,000  $100.00/h            -     $100,000
  Priced at: the fixed cost that an hour of a job's price carries. Each hour
    short of those assumed leaves it uncovered.
  Walt: the jobs book 10 h more than the hours assumed for a year.
)");
    std::vector<engine::SeasonMachine> machines = made_machines();
    machines[1].disputed = true;
    CHECK(section(cli::season_text(engine::season({job}, machines, {}), names_of(), false),
                  "Machines owned") == R"(Machines owned, as dated
                                    fixed a                at hours
           booked  assumed  share      year  priced at       booked  not covered
  Walt      510 h    500 h  102 %   $20,000   $40.00/h     $39.22/h        -$400
  crawler     0 h  1,000 h    0 %  $100,000  $100.00/h            -     $100,000
  Priced at: the fixed cost that an hour of a job's price carries. Each hour
    short of those assumed leaves it uncovered.
  Walt: the jobs book 10 h more than the hours assumed for a year.
  Walt: jobs say different things of what a year of it costs; the dearest
    counts. A machine of its own wants a name of its own.
)");
}

TEST_CASE("months say what is spent, billed and paid, and the hours of the three that work most") {
    const std::string page = cli::season_text(
        season_of({made_job("One", "2027-06-29", 4), made_job("Two", "2027-08-02", 1, "tractor")}),
        names_of(), false);
    CHECK(section(page, "Months") == R"(Months
               days  acres  gallons   spent  billed  received
  June 2027       2     20      100  $1,200      $0        $0
  July 2027       2     20      100  $1,200  $4,000    $4,000
  August 2027     1     10       50    $600  $1,000    $1,000
  Spent: direct cost of the work done. Billed: jobs done in the month.
    Received: 20 days after a job's last day.
)");
    CHECK(section(page, "Machine hours by month") == R"(Machine hours by month
               crawler            Walt
  June 2027       20 h  ########   0 h
  July 2027       20 h  ########   0 h
  August 2027      0 h            10 h
)");
    CHECK(section(page, "What covers") == R"(What covers the year
  fixed cost of the machines owned, a year                              $120,000
  overhead, as these jobs carry it                                          $500
  together                                                              $120,500
  what these jobs leave for both: price less direct cost, without the     $2,300
  fixed cost in it
  of the year covered                                                        2 %
)");
    CHECK(section(page, "Covered by month") == R"(Covered by month
               left by the work  so far  of the year     to go
  June 2027                $920    $920          1 %  $119,580
  July 2027                $920  $1,840          2 %  $118,660
  August 2027              $460  $2,300          2 %  $118,200
)");
}

TEST_CASE("a year is covered when nothing is short, and says by how much") {
    engine::SeasonQuestion question;
    question.overhead = 0;
    engine::SeasonJob job = made_job("One", "2027-06-21", 2);
    job.fixed = 0;
    const auto covers = [&](double left, double overhead) {
        job.price = job.cost + left;
        question.overhead = overhead;
        const std::string page = cli::season_text(season_of({job}, question), names_of(), false);
        const std::size_t at = page.find("What covers the year");
        return page.substr(at);
    };
    CHECK(covers(120'000, 0) == R"(What covers the year
  fixed cost of the machines owned, a year                              $120,000
  overhead, a year                                                            $0
  together                                                              $120,000
  what these jobs leave for both: price less direct cost, without the   $120,000
  fixed cost in it
  of the year covered                                                      100 %

                      booked    needed
  prices            $121,200  $121,200
  acres                20 ac     20 ac
  hours of crawler      20 h      20 h
  The year is covered, with $0 over.
  Needed: of jobs like these, in the same mix. Acres are those that each job
    counts: ground that is ripped and disced counts twice.

Covered by month
             left by the work    so far  of the year  to go
  June 2027          $120,000  $120,000        100 %     $0
)");
    CHECK(covers(120'000, 1) == R"(What covers the year
  fixed cost of the machines owned, a year                              $120,000
  overhead, a year                                                            $1
  together                                                              $120,001
  what these jobs leave for both: price less direct cost, without the   $120,000
  fixed cost in it
  of the year covered                                                      100 %

                      booked    needed
  prices            $121,200  $121,201
  acres                20 ac     20 ac
  hours of crawler      20 h      20 h
  The year is not covered: $1 short.
  Needed: of jobs like these, in the same mix. Acres are those that each job
    counts: ground that is ripped and disced counts twice.

Covered by month
             left by the work    so far  of the year  to go
  June 2027          $120,000  $120,000        100 %     $1
)");
    CHECK(covers(0, 0) == R"(What covers the year
  fixed cost of the machines owned, a year                              $120,000
  overhead, a year                                                            $0
  together                                                              $120,000
  what these jobs leave for both: price less direct cost, without the         $0
  fixed cost in it
  of the year covered                                                        0 %
  The year is not covered: $120,000 short.

Covered by month
             left by the work  so far  of the year     to go
  June 2027                $0      $0          0 %  $120,000
)");
}

TEST_CASE("one more machine pays only above what a year of it costs") {
    engine::SeasonQuestion question;
    question.another = "crawler";
    question.until = day("2027-06-23");
    engine::SeasonJob one = made_job("One", "2027-06-21", 3);
    engine::SeasonJob two = made_job("Two", "2027-06-21", 3);
    one.fixed = two.fixed = 0;
    const auto another = [&](double left) {
        one.price = two.price = one.cost + left;
        return section(cli::season_text(season_of({one, two}, question), names_of(), false),
                       "One more");
    };
    CHECK(another(100'000) == R"(One more crawler: it does not pay
  1 job fits with it that does not fit without it: Two
  days that jobs start late without it                                    0 days
  and with it                                                             0 days
  what the jobs that fit with it alone leave                            $100,000
  fixed cost of a year of it                                            $100,000
  left after it                                                               $0
  acres of such jobs, beyond these, at which it pays: each leaves          30 ac
  $3,333.33
)");
    CHECK(another(100'001) == R"(One more crawler: it pays
  1 job fits with it that does not fit without it: Two
  days that jobs start late without it                                    0 days
  and with it                                                             0 days
  what the jobs that fit with it alone leave                            $100,001
  fixed cost of a year of it                                            $100,000
  left after it                                                               $1
  acres of such jobs, beyond these, at which it pays: each leaves          30 ac
  $3,333.37
)");
    question.until = day("2027-06-22");
    CHECK(another(100'001) == R"(One more crawler: it does not pay
  No job fits with it that does not fit without it.
  2 jobs do not fit even then: One; Two
  days that jobs start late without it                                    0 days
  and with it                                                             0 days
  what the jobs that fit with it alone leave                                  $0
  fixed cost of a year of it                                            $100,000
  left after it                                                        -$100,000
  acres of such jobs, beyond these, at which it pays: each leaves          30 ac
  $3,333.37
)");
}

TEST_CASE("jobs without machines have a season too") {
    engine::SeasonJob job = made_job("One", "2027-06-21", 2);
    job.uses.clear();
    const std::string page = cli::season_text(season_of({job}), names_of(), false);
    CHECK(page.starts_with("Season: summer: 1 job, $2,000 in prices, $600 profit\n"));
    CHECK(section(page, "Who is where") == R"(Who is where, as dated
  no job says which machine it takes: its model counts no hours of one
)");
    CHECK(section(page, "Machine hours by month").empty());
    CHECK(section(page, "Months") == R"(Months
             days  acres  gallons   spent  billed  received
  June 2027     2     20      100  $1,200  $2,000        $0
  July 2027     0      0        0      $0      $0    $2,000
  Spent: direct cost of the work done. Billed: jobs done in the month.
    Received: 20 days after a job's last day.
)");
}

} // namespace season_text_test
