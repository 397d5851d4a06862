// A small ripping model and what report_faults says of it.
#pragma once

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include <doctest/doctest.h>

#include "engine/faults/faults.h"
#include "lang/diag/render.h"
#include "tests/support/priced.h"

namespace acre::tests {

inline const std::string ripping =
    "model \"m\"\n"                                                                             // 1
    "given area = 80 ac \"net acres\" within 0 ac .. 10,000 ac\n"                               // 2
    "given width = 6 ft\n"                                                                      // 3
    "given speed = 1.5 mi/h within 0 mi/h .. 6 mi/h swing 1 mi/h .. 2 mi/h because \"strip\"\n" // 4
    "given share = 15 %\n"                                                                      // 5
    "pace : ac/h = width * speed\n"                                                             // 6
    "hours : h = area / pace\n"                                                                 // 7
    "part \"Work\"\n"                                                                           // 8
    "  cost crawler : $/h = $300/h over hours\n"                                                // 9
    "price \"Ripping\" per ac of area\n" // 10
    "  margin share\n";                  // 11

struct Found {
    Priced p;
    lang::Diagnostics said; // with those of the text

    std::string rendered() const { return lang::render(said, p.sources()); }
    std::vector<lang::Diagnostic> all() const { // but for lints of the text
        std::vector<lang::Diagnostic> list = said.all();
        std::erase_if(list, [](const auto& d) {
            return d.code == lang::Code::L801 || d.code == lang::Code::L803;
        });
        return list;
    }
    lang::Diagnostic only() const {
        const auto list = all();
        REQUIRE_MESSAGE(list.size() == 1, rendered());
        return list.front();
    }
    lang::Diagnostic with(lang::Code code) const {
        const auto found = std::find_if(said.all().begin(), said.all().end(),
                                        [&](const auto& d) { return d.code == code; });
        REQUIRE_MESSAGE(found != said.all().end(), rendered());
        return *found;
    }
    std::string at(lang::Span span) const { return std::string(p.sources().text(span)); }
};

inline Found faults(const std::string& text,
                    std::vector<std::pair<std::string, std::string>> sets = {},
                    const char* root = nullptr) {
    Choices choices;
    choices.sets = std::move(sets);
    Found found{priced_ok(text, choices), {}};
    found.said = found.p.job().diagnostics();
    std::vector<lang::LineId> roots;
    if (root != nullptr)
        roots.push_back(found.p.line(root));
    engine::report_faults(found.p, roots, found.said);
    return found;
}

inline bool has_note(const lang::Diagnostic& d, const std::string& part) {
    return std::any_of(
        d.notes.begin(), d.notes.end(),
        [&](const std::string& note) { return note.find(part) != std::string::npos; });
}

} // namespace acre::tests
