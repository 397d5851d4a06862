// Runs on the machine that builds the module: writes what lang/source/utf8.h says of every
// character as a table of runs, so that the module needs no library of characters.
#include <cstdio>

#include "lang/source/utf8.h"

int main() {
    constexpr char32_t last = 0x10FFFF;
    std::puts(
        "// Made by .dev/characters.cpp: first of a run, columns, whether it shows "
        "nothing.");
    std::size_t columns = 99;
    bool nothing = false;
    for (char32_t c = 0; c <= last; ++c) {
        const std::size_t wide = acre::lang::columns_of(c);
        const bool hidden = acre::lang::shows_nothing(c);
        if (c == 0 || wide != columns || hidden != nothing)
            std::printf("{%u, %u, %d},\n", static_cast<unsigned>(c), static_cast<unsigned>(wide),
                        hidden ? 1 : 0);
        columns = wide;
        nothing = hidden;
    }
    return 0;
}
