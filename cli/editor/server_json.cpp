#include "cli/editor/server.h"

#include <deque>
#include <exception>
#include <map>
#include <optional>
#include <utility>
#include <vector>

#include "cli/editor/answers_json.h"
#include "cli/editor/settings_json.h"
#include "cli/shared/files/file_loader.h"

namespace acre::cli {

namespace {

// JSON-RPC 2.0 and the protocol's own.
enum ErrorNumber {
    parse_error = -32700,
    invalid_request = -32600,
    no_such_method = -32601,
    invalid_parameters = -32602,
    internal_error = -32603,
    not_initialized = -32002,
    request_cancelled = -32800,
    request_failed = -32803
};

constexpr int deepest_json = 64;
constexpr std::size_t most_waiting = 100'000;

// Nothing: no JSON, or deeper than it needs to be.
Json read_json(const std::string& text) {
    bool deep = false;
    const auto watch = [&deep](int depth, Json::parse_event_t, Json&) {
        deep = deep || depth > deepest_json;
        return depth <= deepest_json;
    };
    Json json = Json::parse(text, watch, false);
    return deep ? Json(Json::value_t::discarded) : json;
}

} // namespace

// All open texts, looked at one after the other.
struct Round {
    explicit Round(const Documents& documents) {
        for (const auto& [path, open] : documents.all())
            if (lang::FileKind kind{}; file_kind(path, kind))
                texts.push_back(path);
    }
    std::vector<std::string> texts;
    std::size_t next = 0; // of all by themselves, then of all in the light of their jobs
    Findings findings;
};

struct Server::Impl {
    Workspace workspace;
    std::deque<Json> waiting;
    std::string out;
    std::map<std::string, Json> told; // by path: findings that an editor shows
    std::optional<Round> round;       // looking at the texts that are open
    bool begun = false, stopped = false, ended = false, unsettled = false;
    bool watches = false; // the editor looks at files where it is asked to

    void send(const Json& message) {
        out += framed(message.dump(-1, ' ', true, Json::error_handler_t::replace));
    }
    void fail(const Json& id, int number, const std::string& why) {
        send({{"jsonrpc", "2.0"}, {"id", id}, {"error", {{"code", number}, {"message", why}}}});
    }
    void reply(const Json& id, Json result) {
        send({{"jsonrpc", "2.0"}, {"id", id}, {"result", std::move(result)}});
    }

    // Drops the request from the row; what is answered already is.
    void cancel(const Json& id) {
        for (auto it = waiting.begin(); it != waiting.end(); ++it)
            if (it->contains("id") && (*it)["id"] == id) {
                waiting.erase(it);
                return fail(id, request_cancelled, "cancelled");
            }
    }

    void step(const Json& message) {
        const Json id = message.contains("id") ? message["id"] : Json(nullptr);
        const auto method = message.find("method");
        if (method == message.end())
            return; // an answer to something; nothing was asked
        if (!method->is_string())
            return fail(id, invalid_request, "`method` is no text");
        const std::string& name = method->get_ref<const std::string&>();
        const Json parameters =
            message.contains("params") ? message["params"] : Json(Json::object());
        try {
            if (message.contains("id"))
                request(name, id, parameters);
            else
                notification(name, parameters);
        } catch (const Refused& refused) {
            fail(id, request_failed, refused.why);
        } catch (const Json::exception& error) {
            if (message.contains("id"))
                fail(id, invalid_parameters, "these parameters cannot be read");
        } catch (const std::exception& error) {
            if (message.contains("id"))
                fail(id, internal_error, std::string("internal error: ") + error.what());
        }
    }

    void request(const std::string& name, const Json& id, const Json& parameters) {
        if (name == "initialize") {
            begin(parameters);
            return reply(
                id, {{"capabilities", capabilities()},
                     {"serverInfo", {{"name", "acrewright"}, {"version", ACREWRIGHT_VERSION}}}});
        }
        if (!begun)
            return fail(id, not_initialized, "`initialize` comes first");
        if (stopped)
            return fail(id, invalid_request, "after `shutdown` comes `exit`");
        if (name == "shutdown") {
            stopped = true;
            return reply(id, nullptr);
        }
        if (const Answer* answer = answer_to(name))
            return reply(id, (*answer)(workspace, parameters));
        fail(id, no_such_method, "no request `" + name + "`");
    }

    void begin(const Json& parameters) {
        begun = true;
        take_folders(workspace.settings, parameters);
        watches = parameters.value(
            "/capabilities/workspace/didChangeWatchedFiles/dynamicRegistration"_json_pointer,
            false);
        if (const auto options = parameters.find("initializationOptions");
            options != parameters.end())
            take_settings(workspace.settings, *options);
    }

    // Files that others write, or take away, are told of by an editor that is asked to look.
    void watch_files() {
        send({{"jsonrpc", "2.0"},
              {"id", "watch"},
              {"method", "client/registerCapability"},
              {"params", {{"registrations", Json::array({watched_files()})}}}});
    }

    void files_changed() {
        workspace.files_changed();
        text_changed();
    }

