// What another loader answered, kept: the jobs of a run that stand in one folder use the same
// models, and each file and folder is read once for all of them.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <tuple>
#include <vector>

#include "cli/shared/files/confined.h"
#include "lang/loader.h"

namespace acre::cli {

struct KeptTexts {
    using Key = std::tuple<lang::ReferenceKind, std::string, std::string>; // and the folder
    std::map<Key, lang::Outcome<lang::Loaded>> loaded;
    std::map<Key, std::vector<std::string>> references;
};

class KeptLoader : public lang::Loader {
  public:
    // Both must outlive it; `inner` looks from a file as from any other of the same folder.
    KeptLoader(lang::Loader& inner, KeptTexts& kept) : inner_(inner), kept_(kept) {}

    lang::Outcome<lang::Loaded> load(lang::ReferenceKind kind, std::string_view reference,
                                     std::string_view from) override {
        const KeptTexts::Key key{kind, std::string(reference), folder_of(std::string(from))};
        const auto known = kept_.loaded.find(key);
        if (known != kept_.loaded.end())
            return known->second;
        lang::Outcome<lang::Loaded> found = inner_.load(kind, reference, from);
        if (found) // a failure names the file that asks
            kept_.loaded.emplace(key, found);
        return found;
    }

    std::vector<std::string> references(lang::ReferenceKind kind, std::string_view from) override {
        const auto [known, is_new] =
            kept_.references.try_emplace({kind, {}, folder_of(std::string(from))});
        if (is_new)
            known->second = inner_.references(kind, from);
        return known->second;
    }
    lang::KeptTrees* kept_trees() override { return inner_.kept_trees(); }

  private:
    lang::Loader& inner_;
    KeptTexts& kept_;
};

} // namespace acre::cli
