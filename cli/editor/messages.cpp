#include "cli/editor/messages.h"

#include <algorithm>
#include <charconv>

#include "lang/units/letters.h"

namespace acre::cli {

namespace {

constexpr std::string_view length_field = "content-length:";

bool begins_as(std::string_view line, std::string_view field) {
    return line.size() >= field.size() &&
           std::equal(
               field.begin(), field.end(), line.begin(),
               [](char a, char b) { return a == lang::to_lower(b); });
}

// The length that a header says; nothing if it says none that can be read.
std::optional<std::size_t> length_in(std::string_view head) {
    while (!head.empty()) {
        const std::size_t end = std::min(head.find('\n'), head.size());
        std::string_view line = head.substr(0, end);
        head.remove_prefix(std::min(end + 1, head.size()));
        if (!begins_as(line, length_field))
            continue;
        line.remove_prefix(length_field.size());
        while (line.starts_with(' '))
            line.remove_prefix(1);
        while (line.ends_with('\r') || line.ends_with(' '))
            line.remove_suffix(1);
        std::size_t length = 0;
        const auto [last, error] = std::from_chars(line.data(), line.data() + line.size(), length);
        if (error == std::errc() && last == line.data() + line.size())
            return length;
        return std::nullopt;
    }
    return std::nullopt;
}

// Where the header ends, with its empty line; npos: not here.
std::size_t end_of_header(std::string_view text) {
    const std::size_t marked = text.find("\r\n\r\n");
    const std::size_t plain = text.find("\n\n");
    if (marked == std::string_view::npos && plain == std::string_view::npos)
        return std::string_view::npos;
    return std::min(marked == std::string_view::npos ? marked : marked + 4,
                    plain == std::string_view::npos ? plain : plain + 2);
}

} // namespace

void MessageReader::feed(std::string_view bytes) {
    if (skip_ > 0) {
        const std::size_t skipped = std::min(skip_, bytes.size());
        skip_ -= skipped;
        bytes.remove_prefix(skipped);
    }
    buffer_.append(bytes);
}

void MessageReader::take(std::size_t bytes) {
    at_ += bytes;
    if (at_ == buffer_.size() || at_ > (std::size_t{1} << 20U)) {
        buffer_.erase(0, at_);
        at_ = 0;
    }
}

std::optional<Incoming> MessageReader::header() {
    const std::string_view text = rest();
    const std::size_t end = end_of_header(text.substr(0, max_message_header));
    if (end == std::string_view::npos) {
        if (text.size() < max_message_header)
            return std::nullopt;
        take(max_message_header);
        return Incoming{"no header within 4,096 bytes", false};
    }
    const std::optional<std::size_t> length = length_in(text.substr(0, end));
    take(end);
    if (!length)
        return Incoming{"a header without Content-Length", false};
    if (*length <= max_message_bytes) {
        body_ = *length;
        return std::nullopt;
    }
    const std::size_t here = std::min(*length, rest().size());
    skip_ = *length - here;
    take(here);
    return Incoming{"a message of more than 32 MiB", false};
}

std::optional<Incoming> MessageReader::next() {
    if (!body_) {
        if (auto fault = header())
            return fault;
        if (!body_)
            return std::nullopt;
    }
    if (rest().size() < *body_)
        return std::nullopt;
    Incoming message{std::string(rest().substr(0, *body_))};
    take(*body_);
    body_.reset();
    return message;
}

std::string framed(std::string_view message) {
    std::string text = "Content-Length: " + std::to_string(message.size()) + "\r\n\r\n";
    return text.append(message);
}

} // namespace acre::cli
