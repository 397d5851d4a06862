#include "engine/questions/library.h"

#include <optional>
#include <string_view>
#include <utility>

#include <fmt/format.h>

#include "engine/driver.h"
#include "engine/words/choice_label.h"
#include "engine/words/signature.h"
#include "lang/compile.h"
#include "lang/diag/described.h"
#include "lang/diag/suggest.h"
#include "lang/units/number_text.h"

namespace acre::engine {

namespace {

std::string known_in_full(lang::ast::Known known) {
    switch (known) {
    case lang::ast::Known::Read:
        return "read in its source";
    case lang::ast::Known::Recalled:
        return "from memory; its source was not seen";
    case lang::ast::Known::CommonPractice:
        return "common practice; no source";
    case lang::ast::Known::Ours:
        return "our own";
    case lang::ast::Known::Unstated:
        break;
    }
    return "not stated";
}

class Reader {
  public:
    Reader(std::string library, const LibraryQuestion& question, lang::Loader& loader,
           lang::Said& said)
        : library_(std::move(library)),
          question_(question),
          loader_(loader),
          said_(said) {}

    void read(std::vector<Formula>& formulas) {
        lang::Outcome<lang::Loaded> own =
            loader_.load(lang::ReferenceKind::Model, library_, question_.from);
        said_ = std::move(own.said);
        if (!own)
            return;
        const auto sources = std::make_shared<lang::SourceMap>();
        said_.sources = sources;
        sources_ = sources;
        sheet_ = lang::compile(request_for("model \"index\"\nuse \"" + library_ + "\"\n"), loader_,
                               *sources, said_.diagnostics);
        if (!sheet_)
            return;
        for (const lang::Function& function : (*sheet_)->functions) {
            const bool asked = question_.name.empty() || function.name == question_.name;
            if (!asked || is_further_copy(function) ||
                sources_->file(function.file).name() != own->name)
                continue;
            formulas.push_back(formula(function));
            if (!question_.name.empty())
                work_out_examples(function, formulas.back());
        }
    }

  private:
    lang::Request request_for(std::string body) const {
        lang::Request request;
        request.name = question_.from;
        request.kind = lang::FileKind::Model;
        request.text = std::move(body);
        return request;
    }

    std::string text(lang::Span span) const { return std::string(sources_->text(span)); }
    std::string node_text(lang::NodeId node) const { return text((*sheet_)->nodes[node].span); }

    std::vector<std::string> ranges(const lang::Function& function,
                                    const std::vector<lang::FunctionRange>& ranges) const {
        std::vector<std::string> texts;
        for (const lang::FunctionRange& range : ranges) {
            texts.push_back(parameter_name(function, range.parameter) + " " + node_text(range.low) +
                            " .. " + node_text(range.high) +
                            (range.reason.empty() ? "" : " (" + range.reason + ")"));
        }
        return texts;
    }

    Formula formula(const lang::Function& function) const {
        Formula entry;
        entry.name = function.name;
        entry.label = function.label;
        entry.library = library_;
        entry.signature = signature_of(function);
        entry.unit = function.type_text;
        entry.written = text(function.span);
        entry.known = known_in_full(function.known);
        entry.native = function.native;
        entry.sources = function.sources;
        entry.notes = function.notes;
        entry.tested = ranges(function, function.tested);
        entry.limits = ranges(function, function.limits);
        return entry;
    }

    // The examples as lines of a model of their own, priced like any other.
    void work_out_examples(const lang::Function& function, Formula& entry) {
        std::string body = "model \"examples\"\nuse \"" + library_ + "\"\n";
        for (std::size_t i = 0; i < function.examples.size(); ++i) {
            body += "example_" + std::to_string(i) + " : " + function.type_text + " = " +
                    node_text(function.examples[i].call) + "\n";
        }
        lang::Outcome<Job> job = make_job(request_for(std::move(body)), loader_);
        if (!job) {
            said_ = std::move(job.said);
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
                return choice_label(choice.options[option]);
        }
        return "";
    }

    std::string library_;
    const LibraryQuestion& question_;
    lang::Loader& loader_;
    lang::Said& said_;
    std::shared_ptr<const lang::SourceMap> sources_;
    std::optional<lang::CheckedSheet> sheet_;
};

lang::Diagnostic no_such_formula(const LibraryQuestion& question, lang::Loader& loader) {
    const lang::Outcome<LibraryAnswer> all =
        ask(LibraryQuestion{question.libraries, question.from, {}}, loader);
    std::vector<std::string_view> names;
    std::vector<lang::Described> said;
    if (all)
        for (const Formula& formula : all->formulas) {
            names.push_back(formula.name);
            said.push_back({formula.name, formula.label});
        }
    std::string title = fmt::format("the library has no formula `{}`", question.name);
    if (const auto near = lang::near_names(question.name, names, 1); !near.empty())
        title += fmt::format("; did you mean `{}`?", near[0]);
    std::vector<std::string> helps;
    for (const lang::Described& found : lang::described_by(question.name, said, 8))
        helps.push_back(lang::described_help(found));
    return lang::placeless(lang::Code::Q001, std::move(title), {}, std::move(helps));
}

} // namespace

lang::Outcome<LibraryAnswer> ask(const LibraryQuestion& question, lang::Loader& loader) {
    LibraryAnswer answer;
    for (const std::string& library : question.libraries) {
        lang::Said said;
        Reader(library, question, loader, said).read(answer.formulas);
        if (said.diagnostics.has_errors())
            return said;
    }
    if (answer.formulas.empty() && !question.name.empty())
        return no_such_formula(question, loader);
    return answer;
}

} // namespace acre::engine
