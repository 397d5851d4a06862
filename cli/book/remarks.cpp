// What is said beside a book, on standard error: slips that its figures do not show.
#include <algorithm>
#include <map>
#include <set>

#include <fmt/format.h>

#include "cli/book/book_page.h"
#include "cli/shared/text/page.h"
#include "cli/shared/text/wrap.h"
#include "lang/diag/safe_text.h"
#include "lang/units/calendar.h"
#include "lang/units/letters.h"

namespace acre::cli {
namespace {

constexpr std::size_t most_remarked = 5;

std::string in_marks(const std::vector<std::string>& names) {
    std::string out;
    for (std::size_t i = 0; i < names.size() && i < most_remarked; ++i)
        out += (i == 0 ? "`" : ", `") + lang::terminal_text(names[i]) + "`";
    if (names.size() > most_remarked)
        out += fmt::format(" and {} more", names.size() - most_remarked);
    return out;
}

// Letters and digits alone, small: what is left of a name that was typed in a hurry.
std::string letters_of(const std::string& name) {
    std::string out;
    for (const char c : name)
        if (lang::is_letter(c) || lang::is_digit(c) || static_cast<unsigned char>(c) > 127)
            out += lang::to_lower(c);
    return out;
}

std::string near_names(const engine::Lives& lives) {
    std::map<std::string, std::map<std::string, std::string>> names; // bare, id: as written
    for (const engine::Life* life : lives.all())
        if (std::string key = letters_of(life->quote.who); !key.empty())
            names[key].emplace(customer_id(life->quote.who), life->quote.who);
    std::string out;
    for (const auto& [key, written] : names) {
        std::vector<std::string> all;
        for (const auto& [id, name] : written)
            all.push_back(name);
        if (all.size() > 1)
            out += wrap(in_marks(all) +
                            fmt::format(" are {} customers here, and may be one", all.size()),
                        page_width) +
                   "\n";
    }
    return out;
}

std::string days_to_come(const BookPage& page) {
    std::size_t count = 0;
    std::string last;
    for (const engine::Event& event : page.lives.events())
        if (event.date > page.day) {
            ++count;
            last = std::max(last, event.date);
        }
    if (count == 0)
        return {};
    return wrap(fmt::format("not counted: {} of days after today, the last {}; `--as-of` says "
                            "another day",
                            count == 1 ? "a record" : fmt::format("{} records", count),
                            lang::day_text(last)),
                page_width) +
           "\n";
}

// A file of the book by its name, beside which something was put. What else lies in a folder, such
// as what a desktop or a file service keeps there for itself, would only hide it; `verify` lists
// all.
bool is_put_aside(const std::string& name) {
    return name.find(".json") != name.npos || name.starts_with("head") ||
           name.starts_with("texts/");
}

std::string put_aside(std::vector<std::string> strays) {
    std::erase_if(strays, [](const std::string& name) { return !is_put_aside(name); });
    if (strays.empty())
        return {};
    return wrap("files in the book's folder that are none of its own: " + in_marks(strays) +
                    "; where two machines wrote at once, a file service keeps one record and puts "
                    "the other aside under such a name",
                page_width) +
           "\n";
}

} // namespace

std::string remarks_on(const std::vector<std::string>& strays, const BookPage& page, bool today) {
    return put_aside(strays) + (today ? days_to_come(page) : "") + near_names(page.lives);
}

} // namespace acre::cli
