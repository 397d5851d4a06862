// An instance with values of its own starts from the shared one: what `with` does not name has the
// value that the season or the job gave to the model as such. What is to stay as the models have it
// loses before that what was set for it.
#include <algorithm>
#include <string>
#include <unordered_map>
#include <utility>
#include <vector>

#include "lang/check/resolve/formula.h"
#include "lang/check/resolve/lookup.h"
#include "lang/check/resolve/resolution.h"

namespace acre::lang::resolving {
namespace {

bool reads_lines(const Sheet& sheet, NodeId formula) {
    if (formula == none)
        return false;
    bool reads = sheet.nodes[formula].op == Op::Line;
    for_each_child(sheet, sheet.nodes[formula],
                   [&](NodeId child) { reads = reads || reads_lines(sheet, child); });
    return reads;
}

class Followers {
  public:
    explicit Followers(Resolution& r) : r_(r), origin_(r.instances.size(), none) {}

    void run() {
        for (std::uint32_t id = 0; id < r_.instances.size() && !r_.full; ++id) {
            const Instance& here = r_.instances[id];
            if (here.owner == none || r_.shared[here.module] == id)
                continue;
            origin_[id] = origin_of(here);
            if (origin_[id] != none)
                follow(id, origin_[id]);
        }
        if (!followed_.empty())
            move_correlations();
    }

  private:
    // The instance of the same place below the owner's own origin, or else the shared one. An owner
    // stands before what it made.
    std::uint32_t origin_of(const Instance& here) const {
        const std::uint32_t above = origin_[here.owner];
        if (above == none)
            return r_.shared[here.module];
        const Instance& owner = r_.instances[here.owner];
        const Alias& alias = r_.scopes[owner.module].aliases[here.alias];
        const std::uint32_t target = r_.instances[above].targets[here.alias];
        return target == none ? none
                              : target + r_.copy_index(alias.of, r_.instances[above].at, here.at);
    }

    void follow(std::uint32_t id, std::uint32_t origin) {
        const Instance& here = r_.instances[id];
        const Scope& scope = r_.scopes[here.module];
        for (const Symbol& symbol : scope.symbols) {
            const Lists& of = scope.lists_of(symbol);
            const bool given = symbol.kind == Symbol::Kind::Given;
            for (std::uint32_t c = 0; given && c < r_.copies(of, here.at) && !r_.full; ++c) {
                const Entries at = r_.copy(of, here.at, c);
                follow_line(line_of(r_, id, symbol, 0, at), line_of(r_, origin, symbol, 0, at));
            }
        }
    }

    void follow_line(LineId line, LineId origin) {
        Given& given = r_.sheet.givens[r_.sheet.lines[line].given];
        const std::vector<Setting>& there = r_.sheet.givens[r_.sheet.lines[origin].given].settings;
        if (there.empty() ||
            (!given.settings.empty() && given.settings.back().layer != Layer::Model))
            return;
        const Setting& last = there.back();
        if (last.layer == Layer::Model && reads_lines(r_.sheet, last.value))
            return; // computed: anew from what this instance has
        const Span span = last.value == none ? last.span : r_.sheet.nodes[last.value].span;
        given.settings.push_back(
            {last.layer, last.span, line_node(r_, origin, span), last.because});
        given.swing_low = given.swing_high = none; // it moves with the shared one
        given.chosen = given.of_it = false;
        followed_.emplace(r_.sheet.lines[line].given, r_.sheet.lines[origin].given);
    }

    // What follows is not drawn: whom it follows is.
    void move_correlations() {
        std::vector<Correlation> kept;
        for (Correlation c : r_.sheet.correlations) {
            const bool moves = followed_.count(c.first) + followed_.count(c.second) > 0;
            c.first = drawn(c.first);
            c.second = drawn(c.second);
            const bool there = std::any_of(kept.begin(), kept.end(), [&](const Correlation& other) {
                return (other.first == c.first && other.second == c.second) ||
                       (other.first == c.second && other.second == c.first);
            });
            if (!moves || (!there && c.first != c.second))
                kept.push_back(c);
        }
        r_.sheet.correlations = std::move(kept);
    }

    std::uint32_t drawn(std::uint32_t given) const {
        const auto there = followed_.find(given);
        return there == followed_.end() ? given : drawn(there->second);
    }

    Resolution& r_;
    std::unordered_map<std::uint32_t, std::uint32_t> followed_; // givens: of whom each is
    std::vector<std::uint32_t> origin_; // by instance: whose values it starts from; none: its own
};

} // namespace

void keep_as_modeled(Resolution& r) {
    const std::vector<std::string>& names = r.program.as_modeled;
    if (names.empty())
        return;
    for (Given& given : r.sheet.givens)
        if (std::find(names.begin(), names.end(), r.sheet.lines[given.line].name) != names.end())
            std::erase_if(given.settings,
                          [](const Setting& set) { return set.layer > Layer::Binding; });
}

void start_from_shared(Resolution& r) {
    if (rules_of(r.program.notation).copies_start_from_shared)
        Followers(r).run();
}

} // namespace acre::lang::resolving
