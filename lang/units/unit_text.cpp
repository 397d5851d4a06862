#include "lang/units/unit_text.h"

#include <algorithm>
#include <cstdlib>

#include "lang/units/letters.h"
#include "lang/units/money.h"

namespace acre::lang {
namespace {

constexpr int deepest_bracket = 16;

class TermReader {
  public:
    TermReader(std::string_view text, UnitError& error) : text_(text), error_(error) {}

    std::optional<UnitTerms> read() {
        if (!product(0) || (at_ < text_.size() && !fail(at_, at_ + 1)))
            return std::nullopt;
        return out_;
    }

  private:
    bool fail(std::size_t begin, std::size_t end,
              UnitError::Kind kind = UnitError::Kind::Malformed) {
        begin = std::min(begin, text_.size());
        end = std::clamp(end, begin, text_.size());
        error_ = {kind, begin, end, std::string(text_.substr(begin, end - begin))};
        return false;
    }

    bool product(int depth) {
        if (depth > deepest_bracket)
            return fail(at_, at_ + 1);
        int sign = 1;
        while (true) {
            const std::size_t first = out_.count;
            const std::size_t begin = at_;
            if (!factor(depth))
                return false;
            int exponent = 1;
            if (at_ < text_.size() && text_[at_] == '^' && !read_exponent(exponent))
                return false;
            for (std::size_t i = first; i < out_.count; ++i) {
                UnitTerm& term = out_.terms[i];
                term.exponent *= sign * exponent;
                if (std::abs(term.exponent) > UnitTerms::largest_exponent)
                    return fail(begin, at_, UnitError::Kind::TooLarge);
            }
            if (at_ == text_.size() || (text_[at_] != '.' && text_[at_] != '/'))
                return true;
            sign = text_[at_++] == '/' ? -1 : 1;
        }
    }

    bool factor(int depth) {
        if (at_ == text_.size())
            return fail(at_, at_);
        const char c = text_[at_];
        if (c == '(') {
            const std::size_t open = at_++;
            if (!product(depth + 1))
                return false;
            if (at_ == text_.size() || text_[at_] != ')')
                return fail(open, at_);
            ++at_;
            return true;
        }
        const std::size_t begin = at_;
        if (c == '1' && (at_ + 1 == text_.size() || !is_digit(text_[at_ + 1]))) {
            ++at_;
            return true;
        }
        if (const std::size_t sign = money_sign_size(text_.substr(at_)); sign > 0)
            at_ += sign;
        else if (c == '%')
            ++at_;
        else if (is_letter(c))
            while (at_ < text_.size() &&
                   (is_letter(text_[at_]) || is_digit(text_[at_]) || text_[at_] == '_'))
                ++at_;
        else
            return fail(at_, at_ + 1);
        if (out_.count == UnitTerms::most)
            return fail(begin, at_, UnitError::Kind::TooLarge);
        out_.terms[out_.count++] = {text_.substr(begin, at_ - begin), 1,
                                    static_cast<std::uint32_t>(begin)};
        return true;
    }

    bool read_exponent(int& exponent) {
        const std::size_t begin = at_++;
        const bool negative = at_ < text_.size() && text_[at_] == '-';
        at_ += negative ? 1 : 0;
        const std::size_t first = at_;
        exponent = 0;
        for (; at_ < text_.size() && is_digit(text_[at_]); ++at_)
            exponent =
                std::min(exponent * 10 + (text_[at_] - '0'), UnitTerms::largest_exponent + 1);
        if (at_ == first)
            return fail(begin, at_);
        if (exponent > UnitTerms::largest_exponent)
            return fail(begin, at_, UnitError::Kind::TooLarge);
        exponent = negative ? -exponent : exponent;
        return true;
    }

    std::string_view text_;
    UnitError& error_;
    UnitTerms out_;
    std::size_t at_ = 0;
};

} // namespace

std::optional<UnitTerms> read_terms(std::string_view text, UnitError& error) {
    return TermReader(text, error).read();
}

std::optional<UnitTerms> combine(const UnitTerms& a, const UnitTerms& b, int sign) {
    UnitTerms out;
    const auto add = [&out](const UnitTerm& term, int times) {
        UnitTerm* const end = out.terms.data() + out.count;
        UnitTerm* const same = std::find_if(out.terms.data(), end,
                                            [&](const UnitTerm& t) { return t.name == term.name; });
        if (same == end) {
            if (out.count == UnitTerms::most)
                return false;
            out.terms[out.count++] = {term.name, 0, 0};
        }
        same->exponent += times * term.exponent;
        return std::abs(same->exponent) <= UnitTerms::largest_exponent;
    };
    for (const UnitTerm& term : a)
        if (!add(term, 1))
            return std::nullopt;
    for (const UnitTerm& term : b)
        if (!add(term, sign))
            return std::nullopt;
    UnitTerm* const kept = std::remove_if(out.terms.data(), out.terms.data() + out.count,
                                          [](const UnitTerm& t) { return t.exponent == 0; });
    out.count = static_cast<std::size_t>(kept - out.terms.data());
    return out;
}

std::string to_text(const UnitTerms& terms) {
    std::string above;
    std::string below;
    int names_below = 0;
    for (const UnitTerm& term : terms) {
        if (term.exponent == 0)
            continue;
        std::string& side = term.exponent > 0 ? above : below;
        names_below += term.exponent < 0 ? 1 : 0;
        if (!side.empty())
            side += '.';
        side += term.name;
        if (std::abs(term.exponent) > 1)
            side.append("^").append(std::to_string(std::abs(term.exponent)));
    }
    if (above.empty())
        above += '1';
    if (names_below > 1)
        above.append("/(").append(below).append(")");
    else if (names_below == 1)
        above.append("/").append(below);
    return above;
}

} // namespace acre::lang
