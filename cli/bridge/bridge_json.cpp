#include "cli/bridge/bridge_json.h"

#include "cli/shared/json/value.h"

namespace acre::cli {

std::string bridge_json(const engine::Bridge& bridge, const std::string& before,
                        const std::string& after) {
    static constexpr const char* kinds[] = {"given", "together", "model", "library", "rounding"};
    Json document = {
        {"schema", "acrewright.bridge/1"},
        {"unit", bridge.unit},
        {"before",
         {{"what", before}, {"value", number(bridge.before)}, {"cents", bridge.before_cents}}},
        {"after",
         {{"what", after}, {"value", number(bridge.after)}, {"cents", bridge.after_cents}}},
        {"exact", bridge.exact},
        {"rows", Json::array()}};
    for (const engine::BridgeRow& row : bridge.rows)
        document["rows"].push_back({{"kind", kinds[static_cast<std::size_t>(row.kind)]},
                                    {"names", row.names},
                                    {"label", row.label},
                                    {"before", row.before},
                                    {"after", row.after},
                                    {"because", row.because},
                                    {"share", number(row.share)},
                                    {"cents", row.cents}});
    return cli::document(document);
}

} // namespace acre::cli
