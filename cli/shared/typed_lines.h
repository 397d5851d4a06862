// Lines that somebody types, one after another, with a history where a terminal is there.
#pragma once

#include <optional>
#include <string>

namespace acre::cli {

inline constexpr std::size_t max_typed_bytes = 65'536; // of one line

class TypedLines {
  public:
    TypedLines();
    // The next line without its end; nothing at the end of input, or past max_typed_bytes.
    // `prompt` is shown to a person only.
    std::optional<std::string> next(const std::string& prompt);
    bool person() const { return person_; } // somebody types and reads
    bool too_long() const { return too_long_; }

  private:
    // Line editing comes from libedit where the system has it: loaded for a person alone, so that
    // no other start of the program pays for it.
    using ReadLine = char* (*)(const char*);
    using AddHistory = int (*)(const char*);
    std::optional<std::string> edited(const std::string& prompt);

    bool person_ = false;
    bool too_long_ = false;
    bool ended_ = false;
    std::string buffer_;
    ReadLine read_line_ = nullptr;
    AddHistory add_history_ = nullptr;
};

} // namespace acre::cli
