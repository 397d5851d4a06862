#include "cli/risk/risk_page.h"
#include "cli/shared/json/value.h"

namespace acre::cli {
namespace {

Json factor_json(const engine::Factor& factor) {
    Json out = {{"name", factor.given.name},
                {"label", factor.given.label},
                {"kind", factor.is_event() ? "event" : "swing"}};
    out["low"] = factor.is_event() ? Json(nullptr) : number(factor.swing->low);
    out["high"] = factor.is_event() ? Json(nullptr) : number(factor.swing->high);
    out["of_it"] = factor.of_it;
    return out;
}

Json measured_json(const engine::Measured& m) {
    Json out = {{"name", m.name},
                {"unit", m.unit},
                {"at_job", number(m.at_job)},
                {"mean", number(m.mean)},
                {"mean_error", number(m.mean_error)},
                {"spread", number(m.spread)},
                {"spread_error", number(m.spread_error)},
                {"least", number(m.least)},
                {"greatest", number(m.greatest)},
                {"percentiles", Json::array()}};
    for (const engine::Percentile& p : m.percentiles)
        out["percentiles"].push_back(
            {{"share", p.share}, {"value", number(p.value)}, {"error", number(p.error)}});
    out["bars"] = {
        {"from", number(m.bars_from)}, {"width", number(m.bars_width)}, {"counts", m.bars}};
    return out;
}

Json shares_json(const engine::RiskAnswer& risk) {
    if (!risk.shares)
        return nullptr;
    Json out = {{"of", risk.measured[risk.shares->measured].name},
                {"spread", number(risk.shares->spread)},
                {"readings", risk.shares->readings},
                {"dependent", risk.dependent},
                {"factors", Json::array()}};
    for (const engine::SpreadShare& share : risk.shares->shares)
        out["factors"].push_back({{"name", risk.factors[share.factor].given.name},
                                  {"first", number(share.first)},
                                  {"first_error", number(share.first_error)},
                                  {"total", number(share.total)},
                                  {"total_error", number(share.total_error)}});
    if (const auto& aside = risk.shares->aside; aside.factors > 0)
        out["aside"] = {{"factors", aside.factors},
                        {"total", number(aside.total)},
                        {"total_error", number(aside.total_error)}};
    return out;
}

Json without_json(const engine::RiskAnswer& risk) {
    Json out = Json::array();
    for (const engine::WithoutAnswer& trial : risk.first_without) {
        Json drawn = Json::object();
        for (std::size_t f = 0; f < risk.factors.size(); ++f)
            drawn[risk.factors[f].given.name] = number(trial.drawn[f]);
        out.push_back({{"because", trial.because}, {"drawn", std::move(drawn)}});
    }
    return out;
}

} // namespace

Document risk_json(const engine::RiskAnswer& risk) {
    Json out = {{"schema", "acrewright.risk/2"},
                {"money", money_json()},
                {"title", risk.title},
                {"trials", risk.trials},
                {"seed", risk.seed}};
    const bool priced = risk.loss.has_value();
    out["paid"] = priced ? number(risk.paid) : Json(nullptr);
    out["overhead"] = priced ? number(risk.overhead) : Json(nullptr);
    out["lump"] = risk.lump;
    out["loss"] = priced ? number(*risk.loss) : Json(nullptr);
    out["loss_error"] = priced ? number(*risk.loss_error) : Json(nullptr);
    out["loss_direct"] = priced ? number(*risk.loss_direct) : Json(nullptr);
    out["loss_direct_error"] = priced ? number(*risk.loss_direct_error) : Json(nullptr);
    out["factors"] = Json::array();
    for (const engine::Factor& factor : risk.factors)
        out["factors"].push_back(factor_json(factor));
    out["measured"] = Json::array();
    for (const engine::Measured& m : risk.measured)
        out["measured"].push_back(measured_json(m));
    out["shares"] = shares_json(risk);
    out["matters_most"] = {{"by_slope", risk.matters_most.by_slope},
                           {"by_swing", risk.matters_most.by_swing},
                           {"by_share", risk.matters_most.by_share},
                           {"agree", risk.matters_most.agree},
                           {"why", risk.matters_most.why}};
    out["without_answer"] = risk.without_answer;
    out["first_without"] = without_json(risk);
    out["refused"] = risk.refused;
    out["refusals"] = Json::array();
    for (const engine::RefusalRisk& refusal : risk.refusals)
        out["refusals"].push_back({{"name", refusal.name},
                                   {"block", refusal.entry},
                                   {"chance", number(refusal.chance)},
                                   {"cost", refusal.cost ? number(*refusal.cost) : Json(nullptr)}});
    static constexpr const char* reasons[] = {"chosen", "asked", "computed"};
    out["held"] = Json::array();
    for (const engine::Held& held : risk.held)
        out["held"].push_back(
            {{"name", held.name}, {"reason", reasons[static_cast<std::size_t>(held.reason)]}});
    return answered(std::move(out));
}

} // namespace acre::cli
