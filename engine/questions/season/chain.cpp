#include "engine/questions/season/chain.h"

#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "engine/log/csv_table.h"
#include "lang/source/source_map.h"
#include "lang/units/number_text.h"

namespace acre::engine {
namespace {

std::string name_of_job(const SeasonJob& job) {
    std::string name = job.file.substr(job.file.rfind('/') + 1);
    if (name.ends_with(".job"))
        name.resize(name.size() - 4);
    return name;
}

lang::Diagnostic bad_roads(const std::string& name, std::string why) {
    return lang::placeless(lang::Code::C003, "`" + name + "`: " + std::move(why), {},
                           {"its first row is  from,to,GIVEN,...  as in  from,to,site.miles"});
}

// Jobs that follow each other on one unit of a machine, by the plan.
std::vector<std::pair<std::size_t, std::size_t>> followers(const Season& season) {
    std::map<std::pair<std::string, std::size_t>, std::vector<std::size_t>> by_unit;
    for (std::size_t i = 0; i < season.jobs.size(); ++i)
        if (season.plan->jobs[i].fits)
            for (const UnitStay& stay : season.plan->units[i])
                for (const std::size_t unit : stay.units) {
                    auto& of = by_unit[{season.jobs[i].uses[stay.use].machine, unit}];
                    if (std::find(of.begin(), of.end(), i) == of.end())
                        of.push_back(i);
                }
    std::vector<std::pair<std::size_t, std::size_t>> pairs;
    for (auto& [unit, jobs] : by_unit) {
        std::stable_sort(jobs.begin(), jobs.end(), [&](std::size_t a, std::size_t b) {
            return season.plan->jobs[a].at.start < season.plan->jobs[b].at.start;
        });
        for (std::size_t k = 1; k < jobs.size(); ++k)
            if (std::find(pairs.begin(), pairs.end(), std::pair(jobs[k - 1], jobs[k])) ==
                pairs.end())
                pairs.emplace_back(jobs[k - 1], jobs[k]);
    }
    return pairs;
}

class Chainer {
  public:
    Chainer(const Season& season, const std::vector<Road>& roads, const std::string& moves,
            const Reprice& reprice, MoveChain& into)
        : s_(season),
          roads_(roads),
          moves_(moves),
          reprice_(reprice),
          into_(into) {}

    void run() {
        for (const auto& [a, b] : followers(s_))
            if (const Road* road = road_between(a, b))
                link(a, b, *road);
        for (auto& [job, chained] : jobs_)
            into_.jobs.push_back(chained);
        std::stable_sort(into_.jobs.begin(), into_.jobs.end(),
                         [&](const ChainedJob& a, const ChainedJob& b) {
                             return s_.plan->jobs[a.job].at.start < s_.plan->jobs[b.job].at.start;
                         });
        for (const ChainedJob& job : into_.jobs) {
            into_.cost_saved += job.quoted.cost - job.chained.cost;
            into_.charged_less += job.quoted.price - job.chained.price;
        }
    }

  private:
    const Season& s_;
    const std::vector<Road>& roads_;
    const std::string& moves_;
    const Reprice& reprice_;
    MoveChain& into_;
    std::map<std::size_t, ChainedJob> jobs_;
    struct Legs { // of a job: both ways, and its way in alone
        MoveMoney both, in;
    };
    std::map<std::size_t, std::optional<Legs>> legs_;

    const Road* road_between(std::size_t a, std::size_t b) const {
        const std::string from = name_of_job(s_.jobs[a]), to = name_of_job(s_.jobs[b]);
        for (const Road& road : roads_)
            if (road.from == from && road.to == to)
                return &road;
        return nullptr;
    }
    void refuse(std::size_t a, std::size_t b, const std::string& why) {
        into_.why_not.push_back(
            fmt::format("\"{}\" to \"{}\": {}", s_.jobs[a].title, s_.jobs[b].title, why));
    }

