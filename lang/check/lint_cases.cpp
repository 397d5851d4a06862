#include "lang/check/lint_cases.h"

#include <algorithm>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "lang/check/resolve/report.h"

namespace acre::lang {
namespace {

// A comparison of something with a number of the same unit: `hours > 1,000 h`.
struct Bound {
    std::string_view of;
    double number = 0;
    bool above = false;  // `>` and `>=`
    bool itself = false; // `>=` and `<=`
};

class Cases {
  public:
    Cases(const Sheet& sheet, const SourceMap& sources, Diagnostics& diagnostics)
        : sheet_(sheet),
          sources_(sources),
          diagnostics_(diagnostics) {}

    void run() {
        std::vector<bool> later(sheet_.nodes.size(), false);
        for (const Node& node : sheet_.nodes)
            if (node.op == Op::When && is_when(node.c))
                later[node.c] = true;
        for (NodeId id = 0; id < sheet_.nodes.size(); ++id)
            if (is_when(id) && !later[id])
                chain(id);
    }

  private:
    bool is_when(NodeId id) const { return id != none && sheet_.nodes[id].op == Op::When; }

    // A chain is no longer than formulas are deep (max_nesting).
    void chain(NodeId id) {
        std::vector<NodeId> asked;
        for (; is_when(id); id = sheet_.nodes[id].c) {
            const NodeId condition = sheet_.nodes[id].a;
            if (condition == none)
                return;
            const auto taken = std::find_if(asked.begin(), asked.end(), [&](NodeId earlier) {
                return takes(earlier, condition);
            });
            if (taken != asked.end())
                report(*taken, condition);
            asked.push_back(condition);
        }
    }

    bool takes(NodeId earlier, NodeId later) const {
        if (same_words(earlier, later))
            return true;
        const std::optional<Bound> first = bound(earlier);
        const std::optional<Bound> second = bound(later);
        if (!first || !second || first->of != second->of || first->above != second->above)
            return false;
        if (first->number == second->number)
            return first->itself || !second->itself;
        return first->above ? second->number > first->number : second->number < first->number;
    }

    bool same_words(NodeId a, NodeId b) const {
        const std::string_view left = sources_.text(sheet_.nodes[a].span);
        const std::string_view right = sources_.text(sheet_.nodes[b].span);
        return !left.empty() && left == right;
    }

    std::optional<Bound> bound(NodeId id) const {
        const Node& node = sheet_.nodes[id];
        const bool above = node.op == Op::Greater || node.op == Op::GreaterEqual;
        const bool below = node.op == Op::Less || node.op == Op::LessEqual;
        if ((!above && !below) || node.a == none || node.b == none ||
            sheet_.nodes[node.a].op == Op::Number)
            return std::nullopt;
        NodeId side = node.b; // in the unit of the left one: check has seen to it
        const bool converted = sheet_.nodes[side].op == Op::Convert;
        if (converted)
            side = sheet_.nodes[side].a;
        if (sheet_.nodes[side].op != Op::Number)
            return std::nullopt;
        const double number = sheet_.nodes[side].number;
        return Bound{sources_.text(sheet_.nodes[node.a].span),
                     converted ? sheet_.nodes[node.b].conversion.apply(number) : number, above,
                     node.op == Op::GreaterEqual || node.op == Op::LessEqual};
    }

    void report(NodeId earlier, NodeId later) {
        Diagnostic d = resolving::problem(Code::L826, "this case is never reached",
                                          sheet_.nodes[later].span, "never reached");
        d.others.push_back({sheet_.nodes[earlier].span, "takes it first"});
        d.notes.emplace_back("the first case that holds is taken, from left to right");
        d.helps.push_back(
            {same_words(earlier, later)
                 ? std::string("ask for another case here, or take it out")
                 : fmt::format("put it before  {}", sources_.text(sheet_.nodes[earlier].span)),
             std::nullopt});
        diagnostics_.add(std::move(d));
    }

    const Sheet& sheet_;
    const SourceMap& sources_;
    Diagnostics& diagnostics_;
};

} // namespace

void lint_cases(const Sheet& sheet, const SourceMap& sources, Diagnostics& diagnostics) {
    Cases(sheet, sources, diagnostics).run();
}

} // namespace acre::lang