    void notification(const std::string& name, const Json& parameters) {
        if (name == "exit") {
            ended = true;
        } else if (name == "initialized") {
            if (watches)
                watch_files();
        } else if (name == "workspace/didChangeWorkspaceFolders") {
            change_folders(workspace.settings, parameters.at("event"));
            files_changed();
        } else if (name == "textDocument/didOpen") {
            const Json& document = parameters.at("textDocument");
            const auto& uri = document.at("uri").get_ref<const std::string&>();
            if (const auto path = path_of(uri))
                workspace.documents.open(*path, uri, document.at("text").get<std::string>());
            files_changed();
        } else if (name == "textDocument/didChange") {
            change(parameters);
        } else if (name == "textDocument/didClose") {
            if (const auto path =
                    path_of(parameters.at("textDocument").at("uri").get_ref<const std::string&>()))
                workspace.documents.close(*path);
            files_changed();
        } else if (name == "textDocument/didSave" || name == "workspace/didChangeWatchedFiles") {
            files_changed();
        } else if (name == "workspace/didChangeConfiguration") {
            const Json& settings = parameters.at("settings");
            take_settings(workspace.settings,
                          settings.is_object() && settings.contains("acrewright")
                              ? settings["acrewright"]
                              : settings);
            files_changed();
        }
    }

    void change(const Json& parameters) {
        const auto path =
            path_of(parameters.at("textDocument").at("uri").get_ref<const std::string&>());
        if (!path)
            return;
        for (const Json& one : parameters.at("contentChanges")) {
            TextChange change;
            change.text = one.at("text").get<std::string>();
            change.whole = !one.contains("range");
            if (!change.whole) {
                change.begin = place_in(one["range"].at("start"));
                change.end = place_in(one["range"].at("end"));
            }
            workspace.documents.change(*path, change);
        }
        workspace.changed();
        text_changed();
    }

    void text_changed() {
        unsettled = true;
        round.reset();
    }

    // One look at one text: first every text by itself, told at once where that is news; then each
    // in the light of its job. The last one takes back what an editor shows and is gone.
    void settle() {
        if (!round)
            round = Round(workspace.documents);
        while (round->next < round->texts.size() * 2) {
            const std::string& path = round->texts[round->next % round->texts.size()];
            const bool by_itself = round->next++ < round->texts.size();
            const Found& found =
                by_itself ? workspace.found_by_itself(path) : workspace.found(path);
            if (!by_itself) {
                add_findings(round->findings, found.own, path);
                add_findings(round->findings, found.job, path);
                return;
            }
            tell_early(path, found);
            return;
        }
        tell_all(std::move(round->findings));
        round.reset();
        unsettled = false;
    }

    // Of this text alone, with what was found last in the light of its job.
    void tell_early(const std::string& path, const Found& found) {
        Findings findings;
        add_findings(findings, found.own, path);
        add_findings(findings, found.job, path);
        const auto was = told.find(path);
        if (Json& list = findings[path].list;
            list != (was == told.end() ? Json::array() : was->second))
            tell(path, std::move(list));
    }

    void tell_all(Findings findings) {
        for (const std::string& path : round->texts)
            findings.try_emplace(path);
        for (const auto& [path, list] : told)
            findings.try_emplace(path);
        for (auto& [path, found] : findings)
            tell(path, std::move(found.list));
        std::erase_if(told, [](const auto& one) { return one.second.empty(); });
    }

    void tell(const std::string& path, Json list) {
        const OpenText* open = workspace.documents.find(path);
        send({{"jsonrpc", "2.0"},
              {"method", "textDocument/publishDiagnostics"},
              {"params",
               {{"uri", open != nullptr ? open->uri : uri_of(path)}, {"diagnostics", list}}}});
        told[path] = std::move(list);
    }
};

Server::Server(EditorSettings settings) : impl_(std::make_unique<Impl>()) {
    impl_->workspace.settings = std::move(settings);
}
Server::~Server() = default;

void Server::take(Incoming message) {
    if (!message.whole)
        return impl_->fail(nullptr, parse_error, message.text);
    Json json = read_json(message.text);
    if (json.is_discarded())
        return impl_->fail(nullptr, parse_error, "no JSON that can be read");
    if (!json.is_object())
        return impl_->fail(nullptr, invalid_request, "a message is an object");
    if (impl_->waiting.size() >= most_waiting)
        return impl_->fail(nullptr, internal_error, "too many messages wait");
    const bool cancels = json.contains("method") && json["method"] == "$/cancelRequest" &&
                         json.contains("params") && json["params"].is_object() &&
                         json["params"].contains("id");
    if (cancels)
        impl_->cancel(json["params"]["id"]);
    else
        impl_->waiting.push_back(std::move(json));
}

bool Server::waits() const {
    return !impl_->waiting.empty();
}

void Server::step() {
    const Json message = std::move(impl_->waiting.front());
    impl_->waiting.pop_front();
    impl_->step(message);
}

bool Server::unsettled() const {
    return impl_->unsettled && impl_->begun;
}
bool Server::settling() const {
    return impl_->round.has_value();
}
void Server::settle() {
    try {
        impl_->settle();
    } catch (const std::exception& error) {
        impl_->round.reset();
        impl_->unsettled = false;
        constexpr int is_error = 1; // MessageType.Error
        impl_->send(
            {{"jsonrpc", "2.0"},
             {"method", "window/showMessage"},
             {"params",
              {{"type", is_error}, {"message", std::string("internal error: ") + error.what()}}}});
    }
}

std::string Server::output() {
    return std::exchange(impl_->out, std::string());
}
bool Server::ended() const {
    return impl_->ended;
}
bool Server::in_order() const {
    return impl_->ended && impl_->stopped;
}

} // namespace acre::cli
