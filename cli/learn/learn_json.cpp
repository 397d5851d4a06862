#include "cli/learn/learn_page.h"
#include "cli/shared/json/value.h"

namespace acre::cli {
namespace {

const char* tells_word(engine::Tells tells) {
    switch (tells) {
    case engine::Tells::Pace:
        return "pace";
    case engine::Tells::Burn:
        return "burn";
    case engine::Tells::FuelPrice:
        return "fuel_price";
    case engine::Tells::Hours:
        return "hours";
    case engine::Tells::Money:
        return "money";
    case engine::Tells::Days:
        return "days";
    case engine::Tells::Breaks:
        break;
    }
    return "breaks";
}

Json figure_json(const engine::LearnedFigure& row) {
    return {{"name", row.name},
            {"label", row.label},
            {"unit", row.unit},
            {"season", number(row.value)},
            {"swing", {{"low", number(row.swing.low)}, {"high", number(row.swing.high)}}},
            {"learned", number(row.learned)},
            {"low", number(row.low)},
            {"high", number(row.high)},
            {"jobs", row.jobs},
            {"told_by", row.told_by},
            {"method", engine::method_of(row.tells)},
            {"at_end_of_swing", row.at_end}};
}

Json ground_json(const engine::GroundPace& row) {
    return {
        {"layer", row.layer},
        {"depth", {{"above", number(row.from)}, {"to", number(row.to)}, {"unit", row.depth_unit}}},
        {"jobs", row.jobs},
        {"logged", number(row.ratio)},
        {"learned", number(row.learned)},
        {"low", number(row.low)},
        {"high", number(row.high)}};
}

} // namespace

Document learn_json(const LearnPage& page) {
    const engine::LearnAnswer& answer = page.answer;
    Json out = {{"schema", "acrewright.learn/1"},
                {"money", money_json()},
                {"season", page.season},
                {"written", page.written},
                {"level", engine::learned_level},
                {"quotes", answer.quotes},
                {"several_services", answer.several},
                {"refused", answer.refused},
                {"left_out", Json::array()},
                {"readings", Json::array()},
                {"figures", Json::array()},
                {"grounds", Json::array()},
                {"ground_spread", number(answer.ground_spread)},
                {"untold", answer.untold}};
    for (const LeftOut& one : page.left_out)
        out["left_out"].push_back({{"quote", one.quote}, {"why", one.why}});
    for (const engine::ComparedReading& row : answer.compared)
        out["readings"].push_back({{"kind", tells_word(row.tells)},
                                   {"name", row.name},
                                   {"label", row.label},
                                   {"unit", row.unit},
                                   {"jobs", row.jobs},
                                   {"season", number(row.said)},
                                   {"logs", number(row.measured)}});
    for (const engine::LearnedFigure& row : answer.figures)
        out["figures"].push_back(figure_json(row));
    for (const engine::GroundPace& row : answer.grounds)
        out["grounds"].push_back(ground_json(row));
    return answered(std::move(out));
}

} // namespace acre::cli
