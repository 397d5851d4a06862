// Who set a value, in words: "season", "command line".
#pragma once

#include <string>
#include <string_view>

#include "lang/check/sheet.h"
#include "lang/source/source_map.h"

namespace acre::cli {

constexpr std::string_view layer_text(lang::Layer layer) {
    switch (layer) {
    case lang::Layer::Model:
        return "model";
    case lang::Layer::Binding:
        return "binding";
    case lang::Layer::Season:
        return "season";
    case lang::Layer::Job:
        return "job";
    case lang::Layer::Field:
        return "field";
    case lang::Layer::Block:
        return "block";
    case lang::Layer::Option:
        return "option";
    case lang::Layer::CommandLine:
        return "command line";
    }
    return "";
}

// "examples/01.job:4"
inline std::string place_text(const lang::SourceMap& sources, lang::Span span) {
    if (span.file >= sources.size()) {
        return "";
    }
    const lang::SourceFile& file = sources.file(span.file);
    return file.name() + ":" + std::to_string(file.position(span.begin).line);
}

} // namespace acre::cli
