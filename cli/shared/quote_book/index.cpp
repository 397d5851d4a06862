#include "cli/shared/quote_book/index.h"

#include <fmt/format.h>

#include "cli/shared/files/durable.h"
#include "engine/book/seal.h"

namespace acre::cli {
namespace {

// "acrewright.index/1 120 <seal of record 120> <SHA-256 of the lines>"
std::string first_line(std::size_t records, const std::string& seal, const std::string& lines) {
    return fmt::format("acrewright.index/1 {} {} {}\n", records, seal, engine::sha256(lines));
}

} // namespace

std::optional<BookIndex> read_index(const Book& book) {
    std::string text;
    if (!book.read("index", text).empty())
        return std::nullopt;
    const std::size_t end = text.find('\n');
    if (end == std::string::npos)
        return std::nullopt;
    const std::string lines = text.substr(end + 1);
    BookIndex index;
    for (std::size_t at = 0; at < lines.size();) {
        const std::size_t stop = lines.find('\n', at);
        if (stop == std::string::npos)
            return std::nullopt;
        std::optional<engine::Event> event =
            engine::event_in(std::string_view(lines).substr(at, stop - at));
        if (!event || static_cast<std::size_t>(event->record) != index.events.size() + 1)
            return std::nullopt;
        index.events.push_back(std::move(*event));
        at = stop + 1;
    }
    if (index.events.empty())
        return std::nullopt;
    index.seal = index.events.back().seal;
    if (text.substr(0, end + 1) != first_line(index.events.size(), index.seal, lines))
        return std::nullopt;
    return index;
}

void write_index(const Book& book, const engine::Lives& lives) {
    std::string lines;
    for (const engine::Event& event : lives.events())
        lines += engine::event_line(event) + "\n";
    const std::string text = first_line(lives.events().size(), lives.events().back().seal, lines);
    const SignalsHeld held;
    std::string coming;
    if (write_beside(book.folder(), text + lines, mode_of_new(book.folder(), 0666), coming,
                     Leftovers::Leave)
            .empty())
        move_over(coming, book.folder() + "/index");
}

} // namespace acre::cli
