#include "cli/editor/parts_json.h"

#include <algorithm>

#include "cli/shared/files/file_loader.h"
#include "lang/diag/codes.h"
#include "lang/diag/safe_text.h"

namespace acre::cli {

namespace {

// As the protocol numbers them.
constexpr int error_severity = 1;
constexpr int warning_severity = 2;

int kind_number(Suggestion::Kind kind) {
    switch (kind) {
    case Suggestion::Kind::Name:
        return 6; // Variable
    case Suggestion::Kind::Function:
        return 3;
    case Suggestion::Kind::Unit:
        return 11;
    case Suggestion::Kind::Word:
        return 14; // Keyword
    case Suggestion::Kind::Option:
        return 20; // EnumMember
    case Suggestion::Kind::File:
        break;
    }
    return 17;
}

// A file of the disk or an open text; not a part of the program, nor its command line.
const lang::SourceFile* file_of(lang::Span span, const lang::SourceMap* sources) {
    if (sources == nullptr || span.file >= sources->size())
        return nullptr;
    const lang::SourceFile& file = sources->file(span.file);
    return file.name().starts_with('/') ? &file : nullptr;
}

std::string message_of(const lang::Diagnostic& diagnostic) {
    std::string message = lang::terminal_text(diagnostic.title);
    for (const std::string& note : diagnostic.notes)
        message += "\n" + lang::terminal_text(note);
    for (const lang::Help& help : diagnostic.helps)
        message += "\n" + lang::terminal_text(help.text);
    return message;
}

// Where the lines of each file begin, counted once.
class Indexes {
  public:
    const TextIndex& of(const lang::SourceFile& file) {
        return made_.try_emplace(&file, file.text()).first->second;
    }

  private:
    std::map<const lang::SourceFile*, TextIndex> made_;
};

Json finding_part(const lang::Diagnostic& diagnostic, const lang::SourceMap* sources,
                  const lang::SourceFile* in, Indexes& indexes) {
    const lang::Span span = diagnostic.primary.span;
    Json finding;
    finding["range"] = in == nullptr ? range_part(TextIndex(""), 0, 0)
                                     : range_part(indexes.of(*in), span.begin, span.end);
    finding["severity"] =
        diagnostic.severity() == lang::Severity::Error ? error_severity : warning_severity;
    finding["code"] = lang::name_of(diagnostic.code);
    finding["source"] = "acrewright";
    finding["message"] = message_of(diagnostic);
    Json related = Json::array();
    for (const lang::Label& label : diagnostic.others)
        if (const lang::SourceFile* file = file_of(label.span, sources);
            file && !label.text.empty())
            related.push_back(
                {{"location",
                  {{"uri", uri_of(file->name())},
                   {"range", range_part(indexes.of(*file), label.span.begin, label.span.end)}}},
                 {"message", lang::terminal_text(label.text)}});
    if (!related.empty())
        finding["relatedInformation"] = std::move(related);
    return finding;
}

} // namespace

Json place_part(TextPlace place) {
    return {{"line", place.line}, {"character", place.character}};
}

TextPlace place_in(const Json& position) {
    return {position.at("line").get<std::uint32_t>(),
            position.at("character").get<std::uint32_t>()};
}

Json range_part(const TextIndex& index, std::uint32_t begin, std::uint32_t end) {
    return {{"start", place_part(index.place(begin))}, {"end", place_part(index.place(end))}};
}

Json suggestion_part(const Suggestion& suggestion, std::size_t order) {
    std::string sort = std::to_string(order);
    sort.insert(0, 6 - std::min<std::size_t>(sort.size(), 6), '0');
    return {{"label", suggestion.text},
            {"kind", kind_number(suggestion.kind)},
            {"detail", lang::terminal_text(suggestion.detail)},
            {"sortText", sort}};
}

void add_findings(Findings& findings, const std::vector<lang::Said>& said,
                  const std::string& file) {
    Indexes indexes;
    for (const lang::Said& one : said)
        for (const lang::Diagnostic& diagnostic : one.diagnostics.all()) {
            const lang::SourceFile* in = file_of(diagnostic.primary.span, one.sources.get());
            const bool nowhere = diagnostic.primary.span.file == lang::no_file;
            if (in == nullptr && !nowhere)
                continue;
            Json finding = finding_part(diagnostic, one.sources.get(), in, indexes);
            FindingList& found = findings[in == nullptr ? file : in->name()];
            // Found by itself and in the light of a job, it has other notes.
            const Json said_there = {finding["range"], finding["code"], diagnostic.title};
            if (found.seen.insert(said_there.dump(-1, ' ', false, Json::error_handler_t::replace))
                    .second)
                found.list.push_back(std::move(finding));
        }
}

Json mends_part(const std::vector<lang::Said>& said, const std::string& file, std::uint32_t begin,
                std::uint32_t end) {
    Json actions = Json::array();
    for (const lang::Said& one : said)
        for (const lang::Diagnostic& diagnostic : one.diagnostics.all()) {
            const lang::Span span = diagnostic.primary.span;
            const lang::SourceFile* in = file_of(span, one.sources.get());
            if (in == nullptr || in->name() != file || span.begin > end || span.end < begin)
                continue;
            for (const lang::Help& help : diagnostic.helps) {
                const lang::SourceFile* edited =
                    help.edit ? file_of(help.edit->span, one.sources.get()) : nullptr;
                if (edited == nullptr)
                    continue;
                const Json edit = {
                    {"range", range_part(TextIndex(edited->text()), help.edit->span.begin,
                                         help.edit->span.end)},
                    {"newText", help.edit->replacement}};
                Json action = {
                    {"title", lang::terminal_text(help.text)},
                    {"kind", "quickfix"},
                    {"edit", {{"changes", {{uri_of(edited->name()), Json::array({edit})}}}}}};
                if (std::find(actions.begin(), actions.end(), action) == actions.end())
                    actions.push_back(std::move(action));
            }
        }
    return actions;
}

Json changes_part(const Replacements& replacements, const Workspace& workspace) {
    Json changes = Json::object();
    for (const auto& [file, list] : replacements) {
        const std::string text = workspace.text_of(file);
        const TextIndex index(text);
        const OpenText* open = workspace.documents.find(file);
        Json& edits = changes[open != nullptr ? open->uri : uri_of(file)] = Json::array();
        for (const Replacement& replacement : list)
            edits.push_back({{"range", range_part(index, replacement.begin, replacement.end)},
                             {"newText", replacement.text}});
    }
    return changes;
}

} // namespace acre::cli
