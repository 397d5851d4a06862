#include <cmath>
#include <utility>

#include "cli/module/texts.h"
#include "cli/shared/json/value.h"

namespace acre::cli {
namespace {

constexpr const char* schema = "acrewright.page/1";

Json layout_json(const PageLayout& layout) {
    Json by = Json::array();
    for (const auto& [name, value] : layout.laid_by)
        by.push_back({{"name", name}, {"value", number(value)}});
    return {{"option", layout.option}, {"sets", layout.sets}, {"laid_by", std::move(by)}};
}

PageLayout read_layout(const Json& json) {
    PageLayout layout{json.at("option").get<std::string>(), json.at("sets").get<std::string>(), {}};
    for (const Json& one : json.at("laid_by"))
        layout.laid_by.emplace_back(one.at("name").get<std::string>(),
                                    one.at("value").is_number() ? one.at("value").get<double>()
                                                                : std::nan(""));
    return layout;
}

} // namespace

std::string page_texts_json(const PageTexts& texts) {
    Json json = {{"schema", schema}, {"jobs", Json::array()}, {"seasons", texts.seasons}};
    for (const PageJob& job : texts.jobs) {
        Json layouts = Json::array();
        for (const PageLayout& layout : job.layouts)
            layouts.push_back(layout_json(layout));
        json["jobs"].push_back({{"name", job.name}, {"layouts", std::move(layouts)}});
    }
    json["texts"] = Json::object();
    for (const auto& [name, text] : texts.used.texts)
        json["texts"][name] = text;
    json["references"] = Json::array();
    for (const auto& [key, name] : texts.used.names) {
        const auto& [kind, reference, from] = key;
        json["references"].push_back({{"kind", engine::reference_word(kind)},
                                      {"reference", reference},
                                      {"from", from},
                                      {"name", name}});
    }
    return json.dump(-1, ' ', true, Json::error_handler_t::replace);
}

std::optional<PageTexts> read_page_texts(std::string_view document) {
    const Json json = Json::parse(document, nullptr, false);
    if (!json.is_object() || json.value("schema", "") != schema)
        return std::nullopt;
    PageTexts texts;
    texts.seasons = json.at("seasons").get<std::vector<std::string>>();
    for (const Json& job : json.at("jobs")) {
        PageJob& one = texts.jobs.emplace_back();
        one.name = job.at("name").get<std::string>();
        for (const Json& layout : job.at("layouts"))
            one.layouts.push_back(read_layout(layout));
    }
    for (const auto& [name, text] : json.at("texts").items())
        texts.used.texts[name] = text.get<std::string>();
    for (const Json& one : json.at("references")) {
        const auto kind = engine::reference_kind(one.at("kind").get<std::string>());
        texts.used.names[{kind, one.at("reference").get<std::string>(),
                          one.at("from").get<std::string>()}] = one.at("name").get<std::string>();
    }
    return texts;
}

} // namespace acre::cli
