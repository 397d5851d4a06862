// Finds the models, seasons and boundaries that a text refers to. A boundary lies below the folder
// of the job that names it. For models and seasons, searched in this order: the folder of the file
// that refers; the nearest folder above it that holds a `models` folder (for a season `seasons`, or
// `models`); the folder given by --models; the library compiled into the program, for
// "library/..."; the models that were installed with it. A file is known by where it really lies,
// so two ways to it are one text.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "cli/shared/files/confined.h"
#include "lang/loader.h"
#include "lang/source/source_map.h"

namespace acre::cli {

class FileLoader : public lang::Loader {
  public:
    // Either may be empty: then it is not searched.
    explicit FileLoader(std::string models_folder = {},
                        std::string installed_folder = installed_models());

    lang::Outcome<lang::Loaded> load(lang::ReferenceKind kind, std::string_view reference,
                                     std::string_view from) override;

    // By the names of files: models of all folders that are searched, and the library; seasons
    // beside `from` or in a folder `seasons`. In order of names, 1,000 at most.
    std::vector<std::string> references(lang::ReferenceKind kind, std::string_view from) override;

    // Jobs that are read with these trees share them. They must outlive the loader.
    void share(lang::KeptTrees& trees) { trees_ = &trees; }
    lang::KeptTrees* kept_trees() override { return trees_; }

    // A file that was read by itself: whatever refers to it gets the name it was read under.
    void know(const std::string& path);

    // <prefix>/share/acrewright/models beside the program that runs; empty if there is none.
    static std::string installed_models();

  private:
    // What came of one path: models are referred to many times and read once.
    using Tried = lang::Outcome<lang::Loaded>;
    const Tried& try_folder(const std::string& folder, std::string_view file,
                            lang::ReferenceKind kind);
    struct Found {
        std::string real, text;
    };
    lang::Outcome<Found> read_below(const std::string& folder, std::string_view reference,
                                    lang::ReferenceKind kind, std::size_t limit);
    Tried look_in(const std::string& folder, std::string_view file, lang::ReferenceKind kind);
    std::vector<std::string> passed_over(const std::vector<std::string>& folders, std::size_t first,
                                         const lang::Loaded& loaded, std::string_view file,
                                         lang::ReferenceKind kind);
    const std::vector<std::string>& folders(lang::ReferenceKind kind, std::string_view from);
    lang::Outcome<lang::Loaded> boundary(std::string_view reference, std::string_view from);

    lang::KeptTrees* trees_ = nullptr;
    std::string models_folder_;
    std::string installed_folder_;
    std::map<std::string, Folder> opened_;       // by path
    std::map<std::string, std::string> name_of_; // real path → name as first shown
    std::map<std::string, Tried> tried_;         // by path
    std::map<std::pair<lang::ReferenceKind, std::string>, std::vector<std::string>>
        folders_; // by folder of the file that refers
};

// How a text of the compiled-in library is named: "(built in) library/haul.rate". No file's name
// begins like this.
inline constexpr std::string_view built_in_mark = "(built in) ";
std::string built_in_name(std::string_view reference);

// By the ending of its name; false for any other.
bool file_kind(std::string_view path, lang::FileKind& kind);

} // namespace acre::cli
