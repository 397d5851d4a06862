// Syntax trees that compilations share: the records of a book seal the same models over and over.
#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>

#include "lang/diag/diagnostic.h"
#include "lang/source/source_map.h"
#include "lang/syntax/ast.h"

namespace acre::lang {

class KeptSheets;

// A tree is given for its very text, name, kind and version of the notation, at the same place
// among the files: so nothing of one text is ever read in another, and spans stay right. Of texts
// past kept_tree_bytes together all are let go, so that a stranger's book cannot fill memory.
// To be asked by any number of threads.
class KeptTrees {
  public:
    struct Place {
        FileId file = 0;
        FileKind kind = FileKind::Model;
        std::uint32_t notation = 0;

        friend bool operator==(const Place&, const Place&) = default;
    };
    struct Tree {
        std::shared_ptr<const SourceFile> source;
        std::shared_ptr<const ast::Module> module; // whose words are views into the source
    };

    KeptTrees();
    std::optional<Tree> find(const Place& place, std::string_view name,
                             std::string_view text) const;
    // Of a text of which nothing was said.
    void keep(const Place& place, Tree tree);
    std::size_t size() const;
    KeptSheets& sheets() { return *sheets_; } // made of these trees

  private:
    struct Entry {
        Place place;
        Tree tree;
    };
    mutable std::mutex mutex_;
    std::unordered_multimap<std::size_t, Entry> by_text_; // by the hash of the text
    std::size_t bytes_ = 0;
    std::shared_ptr<KeptSheets> sheets_;
};

inline constexpr std::size_t kept_tree_bytes = 1U << 20U; // of text: some 30 MB of trees

// Adds the text to the sources and gives its tree: one that is kept, or read now. What is said of a
// text is said anew in each compilation, so such a tree is not kept. kept: null keeps nothing. The
// words in force are those of `notation`.
std::shared_ptr<const ast::Module> tree_of(KeptTrees* kept, SourceMap& sources, std::string name,
                                           std::string text, FileKind kind, std::uint32_t notation,
                                           Diagnostics& diagnostics);

} // namespace acre::lang
