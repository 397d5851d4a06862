// What a code means, for people: `acrewright codes CODE` shows it. The texts are
// lang/diag/code_pages/*.txt, compiled into the program; the README there says how one is written.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "lang/diag/codes.h"
#include "lang/diag/page_lines.h"

namespace acre::lang {

struct CodePage {
    std::string meaning; // one paragraph, no line ends
    std::string cause;   // the commonest one, likewise
    PageExample wrong, right;
};

// Nothing if the code has no page, or one that is not in the form its README asks for.
std::optional<CodePage> page_of(Code code);

// Each file of pages as it is.
std::span<const std::string_view> code_page_texts();

} // namespace acre::lang
