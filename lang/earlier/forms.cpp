#include "lang/earlier/forms.h"

#include <algorithm>
#include <set>
#include <span>
#include <utility>

#include <fmt/format.h>

#include "lang/syntax/parse.h"
#include "lang/syntax/signs.h"
#include "lang/syntax/tokens.h"
#include "lang/units/money.h"

namespace acre::lang {

namespace {

// The name that a used model has without `as`: "season-prices" is season_prices.
std::string own_name(std::string_view path) {
    std::string name(path.substr(path.rfind('/') + 1));
    std::replace(name.begin(), name.end(), '-', '_');
    return name;
}

// Reads one statement after another into the same memory.
class StatementTokens {
  public:
    explicit StatementTokens(std::string_view text) : text_(text) {}

    // Until the next call.
    std::span<const Token> of(const LogicalLine& line) {
        tokens_.clear();
        for (Token t = next_solid_token(text_, line.begin, line.end); t.kind != TokenKind::End;
             t = next_solid_token(text_, t.end, line.end))
            tokens_.push_back(t);
        return tokens_;
    }

  private:
    std::string_view text_;
    std::vector<Token> tokens_;
};

// The options that the text itself declares, but for those that are names of values there too; none
// where nothing is compared.
std::set<std::string_view> options_in(std::string_view text, const LogicalLines& layout,
                                      StatementTokens& statements) {
    if (text.find("==") == std::string_view::npos && text.find("!=") == std::string_view::npos)
        return {};
    std::set<std::string_view> options{"yes", "no"};
    for (const LogicalLine& line : layout.lines) {
        const std::span<const Token> tokens = statements.of(line);
        for (std::size_t i = 1; i + 1 < tokens.size(); ++i)
            if (tokens[i].in(text) == "|" && tokens[i].kind == TokenKind::Sign)
                for (const std::size_t side : {i - 1, i + 1})
                    options.insert(tokens[side].in(text));
    }
    for (const LogicalLine& line : layout.lines) {
        const std::span<const Token> tokens = statements.of(line);
        const bool named_second = line.head == Keyword::Given || line.head == Keyword::Cost ||
                                  line.head == Keyword::Choice;
        if (tokens.size() > 1)
            options.erase(tokens[named_second ? 1 : 0].in(text));
    }
    return options;
}

// Walks the tokens of one statement.
class Statement {
  public:
    Statement(std::string_view text, const LogicalLine& line, std::span<const Token> tokens,
              Keyword parent, FileId file, const std::set<std::string_view>& options,
              std::vector<OldForm>& forms)
        : text_(text),
          line_(line),
          tokens_(tokens),
          parent_(parent),
          file_(file),
          options_(options),
          forms_(forms) {}

    void run() {
        switch (line_.head) {
        case Keyword::Use:
            alias();
            break;
        case Keyword::Given:
        case Keyword::Set:
            shape();
            break;
        case Keyword::Table:
            table_ends();
            break;
        case Keyword::Contingency:
            if (parent_ == Keyword::Price)
                add(tokens_[0].begin, tokens_[0].end, "reserve",
                    "`contingency` is called `reserve`", "write  reserve");
            break;
        default:
            break;
        }
        if (line_.head != Keyword::Unit && parent_ != Keyword::Table)
            money_behind();
        names_of_steps();
        compared_choices();
    }

  private:
    std::string_view word(std::size_t i) const {
        return i < tokens_.size() ? tokens_[i].in(text_) : std::string_view{};
    }
    void add(std::uint32_t begin, std::uint32_t end, std::string replacement, std::string title,
             std::string write) {
        forms_.push_back(
            {{file_, begin, end}, std::move(replacement), std::move(title), std::move(write)});
    }
    // With the blanks before it.
    void leave_out(std::size_t first, std::size_t last, std::string title, std::string write) {
        add(tokens_[first - 1].end, tokens_[last].end, "", std::move(title), std::move(write));
    }

    // `use "site" as site`
    void alias() {
        if (tokens_.size() < 4 || word(2) != "as" || word(4) == "with")
            return;
        const std::string_view quoted = word(1);
        const std::string name = own_name(quoted.substr(1, quoted.size() - 2));
        if (word(3) == name)
            leave_out(2, 3, fmt::format("`as {}` says what is so without it", shortened(name)),
                      fmt::format("write  use {}", shortened(quoted)));
    }

    // `swing triangular`, which is what a swing is; `swing step`
    void shape() {
        for (std::size_t i = 1; i + 1 < tokens_.size(); ++i) {
            if (word(i) != "swing" || tokens_[i].kind != TokenKind::Name)
                continue;
            if (word(i + 1) == "triangular")
                leave_out(i + 1, i + 1, "a swing is triangular unless it says otherwise",
                          "leave `triangular` out");
            else if (word(i + 1) == "step")
                add(tokens_[i + 1].begin, tokens_[i + 1].end, "whole",
                    "a swing of whole numbers is called `whole`", "write  swing whole");
        }
    }

