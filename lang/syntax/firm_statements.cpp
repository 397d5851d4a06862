// The statements of a firm's file: its money, and words for the pages it signs; a job has such
// words too.
#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "lang/source/utf8.h"
#include "lang/syntax/assemble.h"
#include "lang/syntax/parse.h"
#include "lang/syntax/signs.h"
#include "lang/units/money.h"

namespace acre::lang {

namespace {

constexpr double largest_step = 1'000'000; // in money

// Letters of Latin alphabets, and what the world writes for money.
bool is_letter_or_sign(char32_t c) {
    return (c < 0x80 && (is_letter(static_cast<char>(c)) || c == '$' || c == '.')) ||
           (c >= 0xC0 && c <= 0x24F && c != 0xD7 && c != 0xF7) || (c >= 0xA2 && c <= 0xA5) ||
           (c >= 0x20A0 && c <= 0x20BF) || c == 0x0E3F;
}

// Whether the sign belongs to other money: € for USD, $ for EUR.
bool is_anothers(std::string_view sign, std::string_view code) {
    const auto has = [sign](std::string_view part) {
        return sign.find(part) != std::string_view::npos;
    };
    const auto is_one_of = [code](std::string_view list) {
        return list.find(code) != std::string_view::npos;
    };
    return (has("$") && !has_dollars(code)) || (has("\u20AC") && code != "EUR") ||
           (has("\u00A3") && !is_one_of("GBP EGP FKP GIP LBP SHP SSP SYP")) ||
           (has("\u00A5") && !is_one_of("JPY CNY"));
}

Diagnostic wrong(std::string title, Span span, std::string help) {
    return {Code::S125, std::move(title), {span, ""}, {}, {}, {{std::move(help), {}}}};
}

} // namespace

bool may_be_sign_of_money(std::string_view sign) {
    constexpr std::size_t most = 4;
    std::size_t count = 0;
    for (std::size_t at = 0; at < sign.size(); ++count)
        if (!is_letter_or_sign(next_character(sign, at)))
            return false;
    return count > 0 && count <= most && sign.front() != '.';
}

ast::Money Assembler::make_money(const Draft& draft, ast::ExprId step) {
    ast::Money money{draft.words.front(), {}, 1};
    const ast::Word& code = money.code;
    if (!is_money_code(code.text))
        diagnostics_.add(wrong(fmt::format("`{}` is no code of money", shortened(code.text)),
                               code.span, "write its three capital letters, as in  money USD"));
    if (draft.texts.empty() || step == ast::none)
        return money;
    const ast::Text& sign = draft.texts.front();
    money.sign = sign.text;
    if (!may_be_sign_of_money(sign.text))
        diagnostics_.add(wrong(fmt::format("\"{}\" is no sign of money", shortened(sign.text)),
                               sign.span,
                               "write up to four letters and signs, as in  \"$\"  or  \"A$\""));
    else if (is_anothers(sign.text, code.text))
        diagnostics_.add(
            wrong(fmt::format("the sign {} is not that of {}", sign.text, shortened(code.text)),
                  sign.span,
                  fmt::format("write the sign that {} has, or  \"{}\"", code.text, code.text)));
    const ast::Expr& literal = module_.exprs[step];
    const auto* number = std::get_if<ast::Number>(&literal.node);
    const double hundredths = number == nullptr ? 0 : number->value * 100;
    const double whole = std::round(hundredths);
    if (!(whole >= 1) || whole > largest_step * 100 || std::fabs(whole - hundredths) > 1e-6)
        diagnostics_.add(wrong(
            fmt::format(
                "money cannot be rounded to {}",
                shortened(text_.substr(literal.span.begin, literal.span.end - literal.span.begin))),
            literal.span, "write a step of 0.01 or whole hundredths, as in  to $0.01  or  to $1"));
    else
        money.step = static_cast<std::int64_t>(whole);
    return money;
}

namespace {

// What a wording calls `job.NAME` without a word for it.
bool is_said_by_a_job(std::string_view name) {
    constexpr std::array<std::string_view, 6> said = {"title", "for",   "option",
                                                      "date",  "start", "finish"};
    return std::find(said.begin(), said.end(), name) != said.end();
}

} // namespace

ast::PageWord Assembler::make_page_word(const Draft& draft) {
    const ast::Word& name = draft.words.front();
    if (page_words_.size() > max_page_words)
        return {name, draft.texts.front()}; // told once
    const auto same = std::find_if(page_words_.begin(), page_words_.end(),
                                   [&](const ast::Word& w) { return w.text == name.text; });
    if (same != page_words_.end())
        twice(fmt::format("`{}`", name.text), name.span, same->span);
    else if (kind_ == FileKind::Firm && name.text == "name")
        twice("the name of the firm", name.span, module_.title.span);
    else if (kind_ == FileKind::Job && is_said_by_a_job(name.text))
        diagnostics_.add({Code::S116,
                          fmt::format("`job.{}` is known from the job's other lines", name.text),
                          {name.span, "take another name"},
                          {},
                          {},
                          {}});
    if (page_words_.size() == max_page_words)
        diagnostics_.add({Code::S122,
                          fmt::format("more than {} words for pages", max_page_words),
                          {name.span, "one too many"},
                          {},
                          {},
                          {}});
    page_words_.push_back(name);
    return {name, draft.texts.front()};
}

} // namespace acre::lang
