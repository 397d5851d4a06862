#include "cli/shared/quote_book/index.h"

#include <algorithm>
#include <cstring>
#include <string_view>

#include <fmt/format.h>

#include "cli/shared/files/durable.h"
#include "engine/book/seal.h"

namespace acre::cli {
namespace {

// "acrewright.index/1 120 <seal of record 120> <SHA-256 of the lines>"
std::string first_line(std::size_t records, const std::string& seal, std::string_view lines) {
    return fmt::format("acrewright.index/1 {} {} {}\n", records, seal, engine::sha256(lines));
}

// The text of a member of a line, as it stands there; empty: the line has none. In a line a
// quotation mark stands bare only where a text begins or ends, so a name cannot be met inside one.
std::string_view member(std::string_view line, std::string_view name) {
    const void* const found = ::memmem(line.data(), line.size(), name.data(), name.size());
    if (found == nullptr)
        return {};
    const auto begin = static_cast<std::size_t>(static_cast<const char*>(found) - line.data());
    const std::string_view rest = line.substr(begin + name.size());
    return rest.substr(0, rest.find('"'));
}

bool is_about(std::string_view line, const About& about) {
    for (const std::string_view name : {R"("quote":")", R"("replaces":")", R"("changes":")"})
        if (about.quotes.contains(base_number(member(line, name))))
            return true;
    return member(line, R"("kind":")") == "key" ||
           (!about.bills.empty() && about.bills.contains(member(line, R"("bill":")")));
}

} // namespace

std::string_view base_number(std::string_view number) {
    return number.substr(0, number.find("-C"));
}

std::string_view BookIndex::lines() const {
    return std::string_view(text_).substr(text_.find('\n') + 1);
}

std::optional<BookIndex> BookIndex::read(const Book& book) {
    BookIndex index;
    if (!book.read("index", index.text_).empty())
        return std::nullopt;
    const std::string_view lines = index.lines();
    const std::string_view head =
        std::string_view(index.text_).substr(0, index.text_.size() - lines.size());
    if (lines.empty() || lines.back() != '\n' || std::count(head.begin(), head.end(), ' ') != 3)
        return std::nullopt;
    index.records_ = static_cast<std::size_t>(std::count(lines.begin(), lines.end(), '\n'));
    const std::size_t sum = head.rfind(' '), seal = head.rfind(' ', sum - 1) + 1;
    index.seal_ = head.substr(seal, sum - seal);
    if (head != first_line(index.records_, index.seal_, lines))
        return std::nullopt;
    return index;
}

std::optional<std::vector<engine::Event>> BookIndex::events(const About* about) const {
    std::vector<engine::Event> events;
    std::size_t record = 0;
    for (std::string_view rest = lines(); !rest.empty();) {
        const std::string_view line = rest.substr(0, rest.find('\n'));
        rest.remove_prefix(line.size() + 1);
        ++record;
        if (about != nullptr && !rest.empty() && !is_about(line, *about))
            continue;
        std::optional<engine::Event> event = engine::event_in(line);
        if (!event || static_cast<std::size_t>(event->record) != record)
            return std::nullopt;
        events.push_back(std::move(*event));
    }
    if (events.back().seal != seal_)
        return std::nullopt;
    return events;
}

void write_index(const Book& book, const BookIndex* before,
                 const std::vector<engine::Event>& since) {
    std::string lines(before == nullptr ? std::string_view() : before->lines());
    for (const engine::Event& event : since)
        lines += engine::event_line(event) + "\n";
    const std::size_t records = (before == nullptr ? 0 : before->records()) + since.size();
    const std::string text = first_line(records, since.back().seal, lines);
    const SignalsHeld held;
    std::string coming;
    if (write_beside(book.folder(), text + lines, mode_of_new(book.folder(), 0666), coming,
                     Leftovers::Leave)
            .empty())
        move_over(coming, book.folder() + "/index");
}

} // namespace acre::cli
