#include "engine/book/record.h"

#include <cmath>
#include <set>

#include <fmt/format.h>

#include "engine/book/json.h"
#include "engine/book/members.h"
#include "engine/questions/dates.h"
#include "engine/words/words.h"
#include "lang/check/inner_lines.h"

namespace acre::engine {
namespace {

std::string_view layer_name(lang::Layer layer) {
    switch (layer) {
    case lang::Layer::Model:
        return "model";
    case lang::Layer::Binding:
        return "use";
    case lang::Layer::Season:
        return "season";
    case lang::Layer::Values:
        return "values";
    case lang::Layer::Job:
        return "job";
    case lang::Layer::Field:
        return "field";
    case lang::Layer::Entry:
        return "entry";
    case lang::Layer::Option:
        return "option";
    case lang::Layer::CommandLine:
        return "command line";
    }
    return {};
}

// The value of a line, or of a choice its option's name; false without an answer.
bool put_value(const PricedJob& job, lang::LineId id, Json& to) {
    const lang::Sheet& sheet = job.sheet();
    const Compiled& compiled = job.compiled();
    const Values& values = job.values();
    const Slot slot = compiled.plan.line_slot[id];
    if (slot == no_slot || !std::isfinite(values.slot[slot]))
        return false;
    const lang::Line& line = sheet.lines[id];
    to["name"] = line.name;
    if (line.type.kind == lang::Type::Kind::Choice) {
        const std::vector<std::string>& options = sheet.choices[line.type.choice].options;
        const auto index = static_cast<std::size_t>(values.slot[slot]);
        to["choice"] = index < options.size() ? options[index] : std::string();
    } else {
        to["value"] = values.slot[slot];
        to["unit"] = line.unit_text;
    }
    return true;
}

Json texts_of(const PricedJob& job) {
    Json texts = Json::object();
    texts[job.request().name] = job.request().text;
    if (const auto& season = job.request().season)
        texts[season->name] = season->text;
    for (const auto& [name, text] : job.used().texts)
        texts[name] = text;
    return texts;
}

Json references_of(const PricedJob& job) {
    Json references = Json::array();
    for (const auto& [key, name] : job.used().names) {
        const auto& [kind, reference, from] = key;
        references.push_back({{"kind", reference_word(kind)},
                              {"reference", reference},
                              {"from", from},
                              {"name", name}});
    }
    return references;
}

Json givens_of(const PricedJob& job) {
    const lang::Sheet& sheet = job.sheet();
    const lang::SourceMap& sources = job.sources();
    Json givens = Json::array();
    for (const lang::Given& given : sheet.givens) {
        Json entry;
        if (given.settings.empty() || !put_value(job, given.line, entry))
            continue;
        const lang::Setting& setting = given.settings.back();
        const lang::SourceFile& file = sources.file(setting.span.file);
        entry["label"] = sheet.lines[given.line].label;
        entry["set_by"] = layer_name(setting.layer);
        entry["place"] = fmt::format("{}:{}", file.name(), file.position(setting.span.begin).line);
        entry["because"] = setting.because;
        givens.push_back(std::move(entry));
    }
    return givens;
}

// A firm that the job names, and money that is not the dollar of old records.
void put_firm(const lang::Firm& firm, Json& record) {
    if (!firm.file.empty()) {
        Json words = Json::array();
        for (const auto& [name, text] : firm.words)
            words.push_back({{"name", name}, {"text", text}});
        record["firm"] = {{"name", firm.name}, {"words", words}};
    }
    if (const lang::Currency& money = firm.money; money != lang::Currency{})
        record["money"] = {{"code", money.code}, {"sign", money.sign}, {"step", money.step}};
}

Json names_of(const lang::Sheet& sheet, const std::vector<bool>& lines) {
    std::set<std::string> names;
    for (lang::LineId id = 0; id < sheet.lines.size(); ++id)
        if (lines[id])
            names.insert(sheet.lines[id].name);
    return Json(names);
}

// What a wording may name: what the model shows, and what every price says. What is shown is inner
// no more.
void put_shown(const lang::Sheet& sheet, Json& record) {
    std::vector<bool> inner = lang::inner_lines(sheet);
    std::vector<bool> shown = lang::price_lines(sheet);
    for (lang::LineId id = 0; id < sheet.lines.size(); ++id)
        if (sheet.lines[id].shown) {
            shown[id] = true;
            inner[id] = false;
        }
    record["inner"] = names_of(sheet, inner);
    record["shown"] = names_of(sheet, shown);
}

// Names of the costs over this very line.
Json costs_over(const lang::Sheet& sheet, lang::LineId line) {
    Json names = Json::array();
    for (const lang::Cost& cost : sheet.costs) {
        const lang::NodeId quantity = sheet.lines[cost.quantity].value;
        if (quantity != lang::none && sheet.nodes[quantity].op == lang::Op::Line &&
            sheet.nodes[quantity].index == line)
            names.push_back(sheet.lines[cost.rate].name);
    }
    return names;
}

// What a log of the job counts.
Json counted_of(const PricedJob& job) {
    const lang::Sheet& sheet = job.sheet();
    Json counted = Json::array();
    for (const lang::Counted& what : sheet.counted) {
        const double value = job.value(what.line);
        if (std::isfinite(value))
            counted.push_back({{"name", sheet.lines[what.line].name},
                               {"unit", unit_text(sheet, sheet.lines[what.line])},
                               {"machine", what.machine},
                               {"value", value},
                               {"costs", costs_over(sheet, what.line)}});
    }
    return counted;
}

} // namespace

Json record_lines(const PricedJob& job) {
    const lang::Sheet& sheet = job.sheet();
    Json lines = Json::array();
    for (lang::LineId id = 0; id < sheet.lines.size(); ++id)
        if (Json entry; put_value(job, id, entry))
            lines.push_back(std::move(entry));
    return lines;
}

void put_estimate(const Estimate& estimate, Json& record) {
    record["costs"] = Json::array();
    for (const CostRow& row : estimate.costs)
        record["costs"].push_back({{"name", row.name},
                                   {"label", row.label},
                                   {"part", row.part},
                                   {"rate", row.rate},
                                   {"rate_unit", row.rate_unit},
                                   {"quantity", row.quantity},
                                   {"quantity_unit", row.quantity_unit},
                                   {"amount", row.amount}});
    record["items"] = Json::array();
    for (const ItemRow& row : estimate.items)
        record["items"].push_back({{"title", row.title},
                                   {"name", row.name},
                                   {"per", row.per},
                                   {"quantity", row.quantity},
                                   {"rate", row.rate},
                                   {"cost", row.cost},
                                   {"cents", row.cents}});
    record["price"] = {{"cents", estimate.price_cents},
                       {"per", estimate.per},
                       {"quantity", estimate.per_quantity},
                       {"per_unit", estimate.price_per_unit},
                       {"cost", estimate.cost_total}};
    record["cautions"] = Json::array();
    for (const CautionRow& row : estimate.cautions)
        record["cautions"].push_back(row.text);
}

UsedTexts used_texts_of(const Json& record) {
    UsedTexts used;
    for (const Json& entry : list_at(record, "references")) {
        const auto kind = reference_kind(text_at(entry, "kind"));
        used.names[{kind, text_at(entry, "reference"), text_at(entry, "from")}] =
            text_at(entry, "name");
    }
    if (record.is_object() && record.contains("texts") && record["texts"].is_object())
        for (const auto& [name, text] : record["texts"].items())
            if (text.is_string())
                used.texts[name] = text.get<std::string>();
    return used;
}

Json record_of(const PricedJob& job, const Estimate& estimate, std::string_view program_version) {
    const lang::Request& request = job.request();
    Json record;
    record["schema"] = record_schema;
    record["program"] = program_version;
    Json sets = Json::array();
    for (const auto& [name, value] : request.sets)
        sets.push_back({name, value});
    record["request"] = {{"name", request.name},
                         {"kind", request.kind == lang::FileKind::Job ? "job" : "model"},
                         {"option", request.option},
                         {"sets", sets},
                         {"field_sets", request.field_sets.value_or("")},
                         {"notation", request.notation}};
    if (request.season)
        record["request"]["season"] = request.season->name;
    record["texts"] = texts_of(job);
    record["references"] = references_of(job);
    const lang::JobInfo& info = job.sheet().job;
    record["job"] = {{"title", info.title},
                     {"for", info.who},
                     {"option", info.option},
                     {"model", info.model_title},
                     {"season", info.season_title}};
    if (info.date)
        record["job"]["date"] =
            fmt::format("{:04}-{:02}-{:02}", info.date->year, info.date->month, info.date->day);
    if (const std::optional<DatesAnswer> dates = dates_of(job)) {
        record["job"]["start"] = dates->start;
        record["job"]["finish"] = dates->finish;
    }
    put_firm(job.sheet().firm, record);
    record["givens"] = givens_of(job);
    record["lines"] = record_lines(job);
    put_shown(job.sheet(), record);
    record["counted"] = counted_of(job);
    put_estimate(estimate, record);
    return record;
}

std::uint32_t notation_of(const Json& record) {
    const std::int64_t stated = whole_at(object_at(record, "request"), "notation");
    return stated >= 1 && stated <= lang::current_notation ? static_cast<std::uint32_t>(stated) : 1;
}

std::optional<lang::Request> request_of(const Json& record) {
    if (!record.is_object() || !record.contains("request") || !record["request"].is_object() ||
        !record.contains("texts"))
        return std::nullopt;
    const Json& saved = record["request"];
    lang::Request request;
    request.name = text_at(saved, "name");
    const Json& texts = record["texts"];
    if (!texts.is_object() || !texts.contains(request.name) || !texts[request.name].is_string())
        return std::nullopt;
    request.text = texts[request.name].get<std::string>();
    request.kind = text_at(saved, "kind") == "job" ? lang::FileKind::Job : lang::FileKind::Model;
    request.option = text_at(saved, "option");
    request.field_sets = text_at(saved, "field_sets");
    request.notation = notation_of(record);
    if (const std::string season = text_at(saved, "season"); !season.empty()) {
        if (!texts.contains(season) || !texts[season].is_string())
            return std::nullopt;
        request.season = lang::Loaded{season, texts[season].get<std::string>()};
    }
    for (const Json& set : list_at(saved, "sets")) {
        if (!set.is_array() || set.size() != 2 || !set[0].is_string() || !set[1].is_string())
            return std::nullopt;
        request.sets.emplace_back(set[0].get<std::string>(), set[1].get<std::string>());
    }
    return request;
}

} // namespace acre::engine
