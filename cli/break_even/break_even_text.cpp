#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "cli/break_even/break_even_page.h"
#include "cli/shared/text/page.h"
#include "cli/shared/text/style.h"
#include "cli/shared/words.h"
#include "lang/diag/safe_text.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

constexpr std::size_t most_shown = 12;

class BreakEvenPage {
  public:
    BreakEvenPage(const engine::BreakEvenAnswer& answer, bool color)
        : answer_(answer),
          color_(color) {}

    std::string draw() {
        out_ = heading(capital(called(answer_.given)) + " at which " + asked(), color_) +
               not_for_the_customer(color_);
        if (!answer_.title.empty())
            line(lang::terminal_text(answer_.title) +
                 (against() ? " against " + lang::terminal_text(answer_.against) : ""));
        out_ += "\n";
        if (answer_.price)
            line(fmt::format("the price {} carries {} of overhead, as quoted: direct cost may be "
                             "{}",
                             money(*answer_.price), money(answer_.overhead), y(answer_.wanted)));
        line(fmt::format("this job: {}{} at {}", answer_.price ? "direct cost " : "",
                         y(answer_.now), x(answer_.value)));
        if (answer_.charged)
            line(charged_words(answer_.line, *answer_.charged));
        if (std::isfinite(answer_.least))
            line(fmt::format("from {} to {}: {} (at {}) to {} (at {})", x(answer_.range.low),
                             x(answer_.range.high), y(answer_.least), x(answer_.least_at),
                             y(answer_.greatest), x(answer_.greatest_at)));
        out_ += "\n";
        if (answer_.crossings.empty() && !answer_.searched_to)
            none();
        for (std::size_t i = 0; i < std::min(most_shown, answer_.crossings.size()); ++i)
            line(crossing(answer_.crossings[i]));
        if (answer_.crossings.size() > most_shown)
            line(fmt::format("and {}{} more", answer_.cut ? "at least " : "",
                             answer_.crossings.size() - most_shown));
        if (answer_.searched_to)
            line(fmt::format("searched only up to {}: the line has too many steps to go on",
                             x(*answer_.searched_to)));
        unanswered();
        return std::move(out_);
    }

  private:
    const engine::BreakEvenAnswer& answer_;
    bool color_;
    std::string out_;

    bool against() const { return !answer_.against.empty(); }
    std::string x(double value) const { return shown(answer_.given, value); }
    // Against another job every y is a lead, with its sign.
    std::string y(double value) const {
        return against() ? shown_change(value, answer_.line.unit) : shown(answer_.line, value);
    }
    static std::string money(double dollars) { return lang::money_text(dollars); }
    void line(const std::string& text) { out_ += remark(text); }

    std::string asked() const {
        if (against())
            return "the two cost the same";
        if (answer_.price)
            return "a price of " + money(*answer_.price) + " leaves no profit";
        return called(answer_.line) + " is " + shown(answer_.line, answer_.wanted);
    }
    const char* sides(bool rising) const {
        if (answer_.price)
            return rising ? "below it the price leaves a profit, above it a loss"
                          : "below it the price leaves a loss, above it a profit";
        if (against())
            return rising ? "below, this job is cheaper; above, the other"
                          : "below, the other is cheaper; above, this job";
        return rising ? "below it is less, above it is more" : "below it is more, above it is less";
    }
    std::string crossing(const engine::Crossing& crossing) const {
        const std::string at = bold(x(crossing.x), color_);
        switch (crossing.kind) {
        case engine::CrossingKind::Root:
            return fmt::format("at {}: {}", at, sides(crossing.rising));
        case engine::CrossingKind::Jump:
            return fmt::format(
                "at {} it jumps from {} to {}{}; it is never exactly {}", at, y(crossing.before),
                y(crossing.after),
                crossing.line.empty() ? "" : " (" + lang::terminal_text(crossing.line) + ")",
                against() ? "the same" : shown(answer_.line, answer_.wanted));
        case engine::CrossingKind::Touch:
            return fmt::format("at {}, where it just reaches that and turns back", at);
        case engine::CrossingKind::Level:
            return fmt::format("all the way from {} to {}", at, bold(x(crossing.x_after), color_));
        }
        return {};
    }
    std::string never() const {
        const bool more = answer_.least > answer_.wanted;
        if (against())
            return more ? "this job always costs more" : "this job always costs less";
        return fmt::format("never {} {}", more ? "below" : "above",
                           y(more ? answer_.least : answer_.greatest));
    }
    void none() {
        if (!std::isfinite(answer_.least)) {
            line("nowhere: the job has no answer in this range");
            return;
        }
        line(fmt::format("nowhere between {} and {}: {}; closest at {}, where it is {}",
                         x(answer_.range.low), x(answer_.range.high), never(),
                         x(answer_.nearest_at), y(answer_.nearest)));
    }
    void unanswered() {
        if (answer_.unanswered.empty())
            return;
        out_ += "\n";
        for (std::size_t i = 0; i < std::min(most_shown, answer_.unanswered.size()); ++i) {
            const engine::Range& range = answer_.unanswered[i];
            line(fmt::format("no answer from {} to {}", x(range.low), x(range.high)));
        }
        line("`acrewright price` with --set says why");
    }
};

} // namespace

std::string break_even_text(const engine::BreakEvenAnswer& answer, bool color) {
    return BreakEvenPage(answer, color).draw();
}

} // namespace acre::cli
