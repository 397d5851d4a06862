#include "cli/shared/html_page.h"

#include "cli/shared/safe_text.h"

namespace acre::cli {
namespace {

constexpr std::string_view style = R"(
:root { --paper: #fffdf7; --ink: #1d1b17; --soft: #57503f; --rule: #ddd3bb; --ground: #6b4f2a; }
@media screen and (prefers-color-scheme: dark) {
  :root { --paper: #191613; --ink: #f0e8d7; --soft: #bcb09a; --rule: #3b342a; --ground: #d6b07a;
    color-scheme: dark; }
}
* { box-sizing: border-box; }
body { margin: 0 auto; padding: 16px; max-width: 50em; background: var(--paper); color: var(--ink);
  font: 1.0625rem/1.45 Charter, "Bitstream Charter", "Sitka Text", Palatino, P052, "Noto Serif",
    serif;
  font-variant-numeric: lining-nums tabular-nums; overflow-wrap: break-word; }
h1 { font-size: 1.5rem; line-height: 1.2; margin: 0 0 .3em; padding-bottom: .2em;
  border-bottom: 3px solid var(--ground); }
h2 { font-size: 1.3125rem; line-height: 1.25; margin: 1.4em 0 .4em; break-after: avoid; }
p { margin: .4em 0; }
svg { display: block; width: 100%; height: auto; break-inside: avoid; }
table { border-collapse: collapse; width: 100%; }
th, td { text-align: right; padding: .3em .5em; border-bottom: 1px solid var(--rule); }
th { font: .8125rem/1.3 "Segoe UI", Roboto, "Noto Sans", "Liberation Sans", sans-serif;
  color: var(--soft); vertical-align: bottom; }
.w { text-align: left; }
tr { break-inside: avoid; }
.wide { overflow-x: auto; }
footer { margin-top: 1.6em; font-size: .9375rem; color: var(--soft); }
@media screen and (max-width: 639px) {
  .rows thead { display: none; }
  .rows tr { display: block; padding: .5em 0; border-bottom: 1px solid var(--rule); }
  .rows td { display: grid; grid-template-columns: minmax(7em, 1fr) minmax(min-content, auto);
    gap: 1em;
    padding: .1em 0; border: 0; }
  .rows td::before { content: attr(data-head); color: var(--soft); text-align: left; }
}
@page { size: letter; margin: 14mm; }
@media print { body { max-width: none; padding: 0; font-size: 10.5pt; } .wide { overflow: visible;
  } }
)";

} // namespace

std::string html_head(std::string_view title) {
    return "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<meta "
           "name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<meta "
           "http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src "
           "'unsafe-inline'\">\n<title>" +
           markup_text(title) + "</title>\n<style>" + std::string(style) +
           "</style>\n</head>\n<body>\n";
}

std::string html_foot() {
    return "</body>\n</html>\n";
}

HtmlTable::HtmlTable(std::vector<std::string> heads, std::size_t words)
    : heads_(std::move(heads)),
      words_(words),
      out_("<table class=\"rows\">\n<thead><tr>") {
    for (std::size_t i = 0; i < heads_.size(); ++i)
        out_ += (i < words_ ? "<th class=\"w\">" : "<th>") + markup_text(heads_[i]) + "</th>";
    out_ += "</tr></thead>\n<tbody>\n";
}

void HtmlTable::row(const std::vector<std::string>& cells) {
    out_ += "<tr>";
    for (std::size_t i = 0; i < cells.size(); ++i)
        out_ += std::string(i < words_ ? "<td class=\"w\"" : "<td") + " data-head=\"" +
                markup_text(heads_[i]) + "\">" + markup_text(cells[i]) + "</td>";
    out_ += "</tr>\n";
}

std::string HtmlTable::finish() && {
    return std::move(out_) + "</tbody>\n</table>\n";
}

} // namespace acre::cli
