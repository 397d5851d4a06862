#include "cli/editor/answers_json.h"

#include <algorithm>
#include <limits>
#include <map>

#include "cli/editor/at_cursor.h"
#include "cli/editor/beside.h"
#include "cli/editor/hover.h"
#include "cli/shared/files/file_loader.h"
#include "lang/syntax/tidy.h"

namespace acre::cli {

namespace {

constexpr std::uint32_t whole_text = std::numeric_limits<std::uint32_t>::max();

// The text that a request is about, with what is known of it.
class Subject {
  public:
    Subject(Workspace& workspace, const Json& parameters) : workspace_(workspace) {
        const auto path =
            path_of(parameters.at("textDocument").at("uri").get_ref<const std::string&>());
        lang::FileKind kind{};
        if (!path || !file_kind(*path, kind))
            return;
        file = *path;
        open_ = workspace.documents.find(file);
    }

    explicit operator bool() const { return open_ != nullptr; }
    const std::string& text() const { return open_->text; }
    const TextView& view() const { return workspace_.view(file); }
    std::vector<lang::Said> found() const {
        const Found& found = workspace_.found(file);
        std::vector<lang::Said> all = found.own;
        all.insert(all.end(), found.job.begin(), found.job.end());
        return all;
    }
    std::uint32_t offset(const Json& position) const {
        return TextIndex(text()).offset(place_in(position));
    }
    AtCursor symbol(const Json& parameters) const {
        const auto outline = view().outline;
        return outline == nullptr
                   ? AtCursor{}
                   : symbol_at(*outline, file, text(), offset(parameters.at("position")));
    }

    std::string file;

