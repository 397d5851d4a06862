// The table of commands. A command reads its words, does its work and replies; it never writes by
// itself.
#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <string_view>

#include "cli/shared/reply.h"

namespace acre::cli {

using Words = std::span<const std::string>;

inline constexpr std::size_t max_words = 20'000;      // of a command line
inline constexpr std::size_t max_word_bytes = 16'384; // of one of them

struct Command {
    std::string_view group; // its heading in the overview
    std::string_view name;
    std::string_view summary; // one line of the overview
    Reply (*run)(Words words, Console& console);
};

std::span<const Command> commands(); // in the order of the overview

// One function a command, each in a folder of its name.
Reply price_command(Words words, Console& console);
Reply explain_command(Words words, Console& console);
Reply calendar_command(Words words, Console& console);
Reply check_command(Words words, Console& console);
Reply tidy_command(Words words, Console& console);
Reply quote_command(Words words, Console& console);
Reply mark_command(Words words, Console& console);
Reply key_command(Words words, Console& console);
Reply verify_command(Words words, Console& console);
Reply bridge_command(Words words, Console& console);
Reply bill_command(Words words, Console& console);
Reply book_command(Words words, Console& console);
Reply crew_command(Words words, Console& console);
Reply variance_command(Words words, Console& console);
Reply learn_command(Words words, Console& console);
Reply outcomes_command(Words words, Console& console);
Reply compare_command(Words words, Console& console);
Reply season_command(Words words, Console& console);
Reply page_command(Words words, Console& console);
Reply rate_card_command(Words words, Console& console);
Reply workbook_command(Words words, Console& console);
Reply sensitivity_command(Words words, Console& console);
Reply break_even_command(Words words, Console& console);
Reply grid_command(Words words, Console& console);
Reply risk_command(Words words, Console& console);
Reply field_command(Words words, Console& console);
Reply library_command(Words words, Console& console);
Reply new_command(Words words, Console& console);
Reply shell_command(Words words, Console& console);
Reply manual_command(Words words, Console& console);
Reply editor_command(Words words, Console& console);
Reply words_command(Words words, Console& console);
Reply measures_command(Words words, Console& console);
Reply try_command(Words words, Console& console);
Reply codes_command(Words words, Console& console);

// The whole program but for the writing: words without the program's name, exit code back.
// Internal errors are caught here.
int run(Words words, Console& console);

} // namespace acre::cli
