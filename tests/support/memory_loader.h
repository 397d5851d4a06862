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

    bool load(lang::ReferenceKind kind, std::string_view reference, std::string_view /*from*/,
              lang::Loaded& loaded, lang::LoadFailure& failure) override {
        const std::string name =
            std::string(reference) + (kind == lang::ReferenceKind::Model ? ".rate" : ".season");
        if (const auto found = files_.find(name); found != files_.end()) {
            loaded = {name, found->second};
            return true;
        }
        for (const models::LibraryText& library : models::library_texts()) {
            if (library.reference == reference) {
                loaded = {name, std::string(library.text)};
                return true;
            }
        }
        failure = {lang::Code::F701, "there is no file " + name};
        return false;
    }

  private:
    Files files_;
};

} // namespace acre::tests
