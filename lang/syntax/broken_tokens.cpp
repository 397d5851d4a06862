#include "lang/syntax/broken_tokens.h"

#include <utility>

#include <fmt/format.h>

namespace acre::lang {

BrokenTokens::BrokenTokens(const Break& b) : b_(b) {
    for (Token t = next_solid_token(b.text, b.begin, b.end); t.kind != TokenKind::End;
         t = next_solid_token(b.text, t.end, b.end)) {
        if (t.begin < b.at)
            ++at_;
        tokens_.push_back(t);
    }
}

Diagnostic BrokenTokens::mended(Code code, std::string title, std::uint32_t begin,
                                std::uint32_t end, std::string replacement,
                                std::string write) const {
    const Span span{b_.file, begin, end};
    Diagnostic d{code, std::move(title), {span, ""}, {}, {}, {}};
    if (write.empty())
        write = replacement;
    d.helps.push_back({fmt::format("write  {}", write), Edit{span, std::move(replacement)}});
    return d;
}

} // namespace acre::lang
