#include <array>

#include "cli/break_even/break_even_page.h"
#include "cli/shared/json/value.h"

namespace acre::cli {

Document break_even_json(const engine::BreakEvenAnswer& answer) {
    constexpr std::array<const char*, 4> kinds = {"root", "jump", "touch", "level"};
    Json out = {{"schema", "acrewright.break-even/2"},
                {"money", money_json()},
                {"title", answer.title},
                {"against", answer.against}};
    out["given"] = {{"name", answer.given.name},       {"label", answer.given.label},
                    {"value", number(answer.value)},   {"unit", answer.given.unit},
                    {"low", number(answer.range.low)}, {"high", number(answer.range.high)}};
    out["line"] = {{"name", answer.line.name},
                   {"label", answer.line.label},
                   {"unit", answer.line.unit},
                   {"wanted", number(answer.wanted)},
                   {"now", number(answer.now)},
                   {"least", number(answer.least)},
                   {"least_at", number(answer.least_at)},
                   {"greatest", number(answer.greatest)},
                   {"greatest_at", number(answer.greatest_at)},
                   {"nearest", number(answer.nearest)},
                   {"nearest_at", number(answer.nearest_at)}};
    out["charged"] = answer.charged ? number(*answer.charged) : Json(nullptr);
    out["price"] = answer.price ? number(*answer.price) : Json(nullptr);
    out["overhead"] = answer.price ? number(answer.overhead) : Json(nullptr);
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
            entry["line"] = crossing.line.empty() ? Json(nullptr) : Json(crossing.line);
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
    return answered(std::move(out));
}

} // namespace acre::cli
