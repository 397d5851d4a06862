#include <algorithm>
#include <string>

#include "cli/shared/quote_page/page.h"
#include "cli/shared/quote_page/page_parts.h"
#include "cli/shared/text/table.h"
#include "cli/shared/text/wrap.h"
#include "lang/diag/glyph.h"
#include "lang/diag/safe_text.h"

namespace acre::cli {
namespace {

constexpr std::size_t width = 78;

class Text {
  public:
    Text(const WordedPage& page, const engine::QuoteRecord& record)
        : page_(page),
          record_(record) {}

    std::string text() {
        for (const std::string& line : {word("firm.name"), word("firm.line")})
            if (!line.empty())
                out_ += wrap(line, width) + "\n";
        out_ += (out_.empty() ? "" : "\n") +
                wrap(page_.kind + " " + word("quote.number") + ", " + word("quote.date"), width);
        const std::string who = word("job.for");
        out_ += "\n" + (who.empty() && page_.layout > 0 ? "" : wrap("For " + who, width) + "\n");
        if (const std::string address = word("job.address"); !address.empty())
            out_ += wrap(address, width) + "\n";
        out_ += wrap(word("job.title"), width) + "\n";
        if (const std::string place = word("job.place"); !place.empty())
            out_ += wrap(place, width) + "\n";
        for (const PageBlock& block : page_.blocks)
            std::visit([this](const auto& one) { put(one); }, block);
        return std::move(out_);
    }

  private:
    const WordedPage& page_;
    const engine::QuoteRecord& record_;
    std::string out_;

    std::string word(const std::string& name) const {
        const auto it = page_.words.find(name);
        return it == page_.words.end() ? std::string() : lang::terminal_text(it->second);
    }
    void put(const Heading& heading) {
        const std::string text = lang::terminal_text(heading.text);
        out_ += "\n" + wrap(text, width) + "\n" +
                std::string(text.empty() ? 0 : std::min(lang::text_columns(text), width), '-') +
                "\n";
    }
    void put(const Paragraph& paragraph) {
        out_ += wrap(lang::terminal_text(paragraph.text), width) + "\n";
    }
    void put(const Points& points) {
        for (const std::string& text : points.texts)
            out_ += "- " + wrap(lang::terminal_text(text), width, 2) + "\n";
    }
    void put(const Grid& grid) {
        if (grid.rows.empty() && grid.blank_rows == 0)
            return;
        std::vector<Column> columns;
        std::vector<std::string> blank;
        for (const std::string& head : grid.head) {
            columns.push_back({head, Align::Left, &head == &grid.head.back()});
            blank.emplace_back(std::clamp<std::size_t>(lang::text_columns(head), 5,
                                                       &head == &grid.head.back() ? 14 : 12),
                               '_');
        }
        Table table(std::move(columns));
        for (const std::vector<std::string>& row : grid.rows) {
            std::vector<std::string> cells;
            for (const std::string& cell : row)
                cells.push_back(lang::terminal_text(cell));
            table.row(std::move(cells));
        }
        for (std::size_t i = 0; i < grid.blank_rows; ++i)
            table.row(blank);
        out_ += table.text(false, width);
    }
    void put(const FuelTable& table) {
        Table rows({{"Posted diesel price", Align::Left}, {"Fuel charge"}});
        for (const PageFuelRow& row : page_fuel_rows(table))
            rows.row({lang::terminal_text(row.price), lang::terminal_text(row.surcharge)});
        out_ += rows.text(false, width);
    }
    void put(Made made) {
        switch (made) {
        case Made::Items:
            return items();
        case Made::Cautions: {
            if (!record_.cautions.empty())
                out_ += "\nPlease note\n";
            put(Points{record_.cautions});
            return;
        }
        case Made::Options:
            return options();
        case Made::Picture:
            return;
        case Made::Signatures:
            return signatures();
        }
    }
    // Side by side where both names have room, else one below the other.
    void signatures() {
        const PageSignatures signed_by = page_signatures(page_);
        const std::string ours = lang::terminal_text(signed_by.ours);
        const std::string theirs = lang::terminal_text(signed_by.theirs);
        const std::string line(36, '_');
        if (lang::text_columns(ours) <= 38 && lang::text_columns(theirs) <= width - 40)
            out_ += "\n\n" + line + "    " + line + "\n" + padded(ours, 40) + theirs + "\n";
        else
            for (const std::string& one : {ours, theirs})
                out_ += "\n\n" + line + "\n" + wrap(one, width) + "\n";
    }
    void options() {
        const std::vector<PageOption> all = page_options(record_);
        if (all.empty())
            return;
        Table table({{"Choose one", Align::Left, true}, {"Total"}});
        for (const PageOption& option : all)
            table.row({lang::terminal_text(option.name), option.amount});
        out_ += table.text(false, width);
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
        for (const PageItem& block : page_blocks(record_))
            table.row(
                {lang::terminal_text(block.title), lang::terminal_text(block.basis), block.amount});
        out_ += table.text(false, width);
        if (const std::string note = page_blocks_note(page_, record_); !note.empty())
            out_ += wrap(note, width) + "\n";
    }
};

} // namespace

std::string quote_page_text(const WordedPage& page, const engine::QuoteRecord& record) {
    return Text(page, record).text();
}

} // namespace acre::cli
