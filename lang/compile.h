// The driver: texts in, a checked sheet out. Reads like the pipeline.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "lang/check/resolve.h"
#include "lang/check/sheet.h"
#include "lang/diag/diagnostic.h"
#include "lang/loader.h"
#include "lang/source/source_map.h"

namespace acre::lang {

struct Request {
    std::string name; // of the file, as shown
    std::string text; // a job, or a model to be looked at by itself
    FileKind kind = FileKind::Job;
    std::string option;                                    // empty: as it stands
    std::vector<std::pair<std::string, std::string>> sets; // NAME, VALUE of --set
    // `set` statements of the layouts of its boundaries, perhaps none; left out: not laid out yet.
    std::optional<std::string> field_sets;
    // False: of the functions of used models only those that are called are read in full. Enough
    // for a price, and sooner.
    bool every_function = true;
    std::optional<Loaded> season{}; // in the place of the season that a job names, or of none
    Withheld withheld{};
    std::string tried{}; // a formula that is tried out: the line tried_line; empty: none
    // The version of the notation whose rules hold: what was sealed without one is version 1.
    std::uint32_t notation = current_notation;
    std::vector<std::string> as_modeled{}; // lines that keep the model's own, whatever is set
};

inline constexpr std::uint32_t max_use_depth = 16;
inline constexpr std::uint32_t max_files = 200;
inline constexpr std::uint32_t max_program_bytes = 8U << 20U; // of all texts of a job together
inline constexpr std::uint32_t max_uses = 1'000;              // of `use` in one model

// Empty when something is wrong; the diagnostics say what. `sources` keeps all texts and must
// outlive the sheet.
std::optional<CheckedSheet> compile(const Request& request, Loader& loader, SourceMap& sources,
                                    Diagnostics& diagnostics);

} // namespace acre::lang
