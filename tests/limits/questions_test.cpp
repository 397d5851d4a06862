// What is asked of a job, at the limits of each question.
#include "engine/questions/bridge/bridge.h"
#include "engine/questions/calendar.h"
#include "engine/questions/risk/risk.h"
#include "engine/questions/what_if/grid.h"
#include "engine/questions/what_if/sensitivity.h"
#include "lang/units/calendar.h"
#include "tests/limits/limits.h"
#include "tests/support/priced.h"

namespace acre::tests {
namespace {

using namespace acre::engine;

std::string model(const std::string& givens, const std::string& quantity) {
    return "model \"m\"\n" + givens + "cost c : $ = $1 over " + quantity + "\nprice \"P\" lump\n";
}

std::vector<double> places_of(std::uint64_t n) {
    std::vector<double> at(n);
    for (std::uint64_t i = 0; i < n; ++i)
        at[i] = static_cast<double>(i);
    return at;
}

std::string gridded(const Priced& job, const GridQuestion& question) {
    return title_of(ask(job.job(), question).said);
}
std::string grid_axes(std::uint64_t n) {
    const Priced job =
        priced_ok(model("given " + counted("a", " = 1\ngiven ", n) + " = 1\n", "a0"));
    GridQuestion question;
    std::vector<std::string> names;
    for (std::uint64_t i = 0; i < n; ++i)
        names.push_back("a" + std::to_string(i));
    for (const std::string& name : names)
        question.along.push_back({name, {1, 2}});
    return gridded(job, question);
}
std::string grid_of(std::uint64_t cells, std::size_t lines) {
    const Priced job = priced_ok(model("given a = 1\n", "a"));
    GridQuestion question;
    question.along.push_back({"a", places_of(cells)});
    question.lines.assign(lines, "cost.total");
    return gridded(job, question);
}
// A grid of a long formula.
std::string grid_of_effort(std::uint64_t /*n*/) {
    std::string lines = "x0 : 1 = a\n";
    for (int i = 0; i < 10'000; ++i)
        lines += "x" + std::to_string(i + 1) + " : 1 = x" + std::to_string(i) + " * 0.9 + 1\n";
    const Priced job = priced_ok(model("given a = 1\n" + lines, "x10000"));
    GridQuestion question;
    question.along.push_back({"a", places_of(4'000'000)});
    return gridded(job, question);
}

std::string dated(std::uint64_t days, const std::string& season) {
    const Priced job =
        priced_ok("job \"j\"\nmodel \"w\"\nseason \"s\"\ndate 2000-01-01\nset days = " +
                      std::to_string(days) + " day\n",
                  {{{"w.rate", model("given days = 1 day  \"days\"\n", "days / 1 day")},
                    {"s.season", "season \"s\"\n" + season}}});
    return title_of(ask(job.job(), CalendarQuestion{}).said);
}
// Two days of work, `n` from the first to the second.
std::string apart(std::uint64_t n) {
    const long first = lang::day_number(2000, 1, 1);
    return dated(2, "closed 2000-01-02 .. " + lang::date_text(first + static_cast<long>(n) - 2) +
                        "\n");
}

std::string swinging(std::uint64_t n) {
    std::string lines = "s0 : 1 = 0\n";
    for (std::uint64_t i = 0; i < n; ++i)
        lines += "given a" + std::to_string(i) + " = 1 swing 0.5 .. 2\ns" + std::to_string(i + 1) +
                 " : 1 = s" + std::to_string(i) + " + a" + std::to_string(i) + "\n";
    return model(lines, "s" + std::to_string(n));
}
std::string moved(std::uint64_t n) {
    const Priced job = priced_ok(swinging(n));
    return title_of(ask(job.job(), SensitivityQuestion{"cost.total"}).said);
}

std::string drawn(const Priced& job, RiskQuestion question) {
    question.share_trials = 0;
    return title_of(ask(job.job(), question).said);
}
RiskQuestion trials(std::uint64_t n) {
    RiskQuestion question;
    question.lines = {"cost.total"};
    question.trials = n;
    return question;
}

std::string bridged(std::uint64_t changes) {
    std::string sets;
    for (std::uint64_t i = 0; i < changes; ++i)
        sets += "set a" + std::to_string(i) + " = 2\n";
    MemoryLoader loader(
        {{"m.rate", model("given " + counted("a", " = 1\ngiven ", changes) + " = 1\n",
                          counted("a", " + ", changes))}});
    const auto side = [&](const std::string& text) {
        return *make_job(request_of("job \"j\"\nmodel \"m\"\n" + text, {}), loader);
    };
    const auto answer = ask(*side(""), *side(sets), {"", "", "", "", true});
    return answer ? "" : answer.said.diagnostics.all().front().title;
}

} // namespace

std::vector<LimitCase> cases_of_questions() {
    return {
        {"max_grid_axes", grid_axes},
        {"max_grid_cells", [](auto n) { return grid_of(n, 1); }},
        {"max_grid_answers", [](auto n) { return grid_of((n + 15) / 16, 16); }},
        {"max_effort", grid_of_effort, false},
        {"max_moved", moved, false},
        {"max_point_dimensions",
         [](auto n) { return drawn(priced_ok(swinging((n + 1) / 2)), trials(256)); }},
        {"max_job_days", [](auto n) { return dated(n, ""); }},
        {"max_calendar_days", apart},
        {"max_trials", [](auto n) { return drawn(priced_ok(swinging(2)), trials(n)); }, false},
        {"max_measured",
         [](auto n) {
             RiskQuestion question = trials(256);
             question.lines.assign(n, "cost.total");
             return drawn(priced_ok(swinging(2)), question);
         }},
        {"max_players", bridged},
    };
}

TEST_CASE("a model too large to be drawn as often as usual is drawn less, one that is small as "
          "often as was said") {
    std::string lines = "x0 : 1 = a\n";
    for (int i = 0; i < 20'000; ++i)
        lines +=
            "x" + std::to_string(i + 1) + " : 1 = sin(x" + std::to_string(i) + " * 1 deg) + a\n";
    const Priced large = priced_ok(model("given a = 1 swing 0.5 .. 2\n" + lines, "x20000"));
    const Priced small = priced_ok(swinging(3));
    RiskQuestion question = trials(131'072);
    question.within_effort = true;
    question.share_trials = 1 << 14;
    const auto drawn_small = ask(small.job(), question);
    REQUIRE_MESSAGE(drawn_small.value.has_value(), title_of(drawn_small.said));
    CHECK(drawn_small->trials == 131'072);
    CHECK(drawn_small->shares.has_value());
    const auto drawn_large = ask(large.job(), question);
    REQUIRE_MESSAGE(drawn_large.value.has_value(), title_of(drawn_large.said));
    CHECK(drawn_large->trials < 30'000);
    CHECK(drawn_large->trials >= 4'096);
}

TEST_CASE("sensitivity of very many givens looks near those that do most") {
    const Priced job = priced_ok(swinging(max_paired + 20));
    const auto answer = ask(job.job(), SensitivityQuestion{"cost.total"});
    REQUIRE_MESSAGE(answer.value.has_value(), title_of(answer.said));
    CHECK(answer->looked_together == max_paired);
    CHECK(answer->looked_near == answer->effects.size());
}

} // namespace acre::tests
