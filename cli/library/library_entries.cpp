#include "cli/library/library_entries.h"

#include "cli/shared/files/file_loader.h"
#include "engine/driver.h"
#include "lang/compile.h"
#include "lang/units/number_text.h"
#include "models/library_texts.h"

namespace acre::cli {

namespace {

std::string known_text(lang::ast::Known known) {
    switch (known) {
    case lang::ast::Known::Read:
        return "read in its source";
    case lang::ast::Known::Recalled:
        return "recalled, its source was not seen";
    case lang::ast::Known::CommonPractice:
        return "common practice, no source";
    case lang::ast::Known::Ours:
        return "our own";
    case lang::ast::Known::Unstated:
        break;
    }
    return "not stated";
}

lang::Request request_for(std::string body) {
    lang::Request request;
    request.name = built_in_name("index"); // so that nothing is looked for on the disk
    request.kind = lang::FileKind::Model;
    request.text = std::move(body);
    return request;
}

std::string signature_of(const lang::Function& function) {
    std::string text = function.name + " (";
    for (std::size_t i = 0; i < function.parameters.size(); ++i)
        text += (i > 0 ? ", " : "") + function.parameters[i] + " : " + function.parameter_texts[i];
    return text + ") : " + function.type_text;
}

class Reader {
  public:
    Reader(const models::LibraryText& library, lang::Diagnostics& diagnostics)
        : library_(library),
          diagnostics_(diagnostics) {
        sheet_ = lang::compile(
            request_for("model \"index\"\nuse \"" + std::string(library.reference) + "\"\n"),
            loader_, sources_, diagnostics);
    }

    void entries(std::string_view name, std::vector<LibraryEntry>& list) {
        if (!sheet_)
            return;
        for (const lang::Function& function : (*sheet_)->functions) {
            const bool own =
                sources_.file(function.file).name() == built_in_name(library_.reference);
            if (own && (name.empty() || function.name == name)) {
                list.push_back(entry(function));
                if (!name.empty())
                    evaluate_examples(function, list.back());
            }
        }
    }

  private:
    std::string text(lang::Span span) const { return std::string(sources_.text(span)); }
    std::string node_text(lang::NodeId node) const { return text((*sheet_)->nodes[node].span); }

    std::vector<std::string> ranges(const lang::Function& function,
                                    const std::vector<lang::FunctionRange>& ranges) const {
        std::vector<std::string> texts;
        for (const lang::FunctionRange& range : ranges) {
            texts.push_back(function.parameters[range.parameter] + " " + node_text(range.low) +
                            " .. " + node_text(range.high) +
                            (range.reason.empty() ? "" : " (" + range.reason + ")"));
        }
        return texts;
    }

    LibraryEntry entry(const lang::Function& function) const {
        LibraryEntry entry;
        entry.name = function.name;
        entry.label = function.label;
        entry.library = library_.reference;
        entry.signature = signature_of(function);
        entry.unit = function.type_text;
        entry.written = text(function.span);
        entry.known = known_text(function.known);
        entry.native = function.native;
        entry.sources = function.sources;
        entry.notes = function.notes;
        entry.tested = ranges(function, function.tested);
        entry.limits = ranges(function, function.limits);
        return entry;
    }

    // The examples as lines of a model of their own, priced like any other.
    void evaluate_examples(const lang::Function& function, LibraryEntry& entry) {
        std::string body = "model \"examples\"\nuse \"" + std::string(library_.reference) + "\"\n";
        for (std::size_t i = 0; i < function.examples.size(); ++i) {
            body += "example_" + std::to_string(i) + " : " + function.type_text + " = " +
                    node_text(function.examples[i].call) + "\n";
        }
        const lang::Outcome<engine::Job> job = engine::make_job(request_for(body), loader_);
        if (!job) {
            for (const lang::Diagnostic& diagnostic : job.said.diagnostics.all())
                diagnostics_.add(diagnostic);
            return;
        }
        for (std::size_t i = 0; i < function.examples.size(); ++i) {
            const lang::FunctionExample& written = function.examples[i];
            WorkedExample example;
            example.call = node_text(written.call);
            example.expected = node_text(written.expected);
            if (written.tolerance != lang::none)
                example.expected += " within " + node_text(written.tolerance);
            const lang::LineId line = (*job)->sheet().find("example_" + std::to_string(i));
            example.value = (*job)->value(line);
            example.text = shown((*job)->sheet(), function, example.value);
            entry.examples.push_back(std::move(example));
        }
    }

    // A value of a choice by its name, a number with its unit.
    static std::string shown(const lang::Sheet& sheet, const lang::Function& function,
                             double value) {
        if (function.type.kind != lang::Type::Kind::Choice)
            return lang::quantity_text(value, function.type_text);
        for (const lang::ChoiceType& choice : sheet.choices) {
            const auto option = static_cast<std::size_t>(value);
            if (choice.name == function.type_text && value >= 0 && option < choice.options.size())
                return choice.options[option];
        }
        return "";
    }

    const models::LibraryText& library_;
    lang::Diagnostics& diagnostics_;
    FileLoader loader_{"", ""};
    lang::SourceMap sources_;
    std::optional<lang::CheckedSheet> sheet_;
};

} // namespace

std::vector<LibraryEntry> library_entries(std::string_view name, lang::Diagnostics& diagnostics) {
    std::vector<LibraryEntry> list;
    for (const models::LibraryText& library : models::library_texts())
        Reader(library, diagnostics).entries(name, list);
    return list;
}

} // namespace acre::cli
