#include "cli/check/check_json.h"

#include "cli/shared/json/diagnostics_json.h"
#include "cli/shared/json/value.h"

namespace acre::cli {

Document check_json(const std::vector<CheckedFile>& files) {
    static const lang::SourceMap no_sources;
    Json json;
    json["schema"] = "acrewright.check/1";
    json["files"] = Json::array();
    for (const CheckedFile& file : files) {
        Json entry;
        std::size_t errors = 0, warnings = 0, left_out = 0;
        Json list = Json::array();
        for (const lang::Said& said : file.found.said) {
            errors += said.diagnostics.error_count();
            warnings += said.diagnostics.warning_count();
            left_out += said.diagnostics.left_out();
            for (const lang::Diagnostic& diagnostic : said.diagnostics.all())
                list.push_back(
                    diagnostic_json(diagnostic, said.sources ? *said.sources : no_sources));
        }
        entry["path"] = file.path;
        entry["options"] = file.found.options;
        entry["models"] = file.found.models;
        entry["errors"] = errors;
        entry["warnings"] = warnings;
        entry["left_out"] = left_out;
        entry["diagnostics"] = std::move(list);
        json["files"].push_back(std::move(entry));
    }
    return answered(std::move(json));
}

} // namespace acre::cli
