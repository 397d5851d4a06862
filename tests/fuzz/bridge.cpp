// Bytes throw two jobs and their models. What the bridge gives to each change is held against the
// mean over every order of the changes, with prices worked out by hand.
#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <optional>
#include <set>

#include "engine/driver.h"
#include "engine/questions/bridge/bridge.h"
#include "tests/fuzz/target.h"
#include "tests/support/dice.h"
#include "tests/support/memory_loader.h"

namespace bridge_fuzz {

using namespace acre;

namespace {

enum Given : std::uint8_t { Area, Pace, Drag, Extra, Rate, Diesel, Burn, Share, Method };
constexpr std::size_t givens = 9;
constexpr std::array<const char*, givens> names{"area",   "pace", "drag",  "extra", "rate",
                                                "diesel", "burn", "share", "method"};
constexpr std::array<const char*, givens> units{" ac",    " ac/h",  " ac/h", "", " $/h",
                                                " $/gal", " gal/h", " %",    ""};

struct Side {
    std::array<int, givens> value{};  // of the method: 0 one, 1 both
    std::size_t hours = 0, steps = 0; // of the model
};

std::string model_of(const Side& side) {
    static constexpr const char* rounded[] = {"", "", "ceil("};
    static constexpr const char* ends[] = {"", " + 2 h", ", 1 h)"};
    static constexpr const char* steps[] = {"  margin share\n", "  overhead 9 %\n  margin share\n",
                                            "  margin share\n  round up to $1/ac\n",
                                            "  markup share\n  at least $4,000\n", ""};
    return tests::in_order(
        {"model \"m\"\ngiven area = 80 ac\ngiven pace = 3 ac/h\ngiven drag = 0 ac/h\n"
         "given extra = 2\ngiven rate = $300/h\ngiven diesel = $4/gal\ngiven burn = 35 gal/h\n"
         "given share = 12 %\ngiven method = one | both\nhours : h = ",
         rounded[side.hours], "area / (pace - drag) * (when method is both then extra otherwise 1)",
         ends[side.hours],
         "\ncost machine : $/h = rate over hours\ncost fuel : $/gal = diesel over burn * hours\n"
         "price \"Ripping\" per ac of area\n",
         steps[side.steps]});
}

std::string job_of(const Side& side) {
    std::string text = "job \"j\"\nmodel \"m\"\n";
    for (std::size_t i = 0; i < givens; ++i)
        text += tests::in_order({"set ", names[i], " = ",
                                 i == Method ? side.value[i] == 1 ? "both" : "one"
                                             : std::to_string(side.value[i]) + units[i],
                                 "\n"});
    return text;
}

struct Worth {
    double price = 0;
    bool doubtful = false; // a step right at its edge
};

Worth worth(const Side& side, bool total) {
    const auto of = [&](Given given) { return static_cast<double>(side.value[given]); };
    Worth result;
    const auto up = [&](double x) {
        result.doubtful |= std::fabs(x - std::round(x)) < 1e-9 * (1 + std::fabs(x));
        return std::ceil(x);
    };
    double hours = of(Area) / (of(Pace) - of(Drag)) * (side.value[Method] == 1 ? of(Extra) : 1);
    hours = side.hours == 0 ? hours : side.hours == 1 ? hours + 2 : up(hours);
    double price = hours * (of(Rate) + of(Diesel) * of(Burn));
    const double share = of(Share) / 100;
    if (side.steps < 3)
        price *= (side.steps == 1 ? 1.09 : 1) / (1 - share);
    if (side.steps == 2)
        price = up(price / of(Area)) * of(Area);
    if (side.steps == 3)
        price = std::max(price * (1 + share), 4000.0);
    result.price = total ? price : price / of(Area);
    if (side.value[Pace] == side.value[Drag])
        result.price = NAN;
    return result;
}

// The old side with some rows of the bridge taken to the new one, the model with one of them.
Side mixed(const Side& before, const Side& after, const std::vector<engine::BridgeRow>& rows,
           std::size_t taken, std::size_t with_model) {
    Side side = before;
    for (std::size_t row = 0; row < rows.size(); ++row) {
        if ((taken >> row & 1U) == 0)
            continue;
        if (row == with_model) {
            side.hours = after.hours;
            side.steps = after.steps;
        }
        for (const engine::BridgeChange& change : rows[row].changes)
            for (std::size_t i = 0; i < givens; ++i)
                if (change.name == names[i])
                    side.value[i] = after.value[i];
    }
    return side;
}

// By row: what it adds, on the mean of all orders.
std::vector<double> by_every_order(const std::vector<double>& worths, std::size_t rows) {
    std::vector<std::size_t> order(rows);
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::vector<double> shares(rows, 0.0);
    double orders = 0;
    do {
        std::size_t taken = 0;
        for (const std::size_t row : order) {
            const std::size_t next = taken | std::size_t{1} << row;
            shares[row] += worths[next] - worths[taken];
            taken = next;
        }
        ++orders;
    } while (std::next_permutation(order.begin(), order.end()));
    for (double& share : shares)
        share /= orders;
    return shares;
}

// Every change is in one row, and nothing else is.
void hold_changes(const Side& before, const Side& after,
                  const std::vector<engine::BridgeRow>& rows) {
    std::multiset<std::string> told, wanted;
    for (const engine::BridgeRow& row : rows)
        for (const engine::BridgeChange& change : row.changes)
            told.insert(change.name);
    for (std::size_t i = 0; i < givens; ++i)
        if (before.value[i] != after.value[i])
            wanted.insert(names[i]);
    HOLDS(told == wanted);
}

// Whether the rows have what they have on the mean of all orders, the model with one of them.
// Empty: a price stands at the edge of a step.
std::optional<bool> are_fair(const engine::BridgeAnswer& bridge, const Side& before,
                             const Side& after, const std::vector<engine::BridgeRow>& rows,
                             bool total, std::size_t with_model) {
    std::vector<double> worths;
    double scale = 1;
    for (std::size_t taken = 0; taken < std::size_t{1} << rows.size(); ++taken) {
        const Worth one = worth(mixed(before, after, rows, taken, with_model), total);
        if (one.doubtful)
            return std::nullopt;
        worths.push_back(one.price);
        scale = std::max(scale, std::fabs(one.price));
    }
    const auto near = [&](double a, double b) { return std::fabs(a - b) <= 1e-9 * scale; };
    bool fair =
        near(bridge.before.value, worths.front()) && near(bridge.after.value, worths.back());
    const std::vector<double> shares = by_every_order(worths, rows.size());
    for (std::size_t row = 0; row < rows.size(); ++row)
        fair = fair && near(rows[row].share, shares[row]);
    return fair;
}

void hold_rows(const engine::BridgeAnswer& bridge, const Side& before, const Side& after,
               bool total) {
    std::vector<engine::BridgeRow> rows = bridge.rows;
    std::int64_t cents = 0;
    for (const engine::BridgeRow& row : rows)
        cents += row.cents;
    HOLDS(cents == bridge.after.cents - bridge.before.cents);
    if (!rows.empty() && rows.back().kind == engine::BridgeKind::Rounding)
        rows.pop_back();
    hold_changes(before, after, rows);
    bool fair = false, model = false;
    for (std::size_t row = 0; row < rows.size(); ++row) {
        HOLDS(std::fabs(static_cast<double>(rows[row].cents) - 100 * rows[row].share) <=
              0.5 + 1e-9 * std::fabs(rows[row].share));
        HOLDS(row == 0 || std::fabs(rows[row - 1].share) >= std::fabs(rows[row].share));
        model = model || rows[row].kind == engine::BridgeKind::Model;
    }
    const bool same = before.hours == after.hours && before.steps == after.steps;
    HOLDS(!(same && model));
    // A model that goes together with givens is not told: one of those rows has it.
    for (std::size_t row = 0; row <= rows.size() && !fair; ++row)
        if (same ? row == rows.size()
                 : row < rows.size() && rows[row].kind == (model ? engine::BridgeKind::Model
                                                                 : engine::BridgeKind::Together))
            fair = are_fair(bridge, before, after, rows, total, row).value_or(true);
    HOLDS(fair);
}

} // namespace

ACREWRIGHT_TARGET(bridge, bytes) {
    tests::Dice dice(bytes);
    const bool total = dice.below(2) == 1;
    Side before;
    for (std::size_t i = 0; i < givens; ++i)
        before.value[i] = static_cast<int>(i == Method ? dice.below(2) : 1 + dice.below(90));
    before.value[Drag] = static_cast<int>(dice.below(3));
    before.hours = dice.below(3);
    before.steps = dice.below(5);
    Side after = before;
    for (std::size_t changes = 1 + dice.below(4); changes > 0; --changes) {
        const std::size_t i = dice.below(givens);
        after.value[i] = static_cast<int>(i == Method ? dice.below(2) : dice.below(90));
    }
    if (dice.below(3) == 1) {
        after.hours = dice.below(3);
        after.steps = dice.below(5);
    }
    const auto made = [&](const Side& side) {
        tests::MemoryLoader loader({{"m.rate", model_of(side)}});
        lang::Request request;
        request.name = "j.job";
        request.text = job_of(side);
        fuzz::show(request.text);
        return engine::make_job(request, loader);
    };
    const lang::Outcome<engine::Job> old = made(before);
    const lang::Outcome<engine::Job> now = made(after);
    HOLDS(old && now);
    const lang::Outcome<engine::BridgeAnswer> bridge =
        engine::ask(**old, **now, {"", "", "", "", total});
    if (!bridge) {
        HOLDS(bridge.said.diagnostics.has_errors());
        return;
    }
    HOLDS(bridge->exact);
    hold_rows(*bridge, before, after, total);
    fuzz::show(std::to_string(bridge->rows.size()) + " rows");
}

} // namespace bridge_fuzz
