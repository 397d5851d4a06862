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
        const lang::Diagnostics& diagnostics = file.said.diagnostics;
        const lang::SourceMap& sources = file.said.sources ? *file.said.sources : no_sources;
        Json entry;
        entry["path"] = file.path;
        entry["errors"] = diagnostics.error_count();
        entry["warnings"] = diagnostics.warning_count();
        entry["left_out"] = diagnostics.left_out();
        entry["diagnostics"] = Json::array();
        for (const lang::Diagnostic& diagnostic : diagnostics.all())
            entry["diagnostics"].push_back(diagnostic_json(diagnostic, sources));
        json["files"].push_back(std::move(entry));
    }
    return answered(std::move(json));
}

} // namespace acre::cli
