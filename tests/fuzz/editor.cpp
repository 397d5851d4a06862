// Bytes that an editor sends to the language server.
#include <vector>

#include <nlohmann/json.hpp>

#include "cli/editor/server.h"
#include "tests/fuzz/target.h"

namespace editor_fuzz {

namespace {

using namespace acre;

// However the bytes are cut, the same messages come.
std::vector<std::string> messages_of(std::string_view bytes, std::size_t cut) {
    cli::MessageReader reader;
    std::vector<std::string> list;
    for (std::size_t at = 0; at < bytes.size(); at += cut) {
        reader.feed(bytes.substr(at, cut));
        while (const auto message = reader.next())
            list.push_back((message->whole ? "+" : "-") + message->text);
    }
    return list;
}

const char* const begin = R"({"id":0,"method":"initialize","params":{}})";
const char* const open_job =
    R"({"method":"textDocument/didOpen","params":{"textDocument":{"uri":"file:///nowhere/a.rate",)"
    R"("text":"model \"m\"\ngiven area = 40 ac\nhours : h = area / 5 ac/h\n"}}})";

} // namespace

ACREWRIGHT_TARGET(editor, text) {
    const std::vector<std::string> whole = messages_of(text, std::max<std::size_t>(1, text.size()));
    HOLDS(whole == messages_of(text, 1));
    HOLDS(whole == messages_of(text, 7));
    cli::Server server({});
    for (const char* first : {begin, open_job})
        server.take({first, true});
    for (const std::string& message : whole)
        server.take({message.substr(1), message[0] == '+'});
    while (server.waits())
        server.step();
    while (server.unsettled())
        server.settle();
    // What it sends are frames of JSON, and nothing else.
    cli::MessageReader answers;
    const std::string out = server.output();
    answers.feed(out);
    std::size_t bytes = 0;
    while (const auto answer = answers.next()) {
        HOLDS(answer->whole);
        const auto json = nlohmann::json::parse(answer->text, nullptr, false);
        HOLDS(!json.is_discarded());
        HOLDS(json.contains("id") || json.contains("method"));
        bytes += cli::framed(answer->text).size();
    }
    HOLDS(bytes == out.size());
}

} // namespace editor_fuzz
