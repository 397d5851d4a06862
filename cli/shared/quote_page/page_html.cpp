#include <string>

#include <fmt/format.h>

#include "cli/shared/quote_page/page.h"
#include "cli/shared/quote_page/page_parts.h"
#include "cli/shared/safe_text.h"
#include "engine/book/texts.h"

namespace acre::cli {
namespace {

// Dark on a screen that is dark, as its pictures are; printed it is always light.
constexpr std::string_view style = R"css(
:root { --paper: #fff; --ink: #1d1b17; --soft: #57503f; --rule: #c9bfa8; --ground: #6b4f2a;
  --fault: #b2462c; }
@media screen and (prefers-color-scheme: dark) {
  :root { --paper: #191613; --ink: #f0e8d7; --soft: #bcb09a; --rule: #4a4236; --ground: #d6b07a;
    --fault: #f0957a;
    color-scheme: dark; }
}
@page { size: letter; margin: 13mm 17mm; }
* { box-sizing: border-box; }
body { font: 9.7pt/1.34 Georgia, "Liberation Serif", "Times New Roman", serif; color: var(--ink);
  background: var(--paper); max-width: 46em; margin: 2em auto; padding: 0 1.2em;
  overflow-wrap: break-word; }
header { display: flex; justify-content: space-between; align-items: flex-end; gap: 1em;
  border-bottom: 2.5pt solid var(--ground); padding-bottom: .5em; }
header h1 { font-size: 17pt; margin: 0; letter-spacing: .01em; }
header p { margin: 0; font-size: 9.5pt; color: var(--soft); }
header .number { text-align: right; white-space: nowrap; font-size: 11pt; color: var(--ink); }
.to { margin: 1em 0 .2em; }
.to b { font-size: 12.5pt; }
h2 { font-size: 10.8pt; margin: .95em 0 .2em; color: var(--ground); break-after: avoid; }
p { margin: .3em 0; }
ul { margin: .3em 0 .3em 1.1em; padding: 0; }
table { border-collapse: collapse; width: 100%; margin: .4em 0; break-inside: avoid; }
th, td { text-align: left; padding: .28em .4em; border-bottom: .5pt solid var(--rule);
  vertical-align: top; }
th { font-weight: normal; color: var(--soft); font-size: 9.5pt; }
td.money, th.money { text-align: right; white-space: nowrap; font-variant-numeric: tabular-nums; }
tr.total td { border-top: 1.2pt solid var(--ink); border-bottom: none; font-weight: bold;
  font-size: 12pt; }
tr.allin td { border: none; color: var(--soft); padding-top: 0; }
table.blank { break-inside: auto; }
table.blank th, table.blank td { border: .5pt solid var(--rule); }
table.blank td { height: 1.9em; }
table.fuel { width: 24em; max-width: 100%; font-size: 9.5pt; }
.cautions { border: 1pt solid var(--fault); padding: .45em .8em; margin: .6em 0;
  break-inside: avoid; }
.cautions p { margin: 0 0 .2em; font-weight: bold; color: var(--fault); }
.cautions ul { margin: 0 0 0 1.1em; }
.signatures { display: flex; gap: 3em; margin-top: 2.6em; break-inside: avoid; }
.signatures div { flex: 1; border-top: .8pt solid var(--ink); padding-top: .2em; font-size: 9pt;
  color: var(--soft); }
figure { margin: .6em 0; break-inside: avoid; }
figure svg { width: 100%; height: auto; max-height: 84mm; }
@media screen and (max-width: 639px) {
  body { font-size: 11.5pt; margin: 1em auto; }
  header { display: block; }
  header .number { text-align: left; margin-top: .5em; }
  header p, th, table.fuel, .signatures div { font-size: 10.5pt; }
  h2 { font-size: 12.5pt; }
  figure svg { max-height: none; }
}
@media print { body { margin: 0; padding: 0; max-width: none; } }
)css";

// Two sheets of letter paper at most for a job of a week or two.
constexpr std::string_view crew_style = R"css(
@media print {
  body { font-size: 9pt; line-height: 1.25; }
  .cautions { font-size: 8.5pt; }
  table:not(.blank) td:first-child { white-space: nowrap; }
}
)css";

std::string word(const WordedPage& page, const std::string& name) {
    const auto it = page.words.find(name);
    return it == page.words.end() ? std::string() : markup_text(it->second);
}

class Html {
  public:
    Html(const WordedPage& page, const engine::QuoteRecord& record)
        : page_(page),
          record_(record) {}

    std::string text() {
        head();
        for (const PageBlock& block : page_.blocks)
            std::visit([this](const auto& one) { put(one); }, block);
        out_ += "</body>\n</html>\n";
        return std::move(out_);
    }

  private:
    const WordedPage& page_;
    const engine::QuoteRecord& record_;
    std::string out_;

    void head() {
        out_ += "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<meta "
                "name=\"viewport\" "
                "content=\"width=device-width\">\n";
        out_ += "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; "
                "style-src 'unsafe-inline'; img-src data:\">\n";
        out_ += fmt::format("<title>{} {}: {}</title>\n<style>{}{}</style>\n</head>\n<body>\n",
                            page_.kind, word(page_, "quote.number"), word(page_, "job.title"),
                            style, page_.crew ? crew_style : "");
        out_ += fmt::format("<header><div><h1>{}</h1><p>{}</p></div><p class=\"number\">{} "
                            "{}<br>{}</p></header>\n",
                            word(page_, "firm.name"), word(page_, "firm.line"), page_.kind,
                            word(page_, "quote.number"), word(page_, "quote.date"));
        const std::string who = word(page_, "job.for");
        const bool named = !who.empty() || page_.layout == 0;
        out_ += "<p class=\"to\">" + (named ? "For<br><b>" + who + "</b><br>" : "");
        if (const std::string address = word(page_, "job.address"); !address.empty())
            out_ += address + "<br>";
        out_ += word(page_, "job.title");
        if (const std::string place = word(page_, "job.place"); !place.empty())
            out_ += "<br>" + place;
        out_ += "</p>\n";
    }

