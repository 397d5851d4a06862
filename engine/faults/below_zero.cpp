#include "engine/faults/below_zero.h"

#include <algorithm>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "engine/plan/not_negative.h"
#include "engine/plan/operands.h"
#include "engine/plan/plan_roots.h"
#include "engine/words/words.h"

namespace acre::engine {

using lang::none;

namespace {

class BelowZero {
  public:
    BelowZero(const PricedJob& job, const FaultTrail& trail, std::span<const char> asked,
              bool skip_prices, lang::Diagnostics& diagnostics)
        : sheet_(job.sheet()),
          plan_(job.plan()),
          values_(job.values()),
          trail_(trail),
          asked_(asked),
          skip_prices_(skip_prices),
          diagnostics_(diagnostics) {}

    void run() {
        if (!collect())
            return;
        // Operands come first: whoever rests on a line that was told is told of by that.
        std::vector<char> told(plan_.size(), 0);
        for (Slot slot = 0; slot < plan_.size(); ++slot) {
            for_each_operand(plan_, plan_.operations[slot],
                             [&](Slot operand) { told[slot] |= told[operand]; });
            if (told[slot] == 0 && line_at_[slot] != none) {
                told[slot] = 1;
                tell(line_at_[slot], slot);
            }
        }
    }

  private:
    // By slot, the line to tell of: several lines of one value repeat each other.
    bool collect() {
        bool found = false;
        for (lang::LineId id = 0; id < sheet_.lines.size(); ++id) {
            const Slot slot = plan_.line_slot[id];
            if (plan_.not_negative[id] == 0 || slot == no_slot ||
                !(values_.slot[slot] < -sign_dust) || (!asked_.empty() && asked_[id] == 0) ||
                (skip_prices_ && is_of_a_price(sheet_.lines[id].role)))
                continue;
            if (!found)
                line_at_.assign(plan_.size(), none);
            found = true;
            lang::LineId& there = line_at_[slot];
            if (there == none || is_copy(there))
                there = id;
        }
        return found;
    }
    static bool is_of_a_price(lang::Role role) {
        return role == lang::Role::PriceLine || role == lang::Role::Total;
    }
    bool is_copy(lang::LineId id) const {
        const lang::NodeId value = sheet_.lines[id].value;
        return value != none && sheet_.nodes[value].op == lang::Op::Line;
    }

    void tell(lang::LineId id, Slot slot) const {
        const lang::Line& line = sheet_.lines[id];
        lang::Diagnostic diagnostic{lang::Code::E509, {}, {}, {}, {}, {}};
        diagnostic.title =
            fmt::format("`{}` is {}, below zero", line.name, value_of(id, values_.slot[slot]));
        diagnostic.primary.span =
            line.value == none ? line.name_span : sheet_.nodes[line.value].span;
        const std::vector<lang::Setting>* settings =
            line.given == none ? nullptr : &sheet_.givens[line.given].settings;
        if (settings != nullptr && !settings->empty()) {
            const lang::Setting& setting = settings->back();
            diagnostic.primary.text = FaultTrail::set_by(setting.layer);
            if (!setting.because.empty())
                diagnostic.notes.push_back(fmt::format("because \"{}\"", setting.because));
        }
        // Thousands of faults must not each look for their reason.
        if (plan_.operations[slot].code != OpCode::Input &&
            diagnostics_.error_count() <= lang::Diagnostics::cap) {
            std::vector<Slot> from;
            for_each_operand_asked(plan_, plan_.operations[slot], values_.slot, [&](Slot operand) {
                // A number is where it began by itself; lines of other
                // places may share it.
                if (plan_.operations[operand].code != OpCode::Constant)
                    from.push_back(operand);
            });
            const std::vector<std::string> notes = trail_.notes(from);
            diagnostic.notes.insert(diagnostic.notes.end(), notes.begin(), notes.end());
        }
        diagnostic.helps.push_back({help(id), {}});
        diagnostics_.add(std::move(diagnostic));
    }

    std::string value_of(lang::LineId id, double value) const {
        return value_text(sheet_, id, value);
    }

    std::string help(lang::LineId id) const {
        const lang::Line& line = sheet_.lines[id];
        switch (line.role) {
        case lang::Role::Given:
            return fmt::format("turn its sign; if it is meant, write  may be negative  behind the "
                               "given `{}` in its model",
                               line.name.substr(line.name.rfind('.') + 1));
        case lang::Role::Line:
        case lang::Role::CostRate:
            return fmt::format("if it is meant, write  may be negative  behind it; if not, "
                               "perhaps  max(…, {})",
                               value_of(id, 0));
        case lang::Role::CostQuantity:
        case lang::Role::CostAmount:
            return fmt::format("if it is meant, write  may be negative  behind the cost; if not, "
                               "perhaps  over max(…, {})",
                               value_of(id, 0));
        case lang::Role::EventCount:
        case lang::Role::EventAmount:
        case lang::Role::EventMoney:
            return "an event happens or it does not: perhaps  max(…, 0)";
        case lang::Role::PriceLine:
            if (line.name.ends_with(".quantity"))
                return "a price is for so much of something: look at what its quantity is worked "
                       "out from";
            break;
        case lang::Role::Total:
            break;
        }
        return "its costs that may be negative come to more than the others: look at them with  "
               "explain";
    }

    const lang::Sheet& sheet_;
    const Plan& plan_;
    const Values& values_;
    const FaultTrail& trail_;
    std::span<const char> asked_;
    bool skip_prices_;
    lang::Diagnostics& diagnostics_;
    std::vector<lang::LineId> line_at_; // by slot
};

} // namespace

void report_below_zero(const PricedJob& job, const FaultTrail& trail, std::span<const char> asked,
                       bool skip_prices, lang::Diagnostics& diagnostics) {
    BelowZero(job, trail, asked, skip_prices, diagnostics).run();
}

} // namespace acre::engine
