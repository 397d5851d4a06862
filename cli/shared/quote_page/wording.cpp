#include "cli/shared/quote_page/wording.h"

#include <charconv>
#include <cmath>
#include <memory>
#include <optional>
#include <utility>

#include <fmt/format.h>

#include "cli/shared/quote_page/wording_figures.h"
#include "cli/shared/quote_page/wording_lines.h"
#include "engine/words/choice_label.h"
#include "engine/words/money.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

using lang::Code;

class Filler {
  public:
    Filler(const lang::SourceMap& sources, lang::FileId file, const engine::QuoteRecord& record,
           std::map<std::string, std::string> words, const CrewParts* crew,
           lang::Diagnostics& diagnostics)
        : text_(sources.file(file).text()),
          file_(file),
          figures_(record, crew ? QuoteFigures::Reader::Crew : QuoteFigures::Reader::Customer),
          crew_(crew),
          diagnostics_(diagnostics) {
        page_.words = std::move(words);
        page_.crew = crew;
        page_.layout = crew ? page_.layout : record.page_layout;
        const bool order = page_.layout > 0 && !record.changes.empty();
        page_.kind = crew ? "Crew's page, quote" : order ? "Change order" : page_.kind;
    }

    std::optional<WordedPage> run() {
        lines(text_);
        if (failed_)
            return std::nullopt;
        return std::move(page_);
    }

  private:
    std::string_view text_;
    lang::FileId file_;
    QuoteFigures figures_;
    const CrewParts* crew_;
    lang::Diagnostics& diagnostics_;
    WordedPage page_;
    bool failed_ = false;
    bool wanted_ = true; // the condition before the block at hand
    std::size_t bytes_ = 0, made_ = 0;
    bool told_long_ = false;
    std::string entry_; // of a list, within @each
    std::string paragraph_;
    std::vector<std::string> points_;

    lang::Span span(std::string_view part) const {
        const auto begin = static_cast<std::uint32_t>(part.data() - text_.data());
        return {file_, begin, begin + static_cast<std::uint32_t>(part.size())};
    }
    void error(Code code, std::string title, std::string_view at, std::string label,
               std::vector<lang::Help> helps = {}) {
        failed_ = true;
        diagnostics_.add(
            {code, std::move(title), {span(at), std::move(label)}, {}, {}, std::move(helps)});
    }

    void lines(std::string_view text) {
        for (std::size_t begin = 0; begin <= text.size() && !told_long_;) {
            const std::size_t end = std::min(text.find('\n', begin), text.size());
            const std::string_view one = trimmed(text.substr(begin, end - begin));
            begin = end + 1;
            if (one.starts_with("@each ") && entry_.empty())
                begin = each(one, text, begin);
            else
                line(one);
        }
        end_block();
    }
    // The lines up to `@end`, once for every entry that has the line; where they end.
    std::size_t each(std::string_view head, std::string_view text, std::size_t begin) {
        end_block();
        const std::optional<EachBody> body = each_body(text, begin);
        if (!body) {
            error(Code::W002, "`@each` without its `@end`", head, "begins here");
            return text.size() + 1;
        }
        for (const std::string& entry : figures_.entries(trimmed(head.substr(6)))) {
            entry_ = entry;
            page_.words["entry"] = spoken(entry);
            lines(body->lines);
        }
        entry_.clear();
        page_.words.erase("entry");
        return body->next;
    }
    // A name as the quote has it: of the entry at hand, if that has such a line.
    std::string known(std::string_view name) const {
        std::string own = entry_ + "." + std::string(name);
        return !entry_.empty() && figures_.find(own) ? own : std::string(name);
    }

    void line(std::string_view text) {
        if (text.starts_with('#'))
            return;
        const auto rest = [&](std::size_t size) { return trimmed(text.substr(size)); };
        if (text.empty())
            return end_block();
        if (text.starts_with("- ")) {
            end_paragraph();
            points_.push_back(filled(rest(2)));
            return;
        }
        if (text.starts_with(": ")) {
            end_block();
            word(rest(2));
        } else if (text.starts_with("== ")) {
            end_block();
            put(Heading{filled(rest(3))});
        } else if (text.starts_with("? ")) {
            end_block();
            wanted_ = holds(rest(2));
        } else if (text.starts_with('@')) {
            end_block();
            made(text);
        } else {
            end_points();
            paragraph_ += (paragraph_.empty() ? "" : " ") + filled(text);
        }
    }

