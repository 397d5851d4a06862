// Dates as people write them elsewhere: 03/14/2027, 3/14/27, March 14, 2027, 2027-3-14.
#include <fmt/format.h>

#include <array>
#include <charconv>
#include <string>
#include <vector>

#include "lang/syntax/habits.h"
#include "lang/syntax/words.h"
#include "lang/units/calendar.h"

namespace acre::lang {

namespace {

struct Ymd {
    int year, month, day;
};

// Numbers and the first three letters of a word, in the order they stand in.
struct Pieces {
    std::vector<int> numbers;
    std::size_t word_at = 3; // how many numbers stand before the month in letters
    int month = 0;           // in letters; 0: none
};

int month_of(std::string_view word) {
    static constexpr auto names = std::to_array<std::string_view>(
        {"jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"});
    std::string three;
    for (const char c : word.substr(0, 3))
        three += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    for (std::size_t i = 0; i < names.size(); ++i)
        if (three == names[i])
            return static_cast<int>(i) + 1;
    return 0;
}

Pieces pieces_of(std::string_view text) {
    Pieces out;
    for (std::size_t i = 0; i < text.size() && out.numbers.size() <= 3;) {
        const std::size_t begin = i;
        while (i < text.size() && is_digit(text[i]))
            ++i;
        if (i > begin) {
            int number = 0;
            std::from_chars(text.data() + begin, text.data() + std::min(i, begin + 5), number);
            out.numbers.push_back(number);
            continue;
        }
        while (i < text.size() && is_letter(text[i]))
            ++i;
        const int month = month_of(text.substr(begin, i - begin));
        if (month != 0 && out.month == 0) {
            out.month = month;
            out.word_at = out.numbers.size();
        }
        i = std::max(i, begin + 1);
    }
    return out;
}

int full_year(int year) {
    return year < 100 ? 2000 + year : year;
}

bool exists(const Ymd& date) {
    return date.year >= 1900 && date.year <= 2999 && date.month >= 1 && date.month <= 12 &&
           date.day >= 1 && date.day <= days_in_month(date.year, date.month);
}

// One where it can only be that; two where day and month may be taken for each other.
std::vector<Ymd> readings(const Pieces& p) {
    std::vector<Ymd> out;
    const auto add = [&](const Ymd& date) {
        if (exists(date) && (out.empty() || out.front().month != date.month))
            out.push_back(date);
    };
    const std::vector<int>& n = p.numbers;
    if (p.month != 0 && n.size() == 2 && p.word_at < 2)
        add({full_year(n[1]), p.month, n[0]});
    else if (p.month == 0 && n.size() == 3 && n[0] >= 1000)
        add({n[0], n[1], n[2]});
    else if (p.month == 0 && n.size() == 3) {
        add({full_year(n[2]), n[0], n[1]});
        add({full_year(n[2]), n[1], n[0]});
    }
    return out;
}

} // namespace

Diagnostic describe_date(std::string_view text, Span written) {
    Diagnostic d{Code::S117, "a date is written year-month-day", {written, ""}, {}, {}, {}};
    const std::vector<Ymd> found = readings(pieces_of(text));
    for (const Ymd& date : found) {
        const std::string mended =
            fmt::format("{:04}-{:02}-{:02}", date.year, date.month, date.day);
        if (found.size() == 1)
            d.helps.push_back({fmt::format("write  {}", mended), Edit{written, mended}});
        else
            d.helps.push_back({fmt::format("for {}, write  {}", day_text(mended), mended), {}});
    }
    if (d.helps.empty())
        d.helps.push_back({"write it as 2027-03-14", {}});
    return d;
}

} // namespace acre::lang
