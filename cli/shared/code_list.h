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
        return "writing";
    case 'N':
        return "names";
    case 'U':
        return "units";
    case 'G':
        return "loops";
    case 'E':
        return "results";
    case 'I':
        return "values that a job or a season sets";
    case 'F':
        return "files";
    case 'B':
        return "field boundaries";
    case 'J':
        return "job logs";
    case 'W':
        return "wording of a quote";
    case 'C':
        return "the command line";
    case 'Q':
        return "questions to a job";
    case 'R':
        return "the quote book";
    case 'L':
        return "warnings";
    case 'P':
        return "the program itself";
    }
    return "";
}
inline std::string_view kind_text(lang::Code code) {
    return kind_of_letter(lang::name_of(code).front());
}

// All for an empty `wanted`, one kind for a letter, or one code; in capitals.
inline bool is_asked(lang::Code code, std::string_view wanted) {
    const std::string_view name = lang::name_of(code);
    return wanted.empty() || name == wanted ||
           (wanted.size() == 1 && name.front() == wanted.front());
}

} // namespace acre::cli
