#include "cli/shared/json/diagnostics_json.h"

#include "cli/shared/code_list.h"
#include "cli/shared/json/value.h"
#include "lang/diag/code_page.h"

namespace acre::cli {

namespace {

const char* severity_text(lang::Severity severity) {
    return severity == lang::Severity::Error ? "error" : "warning";
}

Json place_json(const lang::SourceFile& file, std::uint32_t offset) {
    const lang::Position at = file.position(offset);
    return {{"line", at.line}, {"column", at.column}, {"offset", offset}};
}

// path, start and end; all null for what is in no text.
void put_place(Json& json, lang::Span span, const lang::SourceMap& sources) {
    if (span.file >= sources.size()) {
        for (const char* key : {"path", "start", "end"})
            json[key] = nullptr;
        return;
    }
    const lang::SourceFile& file = sources.file(span.file);
    json["path"] = file.name();
    json["start"] = place_json(file, span.begin);
    json["end"] = place_json(file, span.end);
}

Json label_json(const lang::Label& label, bool primary, const lang::SourceMap& sources) {
    Json json;
    json["text"] = label.text;
    json["primary"] = primary;
    put_place(json, label.span, sources);
    return json;
}

Json help_json(const lang::Help& help, const lang::SourceMap& sources) {
    Json json;
    json["text"] = help.text;
    json["edit"] = nullptr;
    if (help.edit) {
        Json edit;
        put_place(edit, help.edit->span, sources);
        edit["replacement"] = help.edit->replacement;
        json["edit"] = std::move(edit);
    }
    return json;
}

} // namespace

Json diagnostic_json(const lang::Diagnostic& diagnostic, const lang::SourceMap& sources) {
    Json json;
    json["code"] = lang::name_of(diagnostic.code);
    json["severity"] = severity_text(diagnostic.severity());
    json["title"] = diagnostic.title;
    put_place(json, diagnostic.primary.span, sources);
    json["labels"] = Json::array({label_json(diagnostic.primary, true, sources)});
    for (const lang::Label& label : diagnostic.others)
        json["labels"].push_back(label_json(label, false, sources));
    json["notes"] = diagnostic.notes;
    json["helps"] = Json::array();
    for (const lang::Help& help : diagnostic.helps)
        json["helps"].push_back(help_json(help, sources));
    return json;
}

Document codes_json(std::string_view only) {
    Json json;
    json["schema"] = "acrewright.codes/1";
    json["codes"] = Json::array();
    for (const lang::Code code : all_codes) {
        if (!is_asked(code, only))
            continue;
        Json entry = {{"code", lang::name_of(code)},
                      {"severity", severity_text(lang::severity_of(code))},
                      {"summary", lang::summary_of(code)},
                      {"kind", kind_text(code)}};
        if (const auto page = lang::page_of(code); page && only.size() > 1) {
            entry["meaning"] = page->meaning;
            entry["cause"] = page->cause;
            entry["wrong"] = {{"kind", page->wrong.kind}, {"text", page->wrong.text}};
            entry["right"] = {{"kind", page->right.kind}, {"text", page->right.text}};
        }
        json["codes"].push_back(std::move(entry));
    }
    return answered(std::move(json));
}

} // namespace acre::cli
