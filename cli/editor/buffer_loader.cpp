#include "cli/editor/buffer_loader.h"

#include "cli/shared/files/confined.h"
#include "cli/shared/files/read_text.h"

namespace acre::cli {

BufferLoader::BufferLoader(const Documents& documents, const std::string& models,
                           lang::KeptTrees* trees)
    : documents_(documents),
      files_(models) {
    if (trees != nullptr)
        files_.share(*trees);
    for (const auto& [path, open] : documents.all())
        files_.know(path);
}

lang::Outcome<lang::Loaded> BufferLoader::load(lang::ReferenceKind kind, std::string_view reference,
                                               std::string_view from) {
    lang::Outcome<lang::Loaded> found = files_.load(kind, reference, from);
    if (kind == lang::ReferenceKind::Boundary)
        return found;
    if (found) {
        if (const OpenText* open = documents_.find(found->name))
            found->text = open->text;
        return found;
    }
    // Open and not on the disk: never saved, or its file is gone.
    const std::string file =
        std::string(reference) + (kind == lang::ReferenceKind::Season ? ".season" : ".rate");
    if (!is_confined(reference))
        return found;
    for (const std::string& folder : {folder_of(from), joined(folder_of(from), "models"),
                                      joined(folder_above(folder_of(from)), "models")})
        if (const OpenText* open = documents_.find(joined(folder, file)))
            return lang::Loaded{joined(folder, file), open->text};
    return found;
}

std::vector<std::string> BufferLoader::references(lang::ReferenceKind kind, std::string_view from) {
    return files_.references(kind, from);
}

lang::Outcome<std::string> BufferLoader::text_of(const std::string& path) const {
    if (const OpenText* open = documents_.find(path))
        return open->text;
    return read_text(path, false);
}

} // namespace acre::cli
