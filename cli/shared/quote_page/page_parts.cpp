#include "cli/shared/quote_page/page_parts.h"

#include <cmath>

#include <fmt/format.h>

#include "engine/book/lives.h"
#include "engine/words/billing.h"
#include "lang/units/money.h"
#include "lang/units/number_text.h"

namespace acre::cli {

namespace {

// "$821/ac"
std::string rate_of(std::int64_t cents, double quantity, const std::string& per) {
    return lang::quantity_text(std::round(static_cast<double>(cents) / quantity) / 100, "$/" + per);
}

} // namespace

std::vector<PageItem> page_items(const engine::QuoteRecord& record) {
    std::vector<PageItem> items;
    for (const engine::RecordItem& item : record.items) {
        if (item.cents == 0 && record.price_cents != 0) // nothing of it on this job
            continue;
        PageItem& row = items.emplace_back();
        row.title = item.title;
        if (!item.per.empty() && item.quantity > 0)
            row.basis = fmt::format("{} at {}", lang::quantity_text(item.quantity, item.per),
                                    engine::is_billed_exactly(record)
                                        ? engine::billed_rate_text(item.rate, item.per)
                                        : rate_of(item.cents, item.quantity, item.per));
        row.amount = lang::cents_text(item.cents);
    }
    return items;
}

std::vector<PageItem> page_blocks(const engine::QuoteRecord& record) {
    std::vector<PageItem> rows;
    for (const engine::RecordBlock& block : record.blocks) {
        std::string basis = block.acres;
        if (!block.depth.empty())
            basis += (basis.empty() ? "" : ", ") + block.depth + " deep";
        if (!block.soil.empty())
            basis += (basis.empty() ? "" : ", ") + block.soil;
        rows.push_back(
            {"of this, " + block.label, std::move(basis), lang::cents_text(block.cents)});
    }
    return rows;
}

std::string page_blocks_note(const WordedPage& page, const engine::QuoteRecord& record) {
    if (page.layout < 2 || record.blocks.size() < 2 || record.per.empty())
        return {};
    return "Each rate is the same in every block, and measured work is billed at it. The amounts "
           "by block are parts of the quoted price.";
}

PageTotal page_total(const engine::QuoteRecord& record) {
    PageTotal total;
    total.amount = lang::cents_text(record.price_cents);
    if (!record.per.empty() && record.per_quantity > 0)
        total.all_in = rate_of(record.price_cents, record.per_quantity, record.per) + " all in";
    return total;
}

std::vector<PageOption> page_options(const engine::QuoteRecord& record) {
    std::vector<PageOption> options;
    if (record.options.empty())
        return options;
    options.push_back({record.option.empty() ? std::string(engine::own_offer) : record.option,
                       lang::cents_text(record.price_cents)});
    for (const engine::RecordOption& option : record.options)
        options.push_back({option.option, lang::cents_text(option.cents)});
    return options;
}

PageSignatures page_signatures(const WordedPage& page) {
    const auto word = [&](const char* name) {
        const auto found = page.words.find(name);
        return found == page.words.end() ? std::string() : found->second;
    };
    const auto named = [&](const std::string& name, const char* otherwise) {
        return name.empty() && page.layout > 0 ? std::string(otherwise) : name;
    };
    const std::string by = word("quote.by");
    return {"For " + named(word("firm.name"), "the contractor") +
                (by.empty() ? "" : " (" + by + ")") + ", date",
            "Accepted for " + named(word("job.for"), "the customer") + ", date"};
}

std::vector<PageFuelRow> page_fuel_rows(const FuelTable& table) {
    std::vector<PageFuelRow> rows;
    const double least = lang::shown_money().decimals() == 0 ? 1 : 0.01;
    for (const FuelStep& step : table.steps) {
        const std::string from = lang::money_text(step.from);
        PageFuelRow& row = rows.emplace_back();
        if (step.cents == 0)
            row.price = fmt::format("below {} {}", lang::money_text(step.below), table.of);
        else if (std::isfinite(step.below))
            row.price =
                fmt::format("{} to {} {}", from, lang::money_text(step.below - least), table.of);
        else
            row.price = from + " " + table.of + " and above";
        row.surcharge = step.cents == 0 ? "none" : lang::cents_text(step.cents) + "/" + table.per;
    }
    return rows;
}

} // namespace acre::cli
