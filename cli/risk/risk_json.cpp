#include "cli/risk/risk_page.h"
#include "cli/shared/json/value.h"
#include "cli/shared/words.h"

namespace acre::cli {
namespace {

Json factor_json(const engine::Factor& factor) {
    Json out = {
        {"name", factor.name}, {"label", factor.label}, {"kind", factor.axis ? "swing" : "event"}};
    out["low"] = factor.axis ? number(factor.axis->swing->low) : Json(nullptr);
    out["high"] = factor.axis ? number(factor.axis->swing->high) : Json(nullptr);
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

} // namespace

std::string risk_json(const RiskPage& page) {
    const engine::Risk& risk = page.risk;
    Json out = {{"schema", "acrewright.risk/1"},
                {"title", title_of(page.sheet())},
                {"trials", risk.trials},
                {"seed", risk.seed}};
    const bool priced = risk.loss.has_value();
    out["paid"] = priced ? number(risk.paid) : Json(nullptr);
    out["lump"] = page.lump;
    out["loss"] = priced ? number(*risk.loss) : Json(nullptr);
    out["loss_error"] = risk.loss_error ? number(*risk.loss_error) : Json(nullptr);
    out["factors"] = Json::array();
    for (const engine::Factor& factor : risk.factors)
        out["factors"].push_back(factor_json(factor));
    out["measured"] = Json::array();
    for (const engine::Measured& m : risk.measured)
        out["measured"].push_back(measured_json(m));
    out["shares"] = nullptr;
    if (risk.shares) {
        out["shares"] = {{"of", risk.measured[risk.shares->measured].name},
                         {"spread", number(risk.shares->spread)},
                         {"readings", risk.shares->readings},
                         {"dependent", risk.dependent},
                         {"factors", Json::array()}};
        for (const engine::SpreadShare& share : risk.shares->shares)
            out["shares"]["factors"].push_back({{"name", risk.factors[share.factor].name},
                                                {"first", number(share.first)},
                                                {"first_error", number(share.first_error)},
                                                {"total", number(share.total)},
                                                {"total_error", number(share.total_error)}});
    }
    const Agreement says = agreement(page);
    out["matters_most"] = {{"by_slope", says.by_slope},
                           {"by_swing", says.by_swing},
                           {"by_share", says.by_share},
                           {"agree", says.agree},
                           {"why", says.why}};
    out["without_answer"] = risk.without_answer;
    out["first_without"] = Json::array();
    for (const engine::WithoutAnswer& trial : risk.first_without) {
        Json drawn = Json::object();
        for (std::size_t f = 0; f < risk.factors.size(); ++f)
            drawn[risk.factors[f].name] = number(trial.drawn[f]);
        out["first_without"].push_back(
            {{"because", fault_words(trial.fault)}, {"drawn", std::move(drawn)}});
    }
    out["not_drawn"] = Json::array();
    for (const lang::LineId id : risk.not_drawn)
        out["not_drawn"].push_back(page.sheet().lines[id].name);
    return document(out);
}

} // namespace acre::cli
