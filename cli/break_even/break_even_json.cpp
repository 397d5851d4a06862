#include <array>

#include "cli/break_even/break_even_page.h"
#include "cli/shared/json/value.h"
#include "cli/shared/words.h"
#include "engine/words/words.h"

namespace acre::cli {

std::string break_even_json(const BreakEvenPage& page) {
    const lang::Sheet& sheet = page.job->sheet();
    const engine::BreakEven& answer = page.answer;
    constexpr std::array<const char*, 4> kinds = {"root", "jump", "touch", "level"};
    Json out = {{"schema", "acrewright.break-even/1"},
                {"title", title_of(sheet)},
                {"against", page.against}};
    out["given"] = {{"name", sheet.lines[answer.axis.line].name},
                    {"label", sheet.lines[answer.axis.line].label},
                    {"value", number(answer.axis.value)},
                    {"unit", engine::unit_text(sheet, sheet.lines[answer.axis.line])},
                    {"low", number(answer.range.low)},
                    {"high", number(answer.range.high)}};
    out["line"] = {{"name", sheet.lines[answer.line].name},
                   {"label", sheet.lines[answer.line].label},
                   {"unit", engine::unit_text(sheet, sheet.lines[answer.line])},
                   {"wanted", number(answer.wanted)},
                   {"now", number(answer.now)},
                   {"least", number(answer.least)},
                   {"least_at", number(answer.least_at)},
                   {"greatest", number(answer.greatest)},
                   {"greatest_at", number(answer.greatest_at)},
                   {"nearest", number(answer.nearest)},
                   {"nearest_at", number(answer.nearest_at)}};
    out["crossings"] = Json::array();
    for (const engine::Crossing& crossing : answer.crossings) {
        Json entry = {{"kind", kinds[static_cast<std::size_t>(crossing.kind)]},
                      {"at", number(crossing.x)}};
        switch (crossing.kind) {
        case engine::CrossingKind::Root:
            entry["rising"] = crossing.rising;
            break;
        case engine::CrossingKind::Jump:
            entry["after"] = number(crossing.x_after);
            entry["rising"] = crossing.rising;
            entry["from"] = number(crossing.before);
            entry["to"] = number(crossing.after);
            entry["line"] =
                crossing.line == lang::none ? Json(nullptr) : Json(sheet.lines[crossing.line].name);
            break;
        case engine::CrossingKind::Level:
            entry["after"] = number(crossing.x_after);
            break;
        case engine::CrossingKind::Touch:
            break;
        }
        out["crossings"].push_back(std::move(entry));
    }
    out["more"] = answer.cut;
    out["searched_to"] = answer.searched_to ? number(*answer.searched_to) : Json(nullptr);
    out["unanswered"] = Json::array();
    for (const engine::Range& range : answer.unanswered)
        out["unanswered"].push_back({{"low", number(range.low)}, {"high", number(range.high)}});
    out["points"] = answer.looked_at;
    return document(out);
}

} // namespace acre::cli
