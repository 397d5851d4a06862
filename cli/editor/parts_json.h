// The parts of messages: places, findings, suggestions, as the Language Server Protocol 3.17 has
// them. For the .cpp files of this folder that write JSON.
#pragma once

#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "cli/editor/completion.h"
#include "cli/editor/positions.h"
#include "cli/editor/rename.h"
#include "cli/editor/workspace.h"
#include "cli/shared/json/value.h"

namespace acre::cli {

Json place_part(TextPlace place);
TextPlace place_in(const Json& position); // throws what the library throws at another shape
Json range_part(const TextIndex& index, std::uint32_t begin, std::uint32_t end);

Json suggestion_part(const Suggestion& suggestion, std::size_t order);

// What was found, by the path of its file; a finding that points nowhere stands at the head of
// `file`.
struct FindingList {
    Json list = Json::array();
    std::set<std::string> seen; // each is told once, whoever found it
};
using Findings = std::map<std::string, FindingList>;
void add_findings(Findings& findings, const std::vector<lang::Said>& said, const std::string& file);

// Edits that mend what was found between two bytes of `file`: one code action each.
Json mends_part(const std::vector<lang::Said>& said, const std::string& file, std::uint32_t begin,
                std::uint32_t end);

// The statements of a text that an editor lists; a part holds those below it.
Json symbols_part(const std::string& file, const std::string& text);

// `changes` of a workspace edit.
Json changes_part(const Replacements& replacements, const Workspace& workspace);

} // namespace acre::cli
