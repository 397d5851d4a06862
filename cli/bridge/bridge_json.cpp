#include "cli/bridge/bridge_json.h"

#include "cli/shared/json/value.h"

namespace acre::cli {
namespace {

Json side(const engine::BridgeSide& from) {
    return {{"what", from.what},
            {"value", number(from.value)},
            {"cents", from.cents},
            {"label", from.label}};
}

Json row(const engine::BridgeRow& from) {
    static constexpr const char* kinds[] = {"given", "together", "model", "library", "rounding"};
    Json names = Json::array();
    std::string before;
    std::string after;
    for (const engine::BridgeChange& change : from.changes) {
        const char* apart = names.empty() ? "" : ", ";
        before += apart + change.before;
        after += apart + change.after;
        names.push_back(change.name);
    }
    return {{"kind", kinds[static_cast<std::size_t>(from.kind)]},
            {"names", std::move(names)},
            {"label", from.changes.empty() ? std::string() : from.changes.front().label},
            {"before", before},
            {"after", after},
            {"because", from.because},
            {"share", number(from.share)},
            {"cents", from.cents}};
}

} // namespace

Document bridge_json(const engine::BridgeAnswer& bridge) {
    Json json = {{"schema", "acrewright.bridge/1"},
                 {"money", money_json()},
                 {"unit", bridge.unit},
                 {"before", side(bridge.before)},
                 {"after", side(bridge.after)},
                 {"exact", bridge.exact},
                 {"rows", Json::array()}};
    for (const engine::BridgeRow& one : bridge.rows)
        json["rows"].push_back(row(one));
    json["at_the_old_price"] = nullptr;
    if (const auto& kept = bridge.kept)
        json["at_the_old_price"] = {{"price", number(kept->price)},
                                    {"overhead", number(kept->overhead)},
                                    {"direct_cost_before", number(kept->direct_cost_before)},
                                    {"direct_cost_after", number(kept->direct_cost_after)},
                                    {"profit_before", number(kept->profit_before())},
                                    {"profit_after", number(kept->profit_after())}};
    return answered(std::move(json));
}

} // namespace acre::cli
