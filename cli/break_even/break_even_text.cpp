#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cli/break_even/break_even_page.h"
#include "cli/shared/text/style.h"
#include "cli/shared/text/wrap.h"
#include "cli/shared/words.h"
#include "lang/diag/safe_text.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

constexpr std::size_t most_shown = 12;

class Page {
  public:
    explicit Page(const BreakEvenPage& page)
        : page_(page),
          answer_(page.answer),
          sheet_(page.job->sheet()) {}

    std::string draw() {
        out_ = bold(fmt::format("Where {}, over {}", lang::terminal_text(page_.asked),
                                called(sheet_, answer_.axis.line, page_.names)),
                    page_.color) +
               "\n";
        if (const std::string title = title_of(sheet_); !title.empty())
            out_ +=
                "  " + lang::terminal_text(title) +
                (page_.against.empty() ? "" : " against " + lang::terminal_text(page_.against)) +
                "\n";
        out_ += "\n";
        line(fmt::format("now   at {} it is {}", x(answer_.axis.value), y(answer_.now)));
        line(fmt::format("from  {} to {}: from {} (at {}) to {} (at {})", x(answer_.range.low),
                         x(answer_.range.high), y(answer_.least), x(answer_.least_at),
                         y(answer_.greatest), x(answer_.greatest_at)));
        out_ += "\n";
        if (answer_.crossings.empty() && !answer_.searched_to)
            none();
        for (std::size_t i = 0; i < std::min(most_shown, answer_.crossings.size()); ++i)
            line(crossing(answer_.crossings[i]));
        if (answer_.crossings.size() > most_shown)
            line(fmt::format("and {}{} more", answer_.crossings.size() - most_shown,
                             answer_.cut ? " and" : ""));
        if (answer_.searched_to)
            line(fmt::format("looked at up to {} only: the line decides too often for more",
                             x(*answer_.searched_to)));
        unanswered();
        return std::move(out_);
    }

  private:
    const BreakEvenPage& page_;
    const engine::BreakEven& answer_;
    const lang::Sheet& sheet_;
    std::string out_;

    std::string x(double value) const { return shown(sheet_, answer_.axis.line, value); }
    // Against another job every y is a lead, with its sign.
    std::string y(double value) const {
        return page_.against.empty() ? shown(sheet_, answer_.line, value)
                                     : shown_change(value, sheet_.lines[answer_.line].unit_text);
    }
    void line(const std::string& text) { out_ += "  " + wrap(text, page_width - 2, 8) + "\n"; }

    std::string crossing(const engine::Crossing& crossing) const {
        const char* way = page_.against.empty()
                              ? (crossing.rising ? "below it is less, above it is more"
                                                 : "below it is more, above it is less")
                          : crossing.rising ? "below, this job is cheaper; above, the other"
                                            : "below, the other is cheaper; above, this job";
        switch (crossing.kind) {
        case engine::CrossingKind::Root:
            return fmt::format("at {}: {}", bold(x(crossing.x), page_.color), way);
        case engine::CrossingKind::Jump:
            return fmt::format(
                "at {} the answer jumps from {} to {}{}; it is never exactly that",
                bold(x(crossing.x), page_.color), y(crossing.before), y(crossing.after),
                crossing.line == lang::none ? ""
                                            : " (" + called(sheet_, crossing.line, true) + ")");
        case engine::CrossingKind::Touch:
            return fmt::format("at {}, where it comes up to that and turns back",
                               bold(x(crossing.x), page_.color));
        case engine::CrossingKind::Level:
            return fmt::format("all the way from {} to {}", bold(x(crossing.x), page_.color),
                               bold(x(crossing.x_after), page_.color));
        }
        return {};
    }
    const char* always() const {
        const bool more = answer_.least > answer_.wanted;
        return page_.against.empty() ? (more ? "more" : "less")
               : more                ? "dearer than the other"
                                     : "cheaper than the other";
    }
    void none() {
        if (!std::isfinite(answer_.least)) {
            line("nowhere: the job has no answer in this range");
            return;
        }
        line(fmt::format(
            "nowhere between {} and {}: it is always {}; it comes nearest at {}, where it is {}",
            x(answer_.range.low), x(answer_.range.high), always(), x(answer_.nearest_at),
            y(answer_.nearest)));
    }
    void unanswered() {
        if (answer_.unanswered.empty())
            return;
        out_ += "\n";
        for (std::size_t i = 0; i < std::min(most_shown, answer_.unanswered.size()); ++i) {
            const engine::Range& range = answer_.unanswered[i];
            line(fmt::format("the job has no answer from {} to {}", x(range.low), x(range.high)));
        }
        line("`acrewright price` with --set says why");
    }
};

} // namespace

std::string break_even_text(const BreakEvenPage& page) {
    return Page(page).draw();
}

} // namespace acre::cli