    void put(const Heading& heading) {
        out_ += fmt::format("<h2>{}</h2>\n", markup_text(heading.text));
    }
    void put(const Paragraph& paragraph) {
        out_ += fmt::format("<p>{}</p>\n", markup_text(paragraph.text));
    }
    void put(const Points& points) { list(points.texts); }
    void list(const std::vector<std::string>& texts) {
        out_ += "<ul>\n";
        for (const std::string& text : texts)
            out_ += fmt::format("<li>{}</li>\n", markup_text(text));
        out_ += "</ul>\n";
    }
    void put(const Grid& grid) {
        if (grid.rows.empty() && grid.blank_rows == 0)
            return;
        out_ += grid.blank_rows > 0 ? "<table class=\"blank\">\n<tr>" : "<table>\n<tr>";
        for (const std::string& head : grid.head)
            out_ += fmt::format("<th>{}</th>", markup_text(head));
        out_ += "</tr>\n";
        const auto row = [&](const std::vector<std::string>& cells) {
            out_ += "<tr>";
            for (const std::string& cell : cells)
                out_ += fmt::format("<td>{}</td>", markup_text(cell));
            out_ += "</tr>\n";
        };
        for (const std::vector<std::string>& cells : grid.rows)
            row(cells);
        for (std::size_t i = 0; i < grid.blank_rows; ++i)
            row(std::vector<std::string>(grid.head.size()));
        out_ += "</table>\n";
    }
    void put(const FuelTable& table) {
        out_ += "<table class=\"fuel\">\n<tr><th>Posted diesel price</th><th class=\"money\">Fuel "
                "charge</th></tr>\n";
        for (const PageFuelRow& row : page_fuel_rows(table))
            out_ += fmt::format("<tr><td>{}</td><td class=\"money\">{}</td></tr>\n",
                                markup_text(row.price), markup_text(row.surcharge));
        out_ += "</table>\n";
    }
    void put(Made made) {
        switch (made) {
        case Made::Items:
            return items();
        case Made::Cautions:
            return cautions();
        case Made::Options:
            return options();
        case Made::Picture:
            return pictures();
        case Made::Signatures:
            return signatures();
        }
    }
    void signatures() {
        const PageSignatures signed_by = page_signatures(page_);
        out_ += fmt::format("<div class=\"signatures\"><div>{}</div><div>{}</div></div>\n",
                            markup_text(signed_by.ours), markup_text(signed_by.theirs));
    }
    void items() {
        out_ += "<table>\n<tr><th>Work</th><th>Basis</th><th class=\"money\">Amount</th></tr>\n";
        for (const PageItem& item : page_items(record_))
            out_ += fmt::format("<tr><td>{}</td><td>{}</td><td class=\"money\">{}</td></tr>\n",
                                markup_text(item.title),
                                item.basis.empty() ? "lump sum" : markup_text(item.basis),
                                markup_text(item.amount));
        const PageTotal total = page_total(record_);
        out_ += fmt::format(
            "<tr class=\"total\"><td>Total</td><td></td><td class=\"money\">{}</td></tr>\n",
            markup_text(total.amount));
        if (!total.all_in.empty())
            out_ += fmt::format(
                "<tr class=\"allin\"><td></td><td></td><td class=\"money\">{}</td></tr>\n",
                markup_text(total.all_in));
        for (const PageItem& block : page_blocks(record_))
            out_ += fmt::format("<tr><td>{}</td><td>{}</td><td class=\"money\">{}</td></tr>\n",
                                markup_text(block.title), markup_text(block.basis),
                                markup_text(block.amount));
        out_ += "</table>\n";
        if (const std::string note = page_blocks_note(page_, record_); !note.empty())
            out_ += "<p>" + note + "</p>\n";
    }
    void options() {
        const std::vector<PageOption> all = page_options(record_);
        if (all.empty())
            return;
        out_ += "<table>\n<tr><th>Choose one</th><th class=\"money\">Total</th></tr>\n";
        for (const PageOption& option : all)
            out_ += fmt::format("<tr><td>{}</td><td class=\"money\">{}</td></tr>\n",
                                markup_text(option.name), markup_text(option.amount));
        out_ += "</table>\n";
    }
    void pictures() {
        std::string all;
        for (const engine::RecordPicture& picture : record_.pictures)
            if (const std::string* svg = engine::carried_text(record_, picture.svg))
                all += *svg;
        if (!all.empty())
            out_ += fmt::format("<figure>{}</figure>\n", all);
    }
    void cautions() {
        const std::vector<std::string>& texts = record_.cautions;
        if (texts.empty())
            return;
        out_ += "<div class=\"cautions\"><p>Please note</p>\n";
        list(texts);
        out_ += "</div>\n";
    }
};

} // namespace

std::string quote_html(const WordedPage& page, const engine::QuoteRecord& record) {
    return Html(page, record).text();
}

} // namespace acre::cli
