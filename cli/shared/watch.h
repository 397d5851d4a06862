// A command that answers once, or again and again as the files change that its answer was made
// from.
#pragma once

#include <atomic>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "cli/shared/console.h"

namespace acre::cli {

// A figure by which one answer is told from the next.
struct Figure {
    std::string name, unit; // safe to show
    double value = 0;
};

struct Answer {
    int code = 0;
    std::string page;               // the result; empty when there is none
    std::vector<Figure> figures;    // the most telling first
    std::vector<std::string> files; // what it was made from, whether it came about or not
};

// Messages go to the console's `err`.
using Ask = std::function<Answer(Console& console)>;

// Without `watch`: asks once, the page goes to `console.out`. With it: asks, writes, waits until a
// file changes, and asks again, until Ctrl-C or the end of who reads. On a terminal the page stands
// there anew each time, below it what changed; elsewhere the first page, then one line a change.
// With `whole` (JSON) every answer is written whole and nothing else.
int answer(bool watch, bool whole, Console& console, const Ask& ask);

// What changed from one answer to the next, one line, without its end: "price.total $1,900.00
// (+$50.00), cost.total ...". Of the figures that changed at most `most`; "no figure changed" if
// none did.
std::string changes_text(const std::vector<Figure>& before, const std::vector<Figure>& after,
                         std::size_t most);

// Becomes true on Ctrl-C while a command watches: long work should be given up.
const std::atomic<bool>& interrupted();

} // namespace acre::cli
