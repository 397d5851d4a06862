#include "lang/check/inner_lines.h"

#include <utility>

namespace acre::lang {
namespace {

class Marker {
  public:
    explicit Marker(const Sheet& sheet) : sheet_(sheet), marked_(sheet.lines.size(), false) {}

    void mark(LineId line) {
        if (line != none)
            marked_[line] = true;
    }
    // Every line that a formula names, whatever branch.
    void mark_named(NodeId formula) {
        std::vector<NodeId> rest;
        if (formula != none)
            rest.push_back(formula);
        while (!rest.empty()) {
            const Node& node = sheet_.nodes[rest.back()];
            rest.pop_back();
            if (node.op == Op::Line)
                mark(node.index);
            for_each_child(sheet_, node, [&](NodeId child) { rest.push_back(child); });
        }
    }
    std::vector<bool> take() { return std::move(marked_); }

  private:
    const Sheet& sheet_;
    std::vector<bool> marked_;
};

} // namespace

std::vector<bool> inner_lines(const Sheet& sheet) {
    Marker inner(sheet);
    for (const Cost& cost : sheet.costs) {
        inner.mark(cost.rate);
        inner.mark(cost.amount);
    }
    for (const Event& event : sheet.events) {
        inner.mark(event.amount);
        inner.mark(event.money);
    }
    for (const PriceItem& item : sheet.prices) {
        inner.mark(item.cost);
        for (const PriceStep& step : item.steps) {
            if (step.line != item.amount)
                inner.mark(step.line);
            if (step.kind != ast::StepKind::AtLeast)
                inner.mark_named(step.value);
        }
    }
    for (const LineId total : {sheet.cost_total, sheet.overhead_total, sheet.contribution_total,
                               sheet.contribution_share, sheet.profit_total, sheet.profit_share})
        inner.mark(total);
    return inner.take();
}

std::vector<bool> price_lines(const Sheet& sheet) {
    Marker told(sheet);
    for (const PriceItem& item : sheet.prices)
        for (const LineId line : {item.quantity, item.amount, item.rate})
            told.mark(line);
    told.mark(sheet.price_total);
    told.mark(sheet.price_per_unit);
    return told.take();
}

} // namespace acre::lang
