// A text to its syntax tree, for tests of the syntax and of what stands on it.
#pragma once

#include <memory>
#include <string>
#include <string_view>
#include <utility>

#include "lang/diag/render.h"
#include "lang/syntax/dump.h"
#include "lang/syntax/parse.h"

namespace acre::tests {

struct Parsed {
    std::unique_ptr<lang::SourceMap> sources =
        std::make_unique<lang::SourceMap>(); // the tree looks into its texts
    lang::Diagnostics diagnostics;
    lang::ast::Module module;

    std::string dump() const { return lang::dump(module); }
    std::string rendered() const { return lang::render(diagnostics, *sources); }
    lang::Position position(const lang::Diagnostic& d) const {
        return sources->file(0).position(d.primary.span.begin);
    }
    std::string_view text_at(lang::Span span) const { return sources->text(span); }
};

inline Parsed parse_text(std::string text, lang::FileKind kind = lang::FileKind::Model) {
    Parsed p;
    const lang::FileId file = p.sources->add("text", std::move(text));
    p.module = lang::parse(*p.sources, file, kind, p.diagnostics);
    p.diagnostics.sort();
    return p;
}

// The dump of statements of a model, without the header; the errors if there are any.
inline std::string tree_of(std::string_view statements) {
    const Parsed p = parse_text("model \"m\"\n" + std::string(statements));
    if (p.diagnostics.has_errors())
        return p.rendered();
    const std::string dump = p.dump();
    return dump.substr(dump.find('\n') + 1);
}

} // namespace acre::tests
