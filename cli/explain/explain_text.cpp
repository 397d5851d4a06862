#include "cli/explain/explain_text.h"

#include <algorithm>
#include <cmath>

#include "cli/shared/text/figures.h"
#include "cli/shared/text/style.h"
#include "cli/shared/text/wrap.h"
#include "cli/shared/words.h"
#include "lang/diag/glyph.h"
#include "lang/diag/safe_text.h"

namespace acre::cli {

namespace {

using lang::terminal_text;
using lang::text_columns;

constexpr std::size_t most_lead = 42; // columns of guides before a line

// Deep in the tree the guides of the upper levels give way to the number of the level.
std::string fitting(const std::string& lead) {
    if (lead.size() <= most_lead)
        return lead;
    const std::string level = std::to_string(lead.size() / 3) + ": ";
    return level + lead.substr(lead.size() - (most_lead - level.size()));
}

class Tree {
  public:
    explicit Tree(bool color) : color_(color) {}

    void draw(const engine::ExplainStep& step, const std::string& lead, const std::string& below) {
        head(step, fitting(lead), fitting(below));
        // Under a step that has inputs the guide goes on down to them.
        const bool has_inputs = !step.inputs.empty();
        const std::string inner = fitting(below + (has_inputs ? "|  " : "   "));
        if (const std::string whole = whole_value(step); lead.empty() && !whole.empty())
            lines("exactly ", whole, inner);
        if (!step.written.empty()) {
            lines("= ", terminal_text(step.written), inner);
            if (!step.with_numbers.empty() && step.with_numbers != step.written)
                lines("= ", terminal_text(step.with_numbers), inner);
        }
        if (!step.set_by.empty()) {
            std::string text = "set by the " + terminal_text(step.set_by);
            text += step.within.empty() ? "" : " for jobs of " + step.within;
            text += step.place.empty() ? "" : ", " + terminal_text(step.place);
            text += step.because.empty() ? "" : ", because \"" + terminal_text(step.because) + "\"";
            lines("", text, inner);
        } else if (!step.because.empty()) {
            lines("", "because \"" + terminal_text(step.because) + "\"", inner);
        }
        if (step.may_be_negative)
            lines("", "may be negative", inner);
        for (const std::string& source : step.sources)
            lines("source: ", terminal_text(source), inner);
        if (step.seen)
            lines("", "shown above", inner);
        for (std::size_t i = 0; i < step.inputs.size(); ++i) {
            const bool last = i + 1 == step.inputs.size();
            draw(step.inputs[i], below + "+- ", below + (last ? "   " : "|  "));
        }
    }

    // With all its digits, where the text beside the name has fewer of them.
    static std::string whole_value(const engine::ExplainStep& step) {
        if (!step.choice.empty() || !std::isfinite(step.value))
            return {};
        const std::string digits = bare_text(step.value);
        std::string shown = step.text;
        std::erase(shown, ',');
        if (shown.find(digits[0] == '-' ? digits.substr(1) : digits) != std::string::npos)
            return {};
        return digits + (step.unit == "1" ? "" : " " + terminal_text(step.unit));
    }

    std::string take() { return std::move(out_); }

  private:
    // Name and value first, then what people call it; where it is written stands at the right edge
    // if there is room.
    void head(const engine::ExplainStep& step, const std::string& lead, const std::string& below) {
        const std::string name = terminal_text(step.name);
        const std::string value = terminal_text(step.text);
        const std::string label = step.label.empty() ? "" : "  " + terminal_text(step.label);
        std::string plain = lead + name + "  " + value;
        std::string line = faint(lead, color_) + bold(name, color_) + "  " + value;
        std::size_t used = text_columns(plain);
        if (used > page_width) {
            folded(name + "  " + value + label, lead, below);
            return;
        }
        if (used + text_columns(label) <= page_width) {
            line += label;
            used += text_columns(label);
        }
        const std::string place = step.set_by.empty() ? terminal_text(step.place) : "";
        if (!place.empty() && used + 2 + text_columns(place) <= page_width) {
            line +=
                std::string(page_width - used - text_columns(place), ' ') + faint(place, color_);
        }
        out_ += line + '\n';
    }

    void lines(const std::string& mark, const std::string& text, const std::string& lead) {
        folded(text, lead, lead, mark);
    }

    void folded(const std::string& text, const std::string& first_lead, const std::string& lead,
                const std::string& mark = "") {
        const std::size_t taken = std::max(first_lead.size(), lead.size()) + mark.size();
        bool first = true;
        for (const std::string& line : wrapped_lines(text, page_width - taken)) {
            out_ += faint(first ? first_lead : lead, color_) +
                    (first ? mark : std::string(mark.size(), ' ')) + line + '\n';
            first = false;
        }
    }

    bool color_;
    std::string out_;
};

} // namespace

std::string changed_text(const engine::ChangedFigure& changed, bool color) {
    std::string text = "in the files " + changed.before_text + ", with --set " + changed.after_text;
    if (std::isfinite(changed.after - changed.before))
        text += ": " + (changed.unit == "$"
                            ? dollar_change(changed.after - changed.before)
                            : shown_change(changed.after - changed.before, changed.unit));
    return bold(wrap(terminal_text(text), page_width), color) + "\n\n";
}

std::string explain_text(const engine::ExplainStep& step, bool color) {
    Tree tree(color);
    tree.draw(step, "", "");
    return tree.take();
}

} // namespace acre::cli
