// The loader of the program, with the texts that an editor has open in the place of their files.
#pragma once

#include "cli/editor/documents.h"
#include "cli/shared/files/file_loader.h"

namespace acre::cli {

class BufferLoader : public lang::Loader {
  public:
    // `documents` must outlive it, and so must the trees. trees: null keeps none.
    BufferLoader(const Documents& documents, const std::string& models,
                 lang::KeptTrees* trees = nullptr);

    lang::Outcome<lang::Loaded> load(lang::ReferenceKind kind, std::string_view reference,
                                     std::string_view from) override;
    std::vector<std::string> references(lang::ReferenceKind kind, std::string_view from) override;

    lang::KeptTrees* kept_trees() override { return files_.kept_trees(); }

    // A file by its path, open or on the disk.
    lang::Outcome<std::string> text_of(const std::string& path) const;

  private:
    const Documents& documents_;
    FileLoader files_;
};

} // namespace acre::cli
