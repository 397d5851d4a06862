#include "engine/job/used_texts.h"

namespace acre::engine {

std::string_view reference_word(lang::ReferenceKind kind) {
    switch (kind) {
    case lang::ReferenceKind::Season:
        return "season";
    case lang::ReferenceKind::Values:
        return "values";
    case lang::ReferenceKind::Firm:
        return "firm";
    case lang::ReferenceKind::Boundary:
        return "boundary";
    default:
        return "model";
    }
}

lang::ReferenceKind reference_kind(std::string_view word) {
    return word == "season"     ? lang::ReferenceKind::Season
           : word == "values"   ? lang::ReferenceKind::Values
           : word == "firm"     ? lang::ReferenceKind::Firm
           : word == "boundary" ? lang::ReferenceKind::Boundary
                                : lang::ReferenceKind::Model;
}

lang::Outcome<lang::Loaded>
UsedTextsLoader::load(lang::ReferenceKind kind, std::string_view reference, std::string_view from) {
    const auto name = used_.names.find({kind, std::string(reference), std::string(from)});
    const auto text =
        name == used_.names.end() ? used_.texts.end() : used_.texts.find(name->second);
    if (text == used_.texts.end())
        return lang::cannot_load(lang::Code::F701, kind, reference,
                                 "this text was not kept with the job");
    return lang::Loaded{text->first, text->second};
}

} // namespace acre::engine
