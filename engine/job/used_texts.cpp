#include "engine/job/used_texts.h"

namespace acre::engine {

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
