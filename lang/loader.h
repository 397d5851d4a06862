// Where texts come from. lang never opens a file: whoever compiles brings a loader.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "lang/diag/outcome.h"

namespace acre::lang {

class KeptTrees;

enum class ReferenceKind { Model, Season, Values, Firm, Boundary };

struct Loaded {
    std::string name; // as shown to people and the same for the same file: the key under which it
                      // is read once
    std::string text;
    std::vector<std::string> hidden{}; // other files of this name with another text, passed over
};
class Loader {
  public:
    virtual ~Loader() = default;
    // `reference` as written ("crawler", "library/haul"), `from` the name of the file that says it.
    // Without a text: one diagnostic of cannot_load(), which points nowhere.
    virtual Outcome<Loaded> load(ReferenceKind kind, std::string_view reference,
                                 std::string_view from) = 0;

    // What `from` could name, as it would be written, each once: to look at every model that a
    // season may be for, and to see a season that a job leaves unnamed. None where there is no
    // folder to look into.
    virtual std::vector<std::string> references(ReferenceKind, std::string_view /*from*/) {
        return {};
    }

    // Where trees are kept that other compilations may share; null: nowhere.
    virtual KeptTrees* kept_trees() { return nullptr; }
};

// Why a text cannot be had: F701 not found, F702 unreadable, F703 not text, F704 empty, F705 leaves
// its folder, S118 too large. `note`: where was looked, or what the system said; may be empty.
Diagnostic cannot_load(Code code, ReferenceKind kind, std::string_view reference, std::string note);

} // namespace acre::lang