  private:
    Workspace& workspace_;
    const OpenText* open_ = nullptr;
};

Json hover(Workspace& workspace, const Json& parameters) {
    const Subject at(workspace, parameters);
    if (!at)
        return nullptr;
    const auto found =
        hover_at(at.view(), at.file, at.text(), at.offset(parameters.at("position")));
    if (!found)
        return nullptr;
    return {{"contents", {{"kind", "plaintext"}, {"value", found->text}}},
            {"range", range_part(TextIndex(at.text()), found->begin, found->end)}};
}

Json completion(Workspace& workspace, const Json& parameters) {
    const Subject at(workspace, parameters);
    Json items = Json::array();
    if (at)
        for (const Suggestion& suggestion : suggestions_at(workspace, at.view(), at.file, at.text(),
                                                           at.offset(parameters.at("position"))))
            items.push_back(suggestion_part(suggestion, items.size()));
    return {{"isIncomplete", false}, {"items", std::move(items)}};
}

// Null: the file is gone since.
Json location(const Workspace& workspace, const engine::Stretch& at) {
    if (!workspace.is_there(at.file))
        return nullptr;
    const std::string text = workspace.text_of(at.file);
    const OpenText* open = workspace.documents.find(at.file);
    return {{"uri", open != nullptr ? open->uri : uri_of(at.file)},
            {"range", range_part(TextIndex(text), at.begin, at.end)}};
}

// Of `use "crawler"`, `model "…"` or `season "…"`: the file.
Json file_named(Workspace& workspace, const Subject& at, std::uint32_t offset) {
    const auto outline = at.view().outline;
    const auto token = token_at(at.text(), offset);
    if (outline == nullptr || !token || token->kind != lang::TokenKind::Text)
        return nullptr;
    std::string_view written = token->in(at.text());
    written.remove_prefix(1);
    if (written.ends_with('"'))
        written.remove_suffix(1);
    for (const engine::Reference& reference : outline->uses)
        if (reference.from == at.file && reference.written == written &&
            reference.file.starts_with('/'))
            return location(workspace, {reference.file, 0, 0});
    return nullptr;
}

Json definition(Workspace& workspace, const Json& parameters) {
    const Subject at(workspace, parameters);
    if (!at)
        return nullptr;
    const AtCursor found = at.symbol(parameters);
    if (found.symbol == nullptr)
        return file_named(workspace, at, at.offset(parameters.at("position")));
    return found.symbol->at.file.starts_with('/') ? location(workspace, found.symbol->at) : nullptr;
}

Json references(Workspace& workspace, const Json& parameters) {
    const Subject at(workspace, parameters);
    if (!at)
        return nullptr;
    const AtCursor found = at.symbol(parameters);
    Json list = Json::array();
    if (found.symbol == nullptr)
        return list;
    const bool declared = parameters.value("/context/includeDeclaration"_json_pointer, true);
    const engine::Stretch here = found.symbol->at;
    std::map<std::string, Looked> seen;
    for (const auto& [file, places] :
         mentions_in_folder(workspace, *at.view().outline, found.index, seen))
        for (const engine::Stretch& place : places)
            if (file.starts_with('/') &&
                (declared || place.file != here.file || place.begin != here.begin))
                if (Json where = location(workspace, place); !where.is_null())
                    list.push_back(std::move(where));
    return list;
}

Json prepare_rename(Workspace& workspace, const Json& parameters) {
    const Subject at(workspace, parameters);
    if (!at)
        return nullptr;
    const AtCursor found = at.symbol(parameters);
    if (found.symbol == nullptr || !found.symbol->at.file.starts_with('/'))
        return nullptr;
    return {{"range", range_part(TextIndex(at.text()), found.begin, found.end)},
            {"placeholder", found.symbol->name}};
}

Json rename(Workspace& workspace, const Json& parameters) {
    const Subject at(workspace, parameters);
    if (!at)
        return nullptr;
    const AtCursor found = at.symbol(parameters);
    if (found.symbol == nullptr)
        throw Refused{"no name that a statement declares stands here"};
    if (!at.view().fresh)
        throw Refused{"the text has errors: mend them first"};
    const lang::Outcome<Replacements> edits = renamed(workspace, *at.view().outline, found.index,
                                                      parameters.at("newName").get<std::string>());
    if (!edits) {
        const lang::Diagnostic& why = edits.said.diagnostics.all().front();
        throw Refused{why.title + (why.notes.empty() ? "" : ": " + why.notes.front())};
    }
    return {{"changes", changes_part(*edits, workspace)}};
}

Json symbols(Workspace& workspace, const Json& parameters) {
    const Subject at(workspace, parameters);
    return at ? symbols_part(at.file, at.text()) : Json(nullptr);
}

Json formatting(Workspace& workspace, const Json& parameters) {
    const Subject at(workspace, parameters);
    if (!at)
        return nullptr;
    lang::FileKind kind{};
    file_kind(at.file, kind);
    lang::SourceMap sources;
    lang::Diagnostics unsaid;
    const lang::FileId id = sources.add(at.file, at.text());
    const std::optional<std::string> tidy = lang::tidy(sources, id, kind, unsaid);
    if (!tidy)
        throw Refused{"the text has errors: mend them first"};
    Json edits = Json::array();
    if (*tidy != at.text())
        edits.push_back(
            {{"range", range_part(TextIndex(at.text()), 0, whole_text)}, {"newText", *tidy}});
    return edits;
}

Json actions(Workspace& workspace, const Json& parameters) {
    const Subject at(workspace, parameters);
    if (!at)
        return nullptr;
    const Json& range = parameters.at("range");
    return mends_part(at.found(), at.file, at.offset(range.at("start")),
                      at.offset(range.at("end")));
}

Json lenses(Workspace& workspace, const Json& parameters) {
    const Subject at(workspace, parameters);
    Json list = Json::array();
    if (!at)
        return list;
    const TextIndex index(at.text());
    for (const Beside& lens : lenses_of(at.view(), at.file, at.text()))
        list.push_back({{"range", range_part(index, lens.offset, index.line_end(lens.offset))},
                        {"command", {{"title", lens.text}, {"command", ""}}}});
    return list;
}

Json hints(Workspace& workspace, const Json& parameters) {
    const Subject at(workspace, parameters);
    Json list = Json::array();
    if (!at)
        return list;
    const TextIndex index(at.text());
    const Json& range = parameters.at("range");
    for (const Beside& value :
         values_of(at.view(), at.file, at.text(), index.line_begin(at.offset(range.at("start"))),
                   index.line_end(at.offset(range.at("end"))) + 1))
        list.push_back({{"position", place_part(index.place(value.offset))},
                        {"label", value.text},
                        {"paddingLeft", true}});
    return list;
}

} // namespace

const Answer* answer_to(std::string_view method) {
    static const std::map<std::string_view, Answer> answers = {
        {"textDocument/hover", hover},
        {"textDocument/completion", completion},
        {"textDocument/definition", definition},
        {"textDocument/references", references},
        {"textDocument/prepareRename", prepare_rename},
        {"textDocument/rename", rename},
        {"textDocument/documentSymbol", symbols},
        {"textDocument/formatting", formatting},
        {"textDocument/codeAction", actions},
        {"textDocument/codeLens", lenses},
        {"textDocument/inlayHint", hints},
    };
    const auto found = answers.find(method);
    return found == answers.end() ? nullptr : &found->second;
}

Json capabilities() {
    constexpr int by_change = 2; // TextDocumentSyncKind.Incremental
    return {{"textDocumentSync",
             {{"openClose", true}, {"change", by_change}, {"save", {{"includeText", false}}}}},
            {"hoverProvider", true},
            {"completionProvider", {{"triggerCharacters", {".", "\"", " ", ":", "/"}}}},
            {"definitionProvider", true},
            {"referencesProvider", true},
            {"renameProvider", {{"prepareProvider", true}}},
            {"documentSymbolProvider", true},
            {"documentFormattingProvider", true},
            {"codeActionProvider", {{"codeActionKinds", {"quickfix"}}}},
            {"codeLensProvider", {{"resolveProvider", false}}},
            {"inlayHintProvider", true},
            {"workspace",
             {{"workspaceFolders", {{"supported", true}, {"changeNotifications", true}}}}}};
}

} // namespace acre::cli
