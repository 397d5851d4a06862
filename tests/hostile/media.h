// What a text may hold where it is shown: on a terminal, in markup, in a CSV cell, in JSON. Each
// answers with the first thing that is wrong, or nothing. Written from the standards, not from the
// program: ECMA-48 and Unicode 15 (terminal), XML 1.0 (markup), RFC 4180 (CSV), RFC 8259 (JSON).
#pragma once

#include <set>
#include <string>
#include <string_view>

namespace acre::tests {

// Every character is printed, or a line end: no control character of either set, no mark that turns
// the direction of writing, no character without width, no line or paragraph separator; and it is
// UTF-8. `before_line_end`: "\r\n" may end a line.
std::string terminal_fault(std::string_view text, bool carriage_returns = false);

// Well-formed, as strict as XML is (a DOCTYPE, `<meta …>` and `<br>` are taken as HTML has them);
// `<style>` holds no markup. No script, nothing that is loaded or run. Each element and each
// attribute goes into `seen` ("td", "td@class").
std::string markup_fault(std::string_view text, std::set<std::string>& seen);

// Every line ends in CRLF, has as many cells as the first, and no cell begins as a formula of a
// spreadsheet does, unless it is a number.
std::string csv_fault(std::string_view text);

// One document, ASCII.
std::string json_fault(std::string_view text);

} // namespace acre::tests
