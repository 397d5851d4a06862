#include <string>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "cli/quote/page.h"
#include "cli/quote/page_parts.h"
#include "cli/shared/text/table.h"
#include "cli/shared/text/wrap.h"
#include "lang/diag/safe_text.h"

namespace acre::cli {
namespace {

using Json = nlohmann::json;
constexpr std::size_t width = 78;

class Text {
  public:
    Text(const WordedPage& page, const Json& record) : page_(page), record_(record) {}

    std::string text() {
        const std::string number = "Quote " + word("quote.number");
        out_ = word("firm.name") + "\n" + word("firm.line") + "\n\n" + number + ", " +
               word("quote.date") + "\n";
        out_ += "For " + word("job.for") + "\n" + word("job.title") + "\n";
        for (const PageBlock& block : page_.blocks)
            std::visit([this](const auto& one) { put(one); }, block);
        return std::move(out_);
    }

  private:
    const WordedPage& page_;
    const Json& record_;
    std::string out_;

    std::string word(const std::string& name) const {
        const auto it = page_.words.find(name);
        return it == page_.words.end() ? std::string() : lang::terminal_text(it->second);
    }
    void put(const Heading& heading) {
        const std::string text = lang::terminal_text(heading.text);
        out_ += "\n" + text + "\n" + std::string(std::min(text.size(), width), '-') + "\n";
    }
    void put(const Paragraph& paragraph) {
        out_ += wrap(lang::terminal_text(paragraph.text), width) + "\n";
    }
    void put(const Points& points) {
        for (const std::string& text : points.texts)
            out_ += "- " + wrap(lang::terminal_text(text), width, 2) + "\n";
    }
    void put(const FuelTable& table) {
        Table rows({{"Diesel, delivered", Align::Left}, {"Fuel charge"}});
        for (const PageFuelRow& row : page_fuel_rows(table))
            rows.row({lang::terminal_text(row.price), lang::terminal_text(row.surcharge)});
        out_ += rows.text();
    }
    void put(Made made) {
        switch (made) {
        case Made::Items:
            return items();
        case Made::Cautions: {
            const std::vector<std::string> texts = page_cautions(record_);
            if (!texts.empty())
                out_ += "\nMind\n";
            put(Points{texts});
            return;
        }
        case Made::Picture:
            return;
        case Made::Signatures:
            out_ += "\n\n____________________________________    "
                    "____________________________________\n";
            out_ +=
                padded("For " + word("firm.name"), 40) + "Accepted for " + word("job.for") + "\n";
            return;
        }
    }
    void items() {
        Table table({{"Work", Align::Left, true}, {"Basis", Align::Left}, {"Amount"}});
        for (const PageItem& item : page_items(record_))
            table.row({lang::terminal_text(item.title),
                       item.basis.empty() ? "lump sum" : lang::terminal_text(item.basis),
                       item.amount});
        const PageTotal total = page_total(record_);
        table.rule();
        table.row({"Total", total.all_in, total.amount});
        out_ += table.text();
    }
};

} // namespace

std::string quote_page_text(const WordedPage& page, const Json& record) {
    return Text(page, record).text();
}

} // namespace acre::cli
