// The frames of the Language Server Protocol 3.17 ("Base Protocol"): a header with a length, an
// empty line, so many bytes. What is no frame is told and passed over; reading goes on behind it.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace acre::cli {

inline constexpr std::size_t max_message_bytes = std::size_t{32} << 20U;
inline constexpr std::size_t max_message_header = 4096; // bytes of its header

struct Incoming {
    std::string text; // of a message; or what is wrong with it, for a person
    bool whole = true;
};

class MessageReader {
  public:
    void feed(std::string_view bytes);
    // The next message that is there in full, or what was none; nothing: more must be read.
    std::optional<Incoming> next();

  private:
    std::optional<Incoming> header();
    std::string_view rest() const { return std::string_view(buffer_).substr(at_); }
    void take(std::size_t bytes);

    std::string buffer_;
    std::size_t at_ = 0;              // before it all is read
    std::optional<std::size_t> body_; // bytes of the body that is awaited
    std::size_t skip_ = 0;            // bytes of a body that is too long
};

std::string framed(std::string_view message);

} // namespace acre::cli
