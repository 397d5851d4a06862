// The texts that a job was made from, and a loader that answers from them and from nothing else:
// the same job can be made again, whatever happened to the files.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <tuple>

#include "lang/loader.h"

namespace acre::engine {

// The word for a kind of reference in a record or a page: "model", "season", "values", "firm",
// "boundary"; any other word is a model.
std::string_view reference_word(lang::ReferenceKind kind);
lang::ReferenceKind reference_kind(std::string_view word);

struct UsedTexts {
    using Key = std::tuple<lang::ReferenceKind, std::string, std::string>; // kind, reference, from
    std::map<Key, std::string> names;         // to the name of the text
    std::map<std::string, std::string> texts; // by name
};

class UsedTextsLoader : public lang::Loader {
  public:
    // `used` must outlive the loader, and so must the trees.
    explicit UsedTextsLoader(const UsedTexts& used, lang::KeptTrees* trees = nullptr)
        : used_(used),
          trees_(trees) {}
    lang::Outcome<lang::Loaded> load(lang::ReferenceKind kind, std::string_view reference,
                                     std::string_view from) override;
    lang::KeptTrees* kept_trees() override { return trees_; }

  private:
    const UsedTexts& used_;
    lang::KeptTrees* trees_;
};

} // namespace acre::engine
