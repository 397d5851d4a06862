// An editor before the language server: what it sends, and what it is answered.
#pragma once

#include <doctest/doctest.h>

#include <fstream>
#include <string>
#include <utility>
#include <vector>

#include <nlohmann/json.hpp>

#include "cli/editor/documents.h"
#include "cli/editor/messages.h"
#include "cli/editor/server.h"
#include "tests/support/scratch_folder.h"

// Not in acre::tests: who uses that must not find all of acre::cli in it.
namespace desk {

using namespace acre::cli;
using acre::tests::ScratchFolder;
using Json = nlohmann::ordered_json;

inline const std::string model = "model \"Mowing\"\n"
                                 "given area = 40 ac  \"acres mowed\"\n"
                                 "given pace = 5 ac/h  \"pace\"\n"
                                 "given ground = flat | rough  \"ground\"\n"
                                 "hours : h = area / pace  \"machine hours\"\n"
                                 "cost driver : $/h = $30/h over hours  \"driver\"\n"
                                 "price \"Mowing\" per ac of area\n"
                                 "  margin 20 %\n";
inline const std::string job = "job \"Meadow\"\nmodel \"mowing\"\nset area = 20 ac\n";

// An editor with a folder of two files, both on the disk.
class Desk {
  public:
    explicit Desk(bool begun = true) : server_({}) {
        std::ofstream(scratch_.path("mowing.rate")) << model;
        std::ofstream(scratch_.path("meadow.job")) << job;
        if (begun)
            result("initialize", {{"rootUri", uri_of(scratch_.path(""))}});
    }

    std::vector<Json> send(const std::string& body) { return send_bytes(framed(body)); }
    std::vector<Json> send_bytes(const std::string& bytes) {
        reader_.feed(bytes);
        while (auto message = reader_.next())
            server_.take(std::move(*message));
        while (server_.waits())
            server_.step();
        return said();
    }
    std::vector<Json> settle() {
        while (server_.unsettled())
            server_.settle();
        return said();
    }
    Json request(const std::string& method, const Json& parameters) {
        const Json message = {
            {"jsonrpc", "2.0"}, {"id", ++id_}, {"method", method}, {"params", parameters}};
        for (const Json& answer : send(message.dump()))
            if (answer.contains("id") && answer["id"] == id_)
                return answer;
        return nullptr;
    }
    Json result(const std::string& method, const Json& parameters) {
        const Json answer = request(method, parameters);
        CHECK_MESSAGE(answer.contains("result"), answer.dump());
        return answer.contains("result") ? answer["result"] : Json(nullptr);
    }
    void notify(const std::string& method, const Json& parameters) {
        send(Json{{"jsonrpc", "2.0"}, {"method", method}, {"params", parameters}}.dump());
    }
    std::string uri(const std::string& name) { return uri_of(scratch_.path(name)); }
    void open(const std::string& name, const std::string& text) {
        notify("textDocument/didOpen",
               {{"textDocument",
                 {{"uri", uri(name)}, {"languageId", "x"}, {"version", 1}, {"text", text}}}});
    }
    void change(const std::string& name, const std::string& text) {
        notify("textDocument/didChange", {{"textDocument", {{"uri", uri(name)}, {"version", 2}}},
                                          {"contentChanges", Json::array({{{"text", text}}})}});
    }
    Json about(const std::string& name) { return {{"textDocument", {{"uri", uri(name)}}}}; }
    Json at(const std::string& name, int line, int character) {
        Json parameters = about(name);
        parameters["position"] = {{"line", line}, {"character", character}};
        return parameters;
    }
    std::string lens(const std::string& name, std::size_t which = 0) {
        const Json lenses = result("textDocument/codeLens", about(name));
        return which < lenses.size() ? lenses[which]["command"]["title"].get<std::string>() : "";
    }
    // Codes that are shown of a file, in order.
    std::string codes(const std::string& name) {
        std::string text = "not told";
        for (const Json& message : settle())
            if (message["params"]["uri"] == uri(name)) {
                text.clear();
                for (const Json& one : message["params"]["diagnostics"])
                    text += (text.empty() ? "" : " ") + one["code"].get<std::string>();
            }
        return text;
    }
    Server& server() { return server_; }
    ScratchFolder& folder() { return scratch_; }

  private:
    std::vector<Json> said() {
        MessageReader answers;
        answers.feed(server_.output());
        std::vector<Json> list;
        while (const auto message = answers.next())
            list.push_back(Json::parse(message->text));
        return list;
    }

    ScratchFolder scratch_;
    Server server_;
    MessageReader reader_;
    int id_ = 0;
};

} // namespace desk
