// Texts to checked sheets, for tests of every stage.
//
//   const Compilation c = compile_text("model \"m\"\nspeed : mi/h = 3 mi/h\n");       // never
//   fails a test by itself const Compilation c = compile_ok(text, {{"crawler.rate", "…"}}); //
//   fails the test, showing the errors const Diagnostic d = expect_diag(text, Code::N201); // fails
//   the test if it is not reported value_of(text, "speed") // see value_of.h
//
// A text that begins with `job` is a job; "season" is never compiled by itself; everything else is
// a model.
#pragma once

#include <doctest/doctest.h>

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "lang/compile.h"
#include "lang/diag/render.h"
#include "tests/support/memory_loader.h"

namespace acre::tests {

struct Compilation {
    std::unique_ptr<lang::SourceMap> sources =
        std::make_unique<lang::SourceMap>(); // outlives the sheet
    lang::Diagnostics diagnostics;
    std::optional<lang::CheckedSheet> sheet;

    std::string rendered() const { return lang::render(diagnostics, *sources); }
    const lang::Diagnostic* find(lang::Code code) const {
        for (const lang::Diagnostic& d : diagnostics.all())
            if (d.code == code)
                return &d;
        return nullptr;
    }
};

struct Choices { // how a text is compiled
    Files files = {};
    std::string option = {};
    std::vector<std::pair<std::string, std::string>> sets = {};
    std::optional<std::string> field_sets = ""; // of the boundaries it names; nothing: looked for
    std::uint32_t notation = lang::current_notation; // the version whose rules hold
};

inline bool begins_as_job(const std::string& text) {
    std::size_t at = 0;
    while (at < text.size() && (text[at] == ' ' || text[at] == '\n' || text[at] == '#'))
        at = text[at] == '#' ? text.find('\n', at) : at + 1;
    return text.compare(at, 3, "job") == 0;
}

inline lang::Request request_of(const std::string& text, const Choices& choices) {
    lang::Request request;
    const bool job = begins_as_job(text);
    request.name = job ? "test.job" : "test.rate";
    request.text = text;
    request.kind = job ? lang::FileKind::Job : lang::FileKind::Model;
    request.option = choices.option;
    request.notation = choices.notation;
    request.sets = choices.sets;
    request.field_sets = choices.field_sets;
    request.notation = choices.notation;
    return request;
}

inline Compilation compile_text(const std::string& text, const Choices& choices = {}) {
    Compilation out;
    MemoryLoader loader(choices.files);
    out.sheet = lang::compile(request_of(text, choices), loader, *out.sources, out.diagnostics);
    return out;
}

inline Compilation compile_ok(const std::string& text, const Choices& choices = {}) {
    Compilation out = compile_text(text, choices);
    REQUIRE_MESSAGE(out.sheet.has_value(), out.rendered());
    return out;
}

// The first diagnostic of this code.
inline lang::Diagnostic expect_diag(const std::string& text, lang::Code code,
                                    const Choices& choices = {}) {
    const Compilation out = compile_text(text, choices);
    const lang::Diagnostic* found = out.find(code);
    REQUIRE_MESSAGE(found != nullptr, "expected " << lang::name_of(code) << ", got:\n"
                                                  << out.rendered());
    return *found;
}

} // namespace acre::tests
