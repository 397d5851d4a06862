// Bytes throw two jobs and their models (naive/two_sides.h). Which changes stand in one row, what
// the bridge gives to each, and how it calls them, is held against the mean over every order of
// the changes, with prices worked out by hand.
#include <algorithm>
#include <cmath>

#include "engine/driver.h"
#include "engine/questions/bridge/bridge.h"
#include "lang/diag/render.h"
#include "tests/fuzz/naive/two_sides.h"
#include "tests/fuzz/target.h"
#include "tests/support/memory_loader.h"

namespace bridge_fuzz {

using namespace acre;
using namespace acre::fuzz::naive;
using engine::BridgeKind;

namespace {

struct Asked {
    Side before, after;
    bool total = false;
};

Parts parts_of(const engine::BridgeRow& row) {
    Parts parts;
    for (const engine::BridgeChange& change : row.changes)
        for (int i = 0; i < static_cast<int>(givens); ++i)
            if (change.name == given_names[static_cast<std::size_t>(i)])
                parts.insert(i);
    return parts;
}

// The group of a row: its givens, and the model and the library that go with them.
std::size_t group_of(const engine::BridgeRow& row, const std::vector<Parts>& groups) {
    const Parts told = parts_of(row);
    HOLDS(told.size() == row.changes.size());
    for (std::size_t i = 0; i < groups.size(); ++i) {
        Parts plain = groups[i];
        const bool model = plain.erase(model_part) > 0;
        const bool library = plain.erase(library_part) > 0;
        const BridgeKind kind = groups[i].size() > 1 && !plain.empty() ? BridgeKind::Together
                                : model                                ? BridgeKind::Model
                                : library                              ? BridgeKind::Library
                                                                       : BridgeKind::Given;
        if (plain == told && (!told.empty() || row.kind == kind)) {
            HOLDS(row.kind == kind);
            return i;
        }
    }
    HOLDS_FOR(false, "a row of changes that do not go together");
    return 0;
}

// What is said of the changes of a row.
void hold_words(const engine::BridgeRow& row, const Asked& asked) {
    std::string because;
    for (const engine::BridgeChange& change : row.changes) {
        const auto at = std::find(given_names.begin(), given_names.end(), change.name);
        const auto given = static_cast<Given>(at - given_names.begin());
        HOLDS(change.label == label_of(given, asked.after));
        HOLDS_FOR(change.before == shown(given, asked.before), change.before);
        HOLDS_FOR(change.after == shown(given, asked.after), change.after);
        HOLDS(change.choice == (given == Method));
        if (&change == row.changes.data() &&
            (given != Burn || asked.after.burn_from != BurnFrom::Model))
            because = "new " + change.name;
    }
    HOLDS_FOR(row.because == because, row.because);
}

void hold_rows(const engine::BridgeAnswer& bridge, const Asked& asked) {
    std::vector<engine::BridgeRow> rows = bridge.rows;
    const std::int64_t difference = bridge.after.cents - bridge.before.cents;
    std::int64_t cents = 0;
    double share = 0;
    for (const engine::BridgeRow& row : rows) {
        cents += row.cents;
        share += row.share;
    }
    const double scale = 1 + std::fabs(bridge.before.value) + std::fabs(bridge.after.value);
    HOLDS(cents == difference);
    if (!rows.empty() && rows.back().kind == BridgeKind::Rounding) {
        HOLDS(std::fabs(share - static_cast<double>(difference) / 100) <= 1e-9 * scale);
        HOLDS(rows.back().changes.empty() && rows.back().cents != 0);
        rows.pop_back();
    }
    const std::vector<Parts> all = groups(asked.before, asked.after, asked.total);
    const std::vector<double> shares = by_every_order(asked.before, asked.after, all, asked.total);
    std::set<std::size_t> told;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const engine::BridgeRow& row = rows[i];
        const std::size_t group = group_of(row, all);
        HOLDS(told.insert(group).second);
        HOLDS(shares.empty() || std::fabs(row.share - shares[group]) <= 1e-9 * scale);
        HOLDS(std::fabs(static_cast<double>(row.cents) - 100 * row.share) <=
              0.5 + 1e-9 * std::fabs(row.share));
        HOLDS(i == 0 || std::fabs(rows[i - 1].share) >= std::fabs(row.share));
        hold_words(row, asked);
    }
    HOLDS(told.size() == all.size());
}

void hold_side(const engine::BridgeSide& told, const Side& side, bool total) {
    const Worth by_hand = worth(side);
    HOLDS(told.label == "j (" + told.what + ")");
    if (by_hand.doubtful)
        return;
    const double price = by_hand.price(total);
    HOLDS(std::fabs(told.value - price) <= 1e-9 * (1 + price));
    // As quoted: the whole price in cents, and by the acre what that comes to. Where a rate of four
    // decimals is as good as the price, it is charged.
    const double cents = 100 * by_hand.total + 0.5;
    const double quoted = std::floor(cents);
    const double acres = side.value[Area];
    const double wanted = total ? quoted : std::floor(quoted / acres + 0.5 + 1e-9);
    const double off = std::fabs(static_cast<double>(told.cents) - wanted);
    const bool at_half = std::fabs(cents - std::round(cents)) < 1e-9 * (1 + cents);
    HOLDS(off <= 1e-9 * quoted + (at_half ? 1 : 0));
}

void hold_kept(const engine::BridgeAnswer& bridge, const Asked& asked) {
    HOLDS(bridge.kept.has_value() == (asked.before.value[Area] == asked.after.value[Area]));
    const Worth before = worth(asked.before), after = worth(asked.after);
    if (!bridge.kept || before.doubtful || after.doubtful)
        return;
    const auto near = [](double told, double by_hand, double off) {
        return std::fabs(told - by_hand) <= off + 1e-9 * std::fabs(by_hand);
    };
    HOLDS(near(bridge.kept->price, before.total, 0.01));
    HOLDS(near(bridge.kept->overhead, asked.before.steps == 1 ? 0.09 * before.cost : 0, 0));
    HOLDS(near(bridge.kept->direct_cost_before, before.cost, 0));
    HOLDS(near(bridge.kept->direct_cost_after, after.cost, 0));
}

lang::Outcome<engine::Job> made(const Side& side, const std::string& because) {
    tests::MemoryLoader loader(
        {{"m.rate", model_of(side)}, {"library/own.rate", library_of(side)}});
    lang::Request request;
    request.name = "j.job";
    request.text = job_of(side, because);
    fuzz::show(model_of(side) + request.text);
    return engine::make_job(request, loader);
}

bool is_priced(const Side& side) {
    const bool is_ahead =
        side.hours == 3 ? side.value[Pace] > 0 : side.value[Pace] > side.value[Drag];
    return is_ahead && side.value[Area] > 0;
}

} // namespace

