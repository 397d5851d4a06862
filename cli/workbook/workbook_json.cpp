#include "cli/workbook/workbook_json.h"

#include "cli/shared/json/value.h"

namespace acre::cli {

Document workbook_json(const engine::Workbook& book, const std::string& file) {
    Json out = {{"schema", "acrewright.workbook/1"}, {"file", file}};
    out["sheets"] = Json::array();
    for (const engine::BookSheet& sheet : book.sheets)
        out["sheets"].push_back(sheet.name);
    out["formulas"] = book.formulas();
    out["typed"] = book.typed();
    return answered(std::move(out));
}

Document changes_json(const std::vector<engine::ChangedGiven>& changes) {
    Json out = {{"schema", "acrewright.workbook/1"}};
    out["changes"] = Json::array();
    for (const engine::ChangedGiven& change : changes)
        out["changes"].push_back({{"name", change.name},
                                  {"option", change.option},
                                  {"value", change.value},
                                  {"before", change.before},
                                  {"set_by", change.set_by},
                                  {"because", change.because}});
    out["set_lines"] = engine::set_lines(changes);
    return answered(std::move(out));
}

} // namespace acre::cli
