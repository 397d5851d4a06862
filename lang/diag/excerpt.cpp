#include "lang/diag/excerpt.h"

#include <algorithm>

#include "lang/diag/glyph.h"
#include "lang/diag/safe_text.h"
#include "lang/source/utf8.h"

namespace acre::lang {
namespace {

constexpr std::size_t tab = 4;
constexpr std::string_view cut_mark = "...";
// Bytes of a line that are looked at around its first label; more cannot be seen anyway.
constexpr std::size_t bytes_before = 400;
constexpr std::size_t bytes_in_all = 2000;

struct Mark {
    std::size_t begin = 0; // columns
    std::size_t end = 0;
    std::string text;
    bool primary = false;
};

// The line as it is drawn, and the column where each of its bytes stands.
struct Drawn {
    std::string text;
    std::size_t first_byte = 0;
    std::vector<std::size_t> columns; // of the bytes from first_byte on, and one past the last
    bool more_before = false, more_after = false;

    std::size_t column(std::size_t byte) const {
        const std::size_t i = byte < first_byte ? 0 : byte - first_byte;
        return columns[std::min(i, columns.size() - 1)];
    }
};

Drawn draw(std::string_view line, std::size_t focus) {
    Drawn out;
    std::size_t end = line.size();
    if (line.size() > bytes_in_all) {
        out.first_byte = focus > bytes_before ? focus - bytes_before : 0;
        while (out.first_byte < line.size() && out.first_byte > 0 &&
               continues_character(line[out.first_byte]))
            ++out.first_byte;
        end = std::min(line.size(), out.first_byte + bytes_in_all);
        out.more_before = out.first_byte > 0;
        out.more_after = end < line.size();
    }
    std::size_t column = 0;
    for (std::size_t at = out.first_byte; at < end;) {
        const Glyph glyph = glyph_at(line, at);
        const std::size_t columns = glyph.tab ? tab - column % tab : glyph.columns;
        out.columns.insert(out.columns.end(), glyph.bytes, column);
        if (glyph.tab)
            out.text.append(columns, ' ');
        else
            out.text += terminal_text(line.substr(at, glyph.bytes));
        column += columns;
        at += glyph.bytes;
    }
    out.columns.push_back(column);
    return out;
}

// Columns [from, to) of a drawn text.
std::string_view slice(std::string_view text, std::size_t from, std::size_t to) {
    std::size_t column = 0;
    std::size_t begin = std::string_view::npos;
    std::size_t at = 0;
    for (; at < text.size() && column < to;) {
        if (column >= from && begin == std::string_view::npos)
            begin = at;
        const Glyph glyph = glyph_at(text, at);
        column += glyph.columns;
        at += glyph.bytes;
    }
    return begin == std::string_view::npos ? std::string_view{} : text.substr(begin, at - begin);
}

// Cuts the drawn line and its marks to `width` columns around the primary mark.
std::string fit(const Drawn& drawn, std::vector<Mark>& marks, std::size_t width) {
    const std::size_t whole = drawn.columns.back();
    if (whole <= width && !drawn.more_before && !drawn.more_after)
        return drawn.text;
    const std::size_t room = width > 2 * cut_mark.size() + 10 ? width - 2 * cut_mark.size() : 10;
    const auto primary =
        std::find_if(marks.begin(), marks.end(), [](const Mark& m) { return m.primary; });
    const Mark& focus = primary == marks.end() ? marks.front() : *primary;
    std::size_t first = focus.begin;
    std::size_t last = focus.end;
    for (const Mark& mark : marks) { // all marks if they fit together, else the focus alone
        if (std::max(last, mark.end) - std::min(first, mark.begin) <= room) {
            first = std::min(first, mark.begin);
            last = std::max(last, mark.end);
        }
    }
    const std::size_t spare = last - first < room ? room - (last - first) : 0;
    const std::size_t lead =
        std::max(spare / 2, spare > 24 ? spare - 24 : 0); // most of it before: labels stand after
    std::size_t from = first > lead ? first - lead : 0;
    from = std::min(from, whole > room ? whole - room : 0);
    const bool before = drawn.more_before || from > 0;
    const bool after = drawn.more_after || whole > from + room;
    std::string text = before ? std::string(cut_mark) : std::string();
    text += slice(drawn.text, from, from + room);
    if (after)
        text += cut_mark;
    const std::size_t shift = before ? cut_mark.size() : 0;
    for (Mark& mark : marks) {
        const auto moved = [&](std::size_t column) {
            return column < from ? 0 : std::min(column - from, room) + shift;
        };
        mark.begin = moved(mark.begin);
        mark.end = std::max(moved(mark.end), mark.begin + 1);
    }
    return text;
}

Row mark_row(const std::vector<Mark>& marks, Ink primary_ink) {
    std::size_t end = 0;
    for (const Mark& mark : marks)
        end = std::max(end, mark.end);
    std::string drawn(end, ' ');
    for (const bool primary : {false, true})
        for (const Mark& mark : marks)
            if (mark.primary == primary)
                std::fill(drawn.begin() + static_cast<std::ptrdiff_t>(mark.begin),
                          drawn.begin() + static_cast<std::ptrdiff_t>(mark.end),
                          primary ? '^' : '.');
    Row row;
    for (std::size_t at = 0; at < drawn.size();) {
        const std::size_t next = std::min(drawn.find_first_not_of(drawn[at], at), drawn.size());
        if (drawn[at] != ' ')
            row.push_back(
                {at, drawn.substr(at, next - at), drawn[at] == '^' ? primary_ink : Ink::Mark});
        at = next;
    }
    return row;
}

// The rows of texts under the marks, right ones first, with dots down to those that follow.
void hang(std::vector<Mark> pending, Ink primary_ink, std::vector<Row>& rows) {
    const auto ink = [&](const Mark& mark) { return mark.primary ? primary_ink : Ink::Mark; };
    while (!pending.empty()) {
        Row row;
        std::vector<Mark> later;
        auto limit = static_cast<std::size_t>(-1); // columns from here on are taken
        for (; !pending.empty(); pending.pop_back()) {
            Mark& mark = pending.back();
            if (later.empty() &&
                (row.empty() || mark.begin + text_columns(mark.text) + 2 <= limit)) {
                row.push_back({mark.begin, mark.text, ink(mark)});
                limit = mark.begin;
                continue;
            }
            if (mark.begin < limit) {
                row.push_back({mark.begin, ":", ink(mark)});
                limit = mark.begin;
            }
            later.push_back(std::move(mark));
        }
        std::reverse(row.begin(), row.end());
        std::reverse(later.begin(), later.end());
        rows.push_back(std::move(row));
        pending = std::move(later);
    }
}

} // namespace

std::vector<Row> draw_line(std::string_view line, std::vector<LineLabel> labels, std::size_t width,
                           Ink primary_ink) {
    const auto primary =
        std::find_if(labels.begin(), labels.end(), [](const LineLabel& l) { return l.primary; });
    const Drawn drawn = draw(
        line, std::min(line.size(), (primary == labels.end() ? labels.front() : *primary).begin));
    std::vector<Mark> marks;
    marks.reserve(labels.size());
    for (LineLabel& label : labels) {
        const std::size_t begin = drawn.column(label.begin);
        marks.push_back({begin, std::max(drawn.column(label.end), begin + 1), std::move(label.text),
                         label.primary});
    }
    std::stable_sort(marks.begin(), marks.end(),
                     [](const Mark& a, const Mark& b) { return a.begin < b.begin; });

    std::vector<Row> rows;
    rows.push_back({{0, fit(drawn, marks, width), Ink::Plain}});
    rows.push_back(mark_row(marks, primary_ink));
    // The rightmost text stands beside its mark when nothing is marked further right.
    std::size_t right = 0;
    for (const Mark& mark : marks)
        right = std::max(right, mark.end);
    Mark& last = marks.back();
    if (last.end == right && !last.text.empty() &&
        right + 1 + text_columns(last.text) <= std::max(width, right + 20)) {
        rows.back().push_back(
            {right + 1, std::move(last.text), last.primary ? primary_ink : Ink::Mark});
        last.text.clear();
    }
    marks.erase(
        std::remove_if(marks.begin(), marks.end(), [](const Mark& m) { return m.text.empty(); }),
        marks.end());
    hang(std::move(marks), primary_ink, rows);
    return rows;
}

} // namespace acre::lang
