#include "cli/editor/messages.h"

#include <doctest/doctest.h>

namespace messages_test {

using namespace acre::cli;

namespace {

std::string all_of(MessageReader& reader) {
    std::string text;
    while (const auto message = reader.next())
        text += (message->whole ? "[" : "(") + message->text + (message->whole ? "]" : ")");
    return text;
}

} // namespace

TEST_CASE("messages are read however they are cut") {
    const std::string bytes = framed("{}") + framed("") + framed("{\"a\":\"\xc3\xa4\"}");
    for (std::size_t size = 1; size <= bytes.size(); ++size) {
        MessageReader reader;
        std::string text;
        for (std::size_t at = 0; at < bytes.size(); at += size) {
            reader.feed(std::string_view(bytes).substr(at, size));
            text += all_of(reader);
        }
        CHECK(text == "[{}][][{\"a\":\"\xc3\xa4\"}]");
    }
}

TEST_CASE("other header fields, other letters and plain line ends are fine") {
    MessageReader reader;
    reader.feed("Content-Type: x\r\ncontent-LENGTH: 2\r\n\r\n{}Content-Length:1\n\n7");
    CHECK(all_of(reader) == "[{}][7]");
}

TEST_CASE("what is no frame is told, and reading goes on behind it") {
    MessageReader reader;
    reader.feed("Content-Length: many\r\n\r\n" + framed("1") + "Length\n\n" + framed("2"));
    CHECK(all_of(reader) ==
          "(a header without Content-Length)[1](a header without Content-Length)[2]");
    MessageReader negative;
    negative.feed("Content-Length: -5\r\n\r\n" + framed("3"));
    CHECK(all_of(negative) == "(a header without Content-Length)[3]");
}

TEST_CASE("a message that is too long is passed over, in pieces too") {
    const std::string big(max_message_bytes + 1, 'x');
    for (const std::size_t first : {std::size_t{0}, std::size_t{5}, big.size()}) {
        MessageReader reader;
        std::string text;
        reader.feed("Content-Length: " + std::to_string(big.size()) + "\r\n\r\n");
        reader.feed(std::string_view(big).substr(0, first));
        text += all_of(reader);
        reader.feed(std::string_view(big).substr(first));
        reader.feed(framed("4"));
        CHECK(text + all_of(reader) == "(a message of more than 32 MiB)[4]");
    }
}

TEST_CASE("a header without an end does not fill the machine") {
    MessageReader reader;
    reader.feed(std::string(max_message_header, 'y'));
    CHECK(all_of(reader) == "(no header within 4,096 bytes)");
    reader.feed(framed("5"));
    CHECK(all_of(reader) == "[5]");
}

} // namespace messages_test