    const std::optional<Legs>& legs_of(std::size_t job) {
        const auto [at, added] = legs_.try_emplace(job);
        if (added) {
            const auto both = reprice_(job, {{moves_, "2"}});
            const auto in = reprice_(job, {{moves_, "1"}});
            // A job whose moves are set otherwise is chained already, by whoever set them.
            if (both && in && both->price == s_.jobs[job].price)
                at->second = Legs{*both, *in};
        }
        return at->second;
    }

    void link(std::size_t a, std::size_t b, const Road& road) {
        const long wait = s_.plan->jobs[b].at.start - s_.plan->jobs[a].at.finish - 1;
        if (wait > longest_stay)
            return refuse(a, b,
                          fmt::format("{} days lie between them, and a machine waits {} at a "
                                      "ranch at most",
                                      wait, longest_stay));
        const std::optional<Legs>& first = legs_of(a);
        const std::optional<Legs>& second = legs_of(b);
        if (!first || !second)
            return refuse(a, b, fmt::format("one of them does not pay two moves by `{}`", moves_));
        GivenSets way_in = road.way_in;
        way_in.emplace_back(moves_, "1");
        const std::optional<MoveMoney> over = reprice_(b, way_in);
        if (!over)
            return refuse(a, b,
                          "the second has no price with this road: a road listed by legs is "
                          "not replaced");
        const auto chained = [&](std::size_t job, const Legs& legs) -> ChainedJob& {
            const auto [at, added] = jobs_.try_emplace(job);
            if (added) {
                at->second.job = job;
                at->second.quoted = at->second.chained = legs.both;
            }
            return at->second;
        };
        ChainedJob& from = chained(a, *first);
        from.before = b; // its way home is not driven
        from.chained.price -= first->both.price - first->in.price;
        from.chained.cost -= first->both.cost - first->in.cost;
        ChainedJob& to = chained(b, *second);
        to.after = a;
        to.chained.price -= second->in.price - over->price;
        to.chained.cost -= second->in.cost - over->cost;
    }
};

} // namespace

lang::Outcome<std::vector<Road>> read_roads(std::string_view text, const std::string& name) {
    lang::SourceMap sources;
    const CsvTable table =
        read_csv(text, sources.add(name, std::string(text)), max_roads, max_road_givens + 2);
    if (!table.well_formed)
        return bad_roads(name, "not a table of CSV");
    if (table.too_many_rows)
        return bad_roads(name, "more than " + lang::number_text(max_roads) + " roads");
    if (table.rows.empty() || table.rows[0].size() < 3 || table.rows[0][0].text != "from" ||
        table.rows[0][1].text != "to" || table.rows[0].size() > max_road_givens + 2)
        return bad_roads(name, "no road: the first row names no columns `from`, `to` and a given");
    const CsvRow& heads = table.rows[0];
    std::vector<Road> roads;
    for (std::size_t r = 1; r < table.rows.size(); ++r) {
        const CsvRow& row = table.rows[r];
        if (row.size() != heads.size())
            return bad_roads(name, fmt::format("row {} has {} cells, and the first has {}", r + 1,
                                               row.size(), heads.size()));
        Road road{row[0].text, row[1].text, {}};
        for (std::size_t c = 2; c < row.size(); ++c)
            if (!row[c].text.empty())
                road.way_in.emplace_back(heads[c].text, row[c].text);
        if (road.from.empty() || road.to.empty() || road.way_in.empty())
            return bad_roads(name,
                             fmt::format("row {} says no road: from, to, and how far", r + 1));
        roads.push_back(std::move(road));
    }
    return roads;
}

MoveChain chain(const Season& season, const std::vector<Road>& roads, const std::string& moves,
                const Reprice& reprice) {
    MoveChain result;
    if (season.plan)
        Chainer(season, roads, moves, reprice, result).run();
    return result;
}

} // namespace acre::engine
