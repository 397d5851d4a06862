#include "engine/faults/coverage.h"

#include <cmath>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "engine/words/money.h"
#include "lang/units/number_text.h"

namespace acre::engine {
namespace {

using lang::none;

class Coverage {
  public:
    Coverage(const PricedJob& job, lang::Diagnostics& diagnostics)
        : job_(job),
          sheet_(job.sheet()),
          diagnostics_(diagnostics) {}

    void run() {
        std::vector<std::vector<const lang::PriceItem*>> covered(sheet_.costs.size());
        for (const lang::PriceItem& item : sheet_.prices)
            for (const std::uint32_t cost : item.costs)
                covered[cost].push_back(&item);
        if (!sheet_.costs.empty())
            for (const lang::PriceItem& item : sheet_.prices)
                if (item.costs.empty())
                    covers_nothing(item);
        for (std::size_t i = 0; i < sheet_.costs.size(); ++i)
            if (covered[i].empty())
                left_out(sheet_.costs[i]);
            else if (covered[i].size() > 1)
                counted_again(sheet_.costs[i], covered[i]);
    }

  private:
    void covers_nothing(const lang::PriceItem& item) {
        lang::Diagnostic d{lang::Code::L820,
                           fmt::format("the price \"{}\" covers no cost", item.title),
                           {item.span, "covers nothing"},
                           {},
                           {},
                           {}};
        d.notes.emplace_back("without `covers` a price takes the costs that no other price names, "
                             "and none is left");
        d.helps.push_back({"name its part in its `covers`, or take the price out", std::nullopt});
        diagnostics_.add(std::move(d));
    }

    void left_out(const lang::Cost& cost) {
        const lang::Line& rate = sheet_.lines[cost.rate];
        lang::Diagnostic d{lang::Code::L803,
                           fmt::format("no price covers the cost `{}`", rate.name),
                           {rate.name_span, "not covered"},
                           {},
                           {},
                           {}};
        if (const double amount = job_.value(cost.amount); std::fabs(amount) < 9e13)
            d.notes.push_back(fmt::format("{} of cost that no price asks for",
                                          lang::cents_text(to_cents(amount))));
        d.helps.push_back({cost.part == none ? "move it to a part that a price covers"
                                             : fmt::format("add its part to `covers`: \"{}\"",
                                                           sheet_.parts[cost.part].title),
                           std::nullopt});
        diagnostics_.add(std::move(d));
    }

    void counted_again(const lang::Cost& cost, const std::vector<const lang::PriceItem*>& items) {
        const lang::Line& rate = sheet_.lines[cost.rate];
        lang::Diagnostic d{lang::Code::L804,
                           fmt::format("the cost `{}` is in {} prices", rate.name, items.size()),
                           {rate.name_span, "counted more than once"},
                           {},
                           {},
                           {}};
        for (const lang::PriceItem* item : items)
            d.others.push_back({item->span, "covers it"});
        if (const double amount = job_.value(cost.amount); std::fabs(amount) < 9e13)
            d.notes.push_back(fmt::format(
                "{} of cost is counted {} times: {} too much before overhead and margin",
                lang::cents_text(to_cents(amount)), items.size(),
                lang::cents_text(to_cents(amount * static_cast<double>(items.size() - 1)))));
        d.helps.push_back({"keep its part in the `covers` of one price only", std::nullopt});
        diagnostics_.add(std::move(d));
    }

    const PricedJob& job_;
    const lang::Sheet& sheet_;
    lang::Diagnostics& diagnostics_;
};

} // namespace

void warn_of_coverage(const PricedJob& job, lang::Diagnostics& diagnostics) {
    if (!job.sheet().prices.empty()) // a model without a price is there for others to use
        Coverage(job, diagnostics).run();
}

} // namespace acre::engine
