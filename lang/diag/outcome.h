// What a stage or a question gives back: a value, or why there is none, and what was said on the
// way. The one way in which a failure travels from where it is found to who shows it.
#pragma once

#include <memory>
#include <optional>
#include <utility>

#include "lang/diag/diagnostic.h"
#include "lang/source/source_map.h"

namespace acre::lang {

// Diagnostics with the texts that they point into. No texts: none of them points anywhere.
struct Said {
    Diagnostics diagnostics;
    std::shared_ptr<const SourceMap> sources;
};

template <class T> struct [[nodiscard]] Outcome {
    std::optional<T> value;
    Said said; // errors where there is no value; warnings may come with one

    Outcome() = default;
    Outcome(T made, Said on_the_way = {}) : value(std::move(made)), said(std::move(on_the_way)) {}
    Outcome(Diagnostic failure) { said.diagnostics.add(std::move(failure)); }
    Outcome(Said failure) : said(std::move(failure)) {}

    explicit operator bool() const { return value.has_value(); }
    T& operator*() { return *value; }
    const T& operator*() const { return *value; }
    T* operator->() { return &*value; }
    const T* operator->() const { return &*value; }
};

// A diagnostic that points into no text: `title` says all, `helps` what to do.
inline Diagnostic placeless(Code code, std::string title, std::vector<std::string> notes = {},
                            std::vector<std::string> helps = {}) {
    Diagnostic diagnostic{code, std::move(title), {}, {}, std::move(notes), {}};
    diagnostic.primary.span.file = no_file;
    for (std::string& help : helps)
        diagnostic.helps.push_back({std::move(help), {}});
    return diagnostic;
}

} // namespace acre::lang
