// Files that exist only in a test: name ("crawler.rate") to text. "library/…" comes from the
// program's own library.
#pragma once

#include <map>
#include <string>
#include <string_view>

#include "lang/loader.h"
#include "models/library_texts.h"

namespace acre::tests {

using Files = std::map<std::string, std::string>;

class MemoryLoader : public lang::Loader {
  public:
    explicit MemoryLoader(Files files) : files_(std::move(files)) {}

    lang::Outcome<lang::Loaded> load(lang::ReferenceKind kind, std::string_view reference,
                                     std::string_view /*from*/) override {
        const std::string name =
            std::string(reference) + (kind == lang::ReferenceKind::Model    ? ".rate"
                                      : kind == lang::ReferenceKind::Season ? ".season"
                                      : kind == lang::ReferenceKind::Firm   ? ".firm"
                                      : kind == lang::ReferenceKind::Values ? ".values"
                                                                            : "");
        if (const auto found = files_.find(name); found != files_.end())
            return lang::Loaded{name, found->second};
        for (const models::LibraryText& library : models::library_texts())
            if (library.reference == reference)
                return lang::Loaded{name, std::string(library.text)};
        return lang::cannot_load(lang::Code::F701, kind, reference, "there is no file " + name);
    }

    std::vector<std::string> references(lang::ReferenceKind kind,
                                        std::string_view /*from*/) override {
        constexpr std::string_view ending = ".rate";
        std::vector<std::string> names;
        for (const auto& [name, text] : files_) // its seasons lie beside no job
            if (kind == lang::ReferenceKind::Model && name.ends_with(ending))
                names.push_back(name.substr(0, name.size() - ending.size()));
        return names;
    }

  private:
    Files files_;
};

} // namespace acre::tests