ACREWRIGHT_TARGET(bridge, bytes) {
    tests::Dice dice(bytes);
    Asked asked;
    asked.total = dice.below(2) == 1;
    asked.before = draw_side(dice);
    asked.after = draw_changes(asked.before, dice);
    const lang::Outcome<engine::Job> old = made(asked.before, "old");
    const lang::Outcome<engine::Job> now = made(asked.after, "new");
    for (const lang::Said* said : {&old.said, &now.said})
        HOLDS_FOR(!said->diagnostics.has_errors(), lang::render(said->diagnostics, *said->sources));
    const lang::Outcome<engine::BridgeAnswer> bridge =
        engine::ask(**old, **now, {"a.job", "b.job", "", "", asked.total});
    if (!bridge) {
        HOLDS(bridge.said.diagnostics.has_errors());
        HOLDS_FOR(!is_priced(asked.before) || !is_priced(asked.after),
                  bridge.said.diagnostics.all().front().title);
        return;
    }
    HOLDS(bridge->exact);
    HOLDS(bridge->unit == (asked.total ? "$" : "$/ac"));
    hold_side(bridge->before, asked.before, asked.total);
    hold_side(bridge->after, asked.after, asked.total);
    hold_kept(*bridge, asked);
    hold_rows(*bridge, asked);
    fuzz::show(std::to_string(bridge->rows.size()) + " rows");
}

} // namespace bridge_fuzz
