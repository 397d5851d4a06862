#include "cli/break_even/market_page.h"
#include "cli/shared/json/value.h"

namespace acre::cli {

Document market_json(const engine::MarketAnswer& answer) {
    static constexpr const char* aims[] = {"direct_cost", "overhead", "full_margin"};
    Json out = {{"schema", "acrewright.market/1"},
                {"title", answer.title},
                {"rate", number(answer.rate)},
                {"per", answer.per},
                {"given",
                 {{"name", answer.given.name},
                  {"label", answer.given.label},
                  {"value", number(answer.value)},
                  {"unit", answer.given.unit},
                  {"low", number(answer.range.low)},
                  {"high", number(answer.range.high)}}},
                {"thresholds", Json::array()}};
    for (const engine::MarketThreshold& threshold : answer.thresholds) {
        Json one = {{"aim", aims[static_cast<std::size_t>(threshold.aim)]},
                    {"covered", Json::array()},
                    {"more", threshold.found.cut}};
        for (const engine::Range& range : threshold.covered)
            one["covered"].push_back({{"from", number(range.low)}, {"to", number(range.high)}});
        out["thresholds"].push_back(std::move(one));
    }
    return answered(std::move(out));
}

} // namespace acre::cli
