#include <cmath>

#include "cli/risk/risk_page.h"
#include "cli/shared/words.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

using engine::Measured;

double percentile(const Measured& measured, double share) {
    for (const engine::Percentile& p : measured.percentiles)
        if (p.share == share)
            return p.value;
    return NAN;
}

} // namespace

std::vector<Histogram> risk_histograms(const engine::RiskAnswer& risk) {
    std::vector<Histogram> list;
    for (const Measured& m : risk.measured) {
        const bool first = list.empty();
        if (!first && m.name != "profit")
            continue;
        Histogram histogram{capital(m.called), m.called, m.unit, m.bars_from,
                            m.bars_width,      m.bars,   {}};
        const auto mark = [&](double x, const std::string& words, MarkKind kind) {
            histogram.marks.push_back({x, words + ": " + lang::quantity_text(x, m.unit), kind});
        };
        if (m.name == "profit") {
            histogram.marks.push_back({0, "break-even", MarkKind::Nothing});
            histogram.loss_below_zero = true;
        }
        mark(m.at_job, "this job", MarkKind::Job);
        mark(percentile(m, 0.5), "median", MarkKind::Middle);
        mark(percentile(m, 0.95), "95th percentile", MarkKind::Edge);
        list.push_back(std::move(histogram));
    }
    return list;
}

std::string risk_svg(const engine::RiskAnswer& risk) {
    return histograms_svg("Risk of this job" + (risk.title.empty() ? "" : ": " + risk.title),
                          risk_histograms(risk));
}

} // namespace acre::cli