    void put(PageBlock block) {
        if (wanted_)
            page_.blocks.push_back(std::move(block));
        wanted_ = true;
    }
    void end_paragraph() {
        if (!paragraph_.empty())
            put(Paragraph{std::exchange(paragraph_, {})});
    }
    void end_points() {
        if (!points_.empty())
            put(Points{std::exchange(points_, {})});
    }
    void end_block() {
        end_paragraph();
        end_points();
    }

    void word(std::string_view text) {
        const std::size_t equals = text.find('=');
        if (equals == std::string_view::npos || trimmed(text.substr(0, equals)).empty())
            return error(Code::W002, "a word of the firm's own is written `: NAME = TEXT`", text,
                         "no `=`");
        const std::string_view name = trimmed(text.substr(0, equals));
        if (name.starts_with("firm."))
            return error(Code::W002,
                         fmt::format("`{}` is the firm's to say, in its own file", name), name,
                         "not here", {{said_by_firm(name.substr(5)), {}}});
        page_.words.insert_or_assign(std::string(name),
                                     std::string(trimmed(text.substr(equals + 1))));
    }

    void error(NameFault fault, std::string_view name) {
        error(Code::W001, std::move(fault.title), name, std::move(fault.label),
              std::move(fault.helps));
    }

    // Words are looked up first; then figures, but only those that are shown.
    const QuoteFigure* figure(std::string_view name) {
        const std::string full = known(name);
        if (figures_.is_hidden(full)) {
            error(hidden_name(figures_, name), name);
            return nullptr;
        }
        if (const QuoteFigure* found = figures_.find(full))
            return found;
        error(diagnostics_.full()
                  ? NameFault{fmt::format("the job has no line named `{}`", name), "", {}}
                  : unknown_name(figures_, name, page_.words),
              name);
        return nullptr;
    }

    std::string filled(std::string_view text) {
        const std::string_view whole = text;
        std::string result;
        while (!text.empty()) {
            const std::size_t open = text.find('{');
            result += text.substr(0, open);
            if (open == std::string_view::npos)
                break;
            const std::size_t close = text.find('}', open);
            if (close == std::string_view::npos) {
                error(Code::W002, "a brace is not closed", text.substr(open, 1), "opened here");
                break;
            }
            const std::string_view name = trimmed(text.substr(open + 1, close - open - 1));
            if (const auto word = page_.words.find(std::string(name)); word != page_.words.end())
                result += word->second;
            else if (!wanted_)
                ; // a block that is left out may name what is not there
            else if (const QuoteFigure* found = figure(name))
                result += found->choice.empty() ? lang::spoken_text(found->value, found->unit)
                                                : engine::choice_label(found->choice);
            text.remove_prefix(close + 1);
            if (result.size() > max_page_bytes)
                break;
        }
        bytes_ += result.size();
        if (bytes_ > max_page_bytes && !told_long_) {
            told_long_ = true;
            error(Code::W002,
                  fmt::format("the page is longer than the limit of {} bytes",
                              lang::number_text(max_page_bytes)),
                  whole.substr(0, 1), "");
        }
        return told_long_ ? std::string() : result;
    }

    bool holds(std::string_view condition) {
        const bool negated = condition.starts_with("not ");
        if (negated)
            condition = trimmed(condition.substr(4));
        const std::size_t is = condition.find(" is ");
        const std::string_view name = trimmed(condition.substr(0, is));
        const std::string full = known(name);
        bool result = false;
        if (figures_.is_hidden(full))
            error(hidden_name(figures_, name),
                  name); // whether a block is there tells as much as the figure
        else if (const QuoteFigure* found = figures_.find(full))
            result =
                is == std::string_view::npos
                    ? !found->choice.empty() || (std::isfinite(found->value) && found->value != 0)
                    : found->choice == trimmed(condition.substr(is + 4));
        else if (const auto word = page_.words.find(std::string(name)); word != page_.words.end())
            result = is == std::string_view::npos
                         ? !word->second.empty()
                         : word->second == trimmed(condition.substr(is + 4));
        return result != negated;
    }

