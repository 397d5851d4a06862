// Everything that a page of jobs is made from, as one JSON document: the program writes it into the
// page, the module reads it there. Schema acrewright.page/1.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/job/used_texts.h"
#include "engine/questions/moved.h"

namespace acre::cli {

// The boundaries of a job as they were laid out for it, or for one of its options.
struct PageLayout {
    std::string option;     // empty: the job as quoted
    std::string sets;       // `set` statements, perhaps none
    engine::LaidBy laid_by; // another layout is needed where these are other values
};

struct PageJob {
    std::string name;                // of its text
    std::vector<PageLayout> layouts; // the job's own first; none: it names no boundary
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
