#include "lang/loader.h"

#include <fmt/format.h>

namespace acre::lang {
namespace {

const char* word_of(ReferenceKind kind) {
    switch (kind) {
    case ReferenceKind::Model:
        return "model";
    case ReferenceKind::Season:
        return "season";
    case ReferenceKind::Firm:
        return "firm";
    case ReferenceKind::Values:
        return "values";
    case ReferenceKind::Boundary:
        break;
    }
    return "boundary";
}

} // namespace

Diagnostic cannot_load(Code code, ReferenceKind kind, std::string_view reference,
                       std::string note) {
    const char* what = word_of(kind);
    std::string title = fmt::format("the {} \"{}\" cannot be read", what, reference);
    if (code == Code::F701)
        title = fmt::format("{} \"{}\" not found", what, reference);
    else if (code == Code::F703)
        title = fmt::format("the {} \"{}\" is not text", what, reference);
    else if (code == Code::F704)
        title = fmt::format("the {} \"{}\" is empty", what, reference);
    else if (code == Code::F705)
        title = fmt::format("\"{}\" points outside its folder", reference);
    Diagnostic failed = placeless(code, std::move(title));
    if (!note.empty())
        failed.notes.push_back(std::move(note));
    return failed;
}

} // namespace acre::lang