    void made(std::string_view text) {
        if (++made_ > max_made_parts)
            return error(Code::W002,
                         fmt::format("the page has more than {} `@` parts", max_made_parts), text,
                         "over the limit");
        if (text == "@cautions")
            put(Made::Cautions);
        else if (text == "@picture")
            put(Made::Picture);
        else if (crew_ ? !for_crew(text) : !for_customer(text))
            error(Code::W002, "unknown part of the page", text, "",
                  {{crew_ ? "the parts of the crew's page are @figures, @days, @blocks, @notes, "
                            "@log-sheet, @cautions, @picture and @each … @end"
                          : "the parts are @items, @options, @cautions, @picture, @signatures, "
                            "@fuel-steps and @each … @end",
                    {}}});
    }
    bool for_customer(std::string_view text) {
        if (text == "@items")
            put(Made::Items);
        else if (text == "@options")
            put(Made::Options);
        else if (text == "@signatures")
            put(Made::Signatures);
        else if (text.starts_with("@fuel-steps "))
            fuel_steps(text);
        else
            return false;
        return true;
    }
    bool for_crew(std::string_view text) {
        if (text == "@notes" && !crew_->notes.empty())
            put(Points{crew_->notes});
        else if (text == "@figures")
            put(crew_->figures);
        else if (text == "@days")
            put(crew_->days);
        else if (text == "@blocks")
            put(crew_->blocks);
        else if (text == "@log-sheet")
            put(crew_->log);
        else
            return text == "@notes";
        return true;
    }

    void fuel_steps(std::string_view text) {
        if (!std::exchange(wanted_, true))
            return;
        const auto given = pairs_of(text.substr(12));
        double step = 0;
        int rows = 0;
        const auto read = [&](std::string_view name, auto& to) {
            const auto it = given.find(name);
            return it != given.end() &&
                   std::from_chars(it->second.data(), it->second.data() + it->second.size(), to)
                           .ec == std::errc();
        };
        const bool named = given.contains("step") && !read("step", step);
        if (named) {
            const QuoteFigure* said = figure(given.find("step")->second);
            if (said == nullptr)
                return;
            step = said->unit == "$/gal" ? said->value : 0;
        }
        if (!given.contains("base") || !given.contains("per") || !read("rows", rows) ||
            !(step >= 0.01) || rows < 1 || rows > 50)
            return error(Code::W002,
                         "fuel steps are written `@fuel-steps base=NAME per=NAME step=NAME rows=6`",
                         text, "", {{"the step is a line in $/gal, or a figure such as 0.25", {}}});
        const QuoteFigure* base = figure(given.find("base")->second);
        const QuoteFigure* per = figure(given.find("per")->second);
        if (base == nullptr || per == nullptr)
            return;
        const auto fuel = fuel_table(*base, *per, step, rows);
        if (!fuel)
            return error(Code::W002,
                         "fuel steps need a base in $/gal and gallons per unit of the price", text,
                         fmt::format("{} and {}", base->unit, per->unit));
        if (!engine::has_cents(step) || !engine::has_cents(per->value * rows * step))
            return error(Code::W002, "the last fuel step is too large in cents", text, "");
        put(*fuel);
    }
};

} // namespace

lang::Outcome<WordedPage> fill_in(std::string name, std::string text,
                                  const engine::QuoteRecord& record,
                                  std::map<std::string, std::string> words, const CrewParts* crew) {
    auto sources = std::make_shared<lang::SourceMap>();
    const lang::FileId file = sources->add(std::move(name), std::move(text));
    lang::Said said;
    std::optional<WordedPage> page =
        Filler(*sources, file, record, std::move(words), crew, said.diagnostics).run();
    if (page)
        return std::move(*page);
    said.sources = std::move(sources);
    return said;
}

} // namespace acre::cli
