// Where texts come from. lang never opens a file: whoever compiles brings a loader.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "lang/diag/codes.h"

namespace acre::lang {

enum class ReferenceKind { Model, Season };

struct Loaded {
    std::string name; // as shown to people and the same for the same file: the key under which it
                      // is read once
    std::string text;
};
struct LoadFailure {
    Code code; // F701 not found, F702 unreadable, F703 not text, F704 empty, F705 leaves its folder
    std::string detail; // one line for a note: where was looked, or what the system said
};

class Loader {
  public:
    virtual ~Loader() = default;
    // `reference` as written ("crawler", "library/haul"), `from` the name of the file that says it.
    // Returns true and fills `loaded`, or returns false and fills `failure`.
    virtual bool load(ReferenceKind kind, std::string_view reference, std::string_view from,
                      Loaded& loaded, LoadFailure& failure) = 0;
};

} // namespace acre::lang
