// Everything that a page of jobs is made from, as one JSON document: the program writes it into the
// page, the module reads it there. Schema acrewright.page/1.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/job/used_texts.h"

namespace acre::cli {

struct PageJob {
    std::string name; // of its text
    // `set` statements of the layouts of its boundaries, perhaps none; left out: it names none.
    std::optional<std::string> field_sets;
};

struct PageTexts {
    std::vector<PageJob> jobs;
    std::vector<std::string> seasons; // names of texts that may take the place of a job's own
    engine::UsedTexts used;           // all texts, and which of them each reference means
};

std::string page_texts_json(const PageTexts& texts);
// Empty: it is no such document.
std::optional<PageTexts> read_page_texts(std::string_view json);

} // namespace acre::cli
