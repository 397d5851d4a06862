// A command that answers once, or again and again as the files change that its answer was made
// from.
#pragma once

#include <atomic>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "cli/shared/reply.h"

namespace acre::cli {

// Without `watch`: asks once. With it: asks, writes, waits until a file changes, and asks again,
// until Ctrl-C or the end of who reads; the reply is what is left to say. On a terminal the page
// stands there anew each time, below it what changed; elsewhere the first page, then one line a
// change. With `json` every answer is written whole and nothing else.
Reply watched(bool watch, bool json, Console& console, const std::function<Reply()>& ask);

// What changed from one answer to the next, one line, without its end: "price.total $1,900.00
// (+$50.00), cost.total ...". Of the figures that changed at most `most`; "no figure changed" if
// none did.
std::string changes_text(const std::vector<Figure>& before, const std::vector<Figure>& after,
                         std::size_t most);

// Becomes true on Ctrl-C while a command watches: long work should be given up.
const std::atomic<bool>& interrupted();

} // namespace acre::cli
