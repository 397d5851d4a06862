// How the program ends. Documented in cli/README.md; scripts rely on the numbers.
#pragma once

namespace acre::cli {

inline constexpr int exit_done = 0;
inline constexpr int exit_at_fault = 1; // the model or the job is at fault
inline constexpr int exit_usage = 2;    // the command line is
inline constexpr int exit_file =
    3; // a file could not be read or written, standard output among them
inline constexpr int exit_bug = 70; // the program is

} // namespace acre::cli
