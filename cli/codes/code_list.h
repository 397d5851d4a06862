// Every code of a diagnostic, and what its letter stands for.
#pragma once

#include <array>
#include <string_view>

#include "lang/diag/codes.h"

namespace acre::cli {

inline constexpr std::array all_codes{
#define ACRE_CODE(id, severity, summary) lang::Code::id,
#include "lang/diag/codes.def"
#undef ACRE_CODE
};

constexpr std::string_view kind_of_letter(char letter) {
    switch (letter) {
    case 'S':
        return "how the text is written";
    case 'N':
        return "names";
    case 'U':
        return "units";
    case 'G':
        return "what depends on what";
    case 'E':
        return "the numbers of a job";
    case 'I':
        return "values set from outside the model";
    case 'F':
        return "files";
    case 'B':
        return "boundaries of fields";
    case 'J':
        return "logs of jobs";
    case 'W':
        return "wordings of quotes";
    case 'L':
        return "doubtful, not wrong";
    }
    return "";
}
inline std::string_view kind_text(lang::Code code) {
    return kind_of_letter(lang::name_of(code).front());
}

} // namespace acre::cli