    // `below error`
    void table_ends() {
        for (std::size_t i = 1; i + 1 < tokens_.size(); ++i)
            if (tokens_[i].kind == TokenKind::Name && (word(i) == "below" || word(i) == "above") &&
                word(i + 1) == "error")
                leave_out(i, i + 1, fmt::format("a table ends in an error {} it anyway", word(i)),
                          fmt::format("leave `{} error` out", word(i)));
    }

    // `12 $/ac`. Three decimals without a unit are thousands to some: they stay.
    void money_behind() {
        for (std::size_t i = 0; i + 1 < tokens_.size(); ++i) {
            const std::string_view sign = word(i + 1);
            const std::uint32_t end = tokens_[i + 1].end;
            if (tokens_[i].kind != TokenKind::Number || sign.empty() ||
                money_sign_size(sign) != sign.size())
                continue;
            const std::string_view number = word(i);
            const std::size_t point = number.find('.');
            const char next = end < line_.end ? text_[end] : ' ';
            if (next == '^' || (next != '/' && next != '.' && point != std::string_view::npos &&
                                number.size() - point == 4))
                continue;
            std::string written = std::string(sign) + std::string(number);
            add(tokens_[i].begin, end, written, "the sign of money stands before its number",
                fmt::format("write  {}{}", written, tail(end)));
        }
    }
    // What stands right behind, as of `/h`.
    std::string tail(std::uint32_t at) const {
        const std::size_t end =
            std::min<std::size_t>(text_.find_first_of(" \t\r\n,\"#", at), line_.end);
        return shortened(text_.substr(at, std::max<std::size_t>(end, at) - at));
    }

    // `method == tree_rows`. What other files declare is told where types are known (choices.h).
    void compared_choices() {
        for (std::size_t i = 1; i + 1 < tokens_.size(); ++i)
            if ((word(i) == "==" || word(i) == "!=") && tokens_[i - 1].kind == TokenKind::Name &&
                tokens_[i + 1].kind == TokenKind::Name && options_.contains(word(i + 1))) {
                const std::string_view is = word(i) == "==" ? "is" : "is not";
                add(tokens_[i].begin, tokens_[i].end, std::string(is),
                    fmt::format("a choice is compared with `{}`", is),
                    fmt::format("write  {} {} {}", shortened(word(i - 1)), is,
                                shortened(word(i + 1))));
            }
    }

    // `ripping.contingency`, the sum after the step.
    void names_of_steps() {
        constexpr std::string_view tail = ".contingency";
        for (const Token& token : tokens_) {
            const std::string_view name = token.in(text_);
            const std::size_t at = name.find(tail);
            const std::size_t end = at + tail.size();
            if (token.kind != TokenKind::Name || at == std::string_view::npos ||
                (end < name.size() && name[end] != '_'))
                continue;
            add(token.begin + static_cast<std::uint32_t>(at) + 1,
                token.begin + static_cast<std::uint32_t>(end), "reserve",
                "`contingency` is called `reserve`",
                fmt::format("write  {}.reserve{}", shortened(name.substr(0, at)),
                            shortened(name.substr(end))));
        }
    }

    std::string_view text_;
    const LogicalLine& line_;
    std::span<const Token> tokens_;
    Keyword parent_;
    FileId file_;
    const std::set<std::string_view>& options_;
    std::vector<OldForm>& forms_;
};

} // namespace

std::vector<OldForm> old_forms(std::string_view text, const LogicalLines& layout, FileId file) {
    std::vector<OldForm> forms;
    StatementTokens statements(text);
    const std::set<std::string_view> options = options_in(text, layout, statements);
    for (const LogicalLine& line : layout.lines)
        Statement(text, line, statements.of(line),
                  line.parent == no_parent ? Keyword::None : layout.lines[line.parent].head, file,
                  options, forms)
            .run();
    std::sort(forms.begin(), forms.end(),
              [](const OldForm& a, const OldForm& b) { return a.span.begin < b.span.begin; });
    return forms;
}

void report_old_forms(const SourceMap& sources, FileId file, FileKind kind,
                      Diagnostics& diagnostics) {
    Diagnostics unsaid;
    const LogicalLines layout = lay_out(sources, file, kind, unsaid);
    if (!layout.readable || unsaid.has_errors())
        return;
    for (const OldForm& form : old_forms(sources.file(file).text(), layout, file))
        diagnostics.add({Code::L835,
                         form.title,
                         {form.span, "earlier"},
                         {},
                         {"the next version of the language does not read it; "
                          "`acrewright tidy --write` renews the file"},
                         {{form.write, Edit{form.span, form.replacement}}}});
}

std::string renewed(std::string_view name, std::string_view text, FileKind kind) {
    SourceMap sources;
    Diagnostics unsaid;
    const FileId file = sources.add(std::string(name), std::string(text));
    parse(sources, file, kind, unsaid);
    if (unsaid.has_errors())
        return std::string(text);
    const LogicalLines layout = lay_out(sources, file, kind, unsaid);
    const std::string_view written = sources.file(file).text();
    std::string out;
    std::uint32_t at = 0;
    for (const OldForm& form : old_forms(written, layout, file)) {
        out.append(written.substr(at, form.span.begin - at)).append(form.replacement);
        at = form.span.end;
    }
    return out.append(written.substr(at));
}

} // namespace acre::lang
