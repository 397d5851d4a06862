#include "cli/shared/json/reply_json.h"

#include "cli/shared/json/diagnostics_json.h"
#include "cli/shared/json/value.h"

namespace acre::cli {
namespace {

// Those of one severity, of all that was said.
Json list_of(const Reply& reply, lang::Severity severity) {
    static const lang::SourceMap no_sources;
    Json list = Json::array();
    for (const lang::Said& said : reply.said)
        for (const lang::Diagnostic& diagnostic : said.diagnostics.all())
            if (diagnostic.severity() == severity)
                list.push_back(
                    diagnostic_json(diagnostic, said.sources ? *said.sources : no_sources));
    return list;
}

// The first error tells what failed; `errors` are all of them.
Json failure_of(Json errors) {
    const Json& first = errors.front();
    Json json;
    json["schema"] = "acrewright.failure/1";
    json["code"] = first["code"];
    json["title"] = first["title"];
    json["places"] = Json::array();
    for (const Json& label : first["labels"])
        if (!label["path"].is_null())
            json["places"].push_back(label);
    json["helps"] = first["helps"];
    json["errors"] = std::move(errors);
    return json;
}

} // namespace

std::string reply_json(const Reply& reply) {
    Json errors = list_of(reply, lang::Severity::Error);
    Json json = reply.document != nullptr ? *reply.document : failure_of(std::move(errors));
    if (reply.document != nullptr && !errors.empty())
        json["errors"] = std::move(errors);
    json["warnings"] = list_of(reply, lang::Severity::Warning);
    return document(json);
}

} // namespace acre::cli
