#include "cli/shared/text/table.h"

#include <algorithm>
#include <numeric>

#include "cli/shared/text/style.h"
#include "cli/shared/text/wrap.h"
#include "lang/diag/glyph.h"

namespace acre::cli {

namespace {

constexpr std::size_t gap = 2;
constexpr std::size_t least_folded = 16; // of the column that folds, before others give way
constexpr std::size_t least_words = 8;   // of any column of words
constexpr std::size_t note_indent = 4;   // after the indent of the table
constexpr std::size_t most_words = 16;   // of a column whose words are long: they are broken

std::size_t columns_of(std::string_view text) {
    return text.empty() ? 0 : lang::text_columns(text);
}

std::size_t longest_word_of(std::string_view text) {
    std::size_t longest = 0;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find(' '), text.size());
        longest = std::max(longest, columns_of(text.substr(0, end)));
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return longest;
}

// The lines of a cell: spaces before its words stay before every line.
std::vector<std::string> folded_cell(const std::string& cell, std::size_t width) {
    if (columns_of(cell) <= width)
        return {cell};
    const std::size_t blanks = std::min(cell.find_first_not_of(' '), width / 2);
    std::vector<std::string> lines = wrapped_lines(cell, width - blanks);
    for (std::string& line : lines)
        line.insert(0, blanks, ' ');
    return lines;
}

void end_line(std::string& out) {
    out.erase(out.find_last_not_of(' ') + 1);
    out += '\n';
}

} // namespace

void Table::row(std::vector<std::string> cells, bool bold) {
    cells.resize(columns_.size());
    rows_.push_back({Kind::Cells, std::move(cells), bold});
}
void Table::note(std::string text) {
    rows_.push_back({Kind::Note, {std::move(text)}, false});
}
void Table::rule() {
    rows_.push_back({Kind::Rule, {}, false});
}

// Of the cells of a column, without its head.
std::size_t Table::widest(std::size_t column) const {
    std::size_t widest = 0;
    for (const Row& row : rows_)
        if (row.kind == Kind::Cells)
            widest = std::max(widest, columns_of(row.cells[column]));
    return widest;
}

std::size_t Table::longest_word(std::size_t column) const {
    std::size_t longest = longest_word_of(columns_[column].head);
    for (const Row& row : rows_)
        if (row.kind == Kind::Cells)
            longest = std::max(longest, longest_word_of(row.cells[column]));
    return longest;
}

std::size_t Table::taken(const Group& group) const {
    return std::accumulate(group.widths.begin(), group.widths.end(),
                           indent_ + gap * (group.widths.size() - 1));
}

// Takes from the widths what is too much, in the order that the header tells; figures stay whole.
void Table::narrow(Group& group, std::size_t width) const {
    const auto give = [&](std::size_t i, std::size_t least) {
        const std::size_t all = taken(group);
        if (all > width && group.widths[i] > least)
            group.widths[i] -= std::min(all - width, group.widths[i] - least);
    };
    const std::size_t count = group.columns.size();
    const auto words = [&](std::size_t i) {
        return columns_[group.columns[i]].align == Align::Left;
    };
    const auto folds = [&](std::size_t i) { return words(i) && columns_[group.columns[i]].folds; };
    for (std::size_t i = 0; i < count; ++i)
        if (folds(i))
            give(i, least_folded);
    if (taken(group) <= width)
        return;
    for (std::size_t i = 0; i < count; ++i)
        give(i,
             std::max(widest(group.columns[i]), longest_word_of(columns_[group.columns[i]].head)));
    for (const bool those_that_fold : {false, true})
        for (std::size_t i = 0; i < count && taken(group) > width; ++i)
            if (words(i) && folds(i) == those_that_fold)
                give(i, std::clamp(longest_word(group.columns[i]), least_words, most_words));
}

std::vector<Table::Group> Table::groups(std::size_t width) const {
    std::vector<std::size_t> natural;
    for (std::size_t c = 0; c < columns_.size(); ++c)
        natural.push_back(std::max(columns_of(columns_[c].head), widest(c)));
    std::vector<Group> groups;
    const auto with = [&](const Group& group, std::size_t column) {
        Group more = group;
        more.columns.push_back(column);
        more.widths.clear();
        for (const std::size_t c : more.columns)
            more.widths.push_back(natural[c]);
        narrow(more, width);
        return more;
    };
    for (std::size_t c = 0; c < columns_.size(); ++c) {
        Group more = with(groups.empty() ? Group() : groups.back(), c);
        if (!groups.empty() && (taken(more) <= width || groups.back().columns.size() < 2)) {
            groups.back() = std::move(more);
            continue;
        }
        groups.push_back(c == 0 ? std::move(more) : with(Group{{0}, {}}, c));
    }
    // A figure that is wider than the page by itself is broken after all.
    for (Group& group : groups) {
        for (std::size_t all = taken(group); all > width; all = taken(group)) {
            auto widest = std::max_element(group.widths.begin(), group.widths.end());
            if (*widest == 1)
                break;
            *widest -= std::min(all - width, std::max<std::size_t>(1, *widest / 2));
        }
    }
    return groups;
}

void Table::put_cells(std::string& out, const Group& group, const std::vector<std::string>& cells,
                      bool is_head, const Ink& ink) const {
    std::vector<std::vector<std::string>> lines;
    std::size_t height = 1;
    for (std::size_t i = 0; i < group.columns.size(); ++i) {
        lines.push_back(folded_cell(cells[group.columns[i]], group.widths[i]));
        height = std::max(height, lines.back().size());
    }
    for (std::size_t l = 0; l < height; ++l) {
        std::string line(indent_, ' ');
        for (std::size_t i = 0; i < lines.size(); ++i) {
            // Heads stand down on what they are the heads of.
            const std::size_t from = is_head ? height - lines[i].size() : 0;
            const std::string cell =
                l >= from && l - from < lines[i].size() ? lines[i][l - from] : std::string();
            line.append(i > 0 ? gap : 0, ' ');
            line += columns_[group.columns[i]].align == Align::Left
                        ? padded(cell, group.widths[i])
                        : right_aligned(cell, group.widths[i]);
        }
        end_line(line);
        line.pop_back();
        out += ink(line) + '\n';
    }
}

void Table::put_rule(std::string& out, const Group& group) const {
    std::string line(indent_, ' ');
    for (std::size_t i = 0; i < group.columns.size(); ++i)
        line.append(i > 0 ? gap : 0, ' ')
            .append(group.widths[i], columns_[group.columns[i]].sums ? '-' : ' ');
    end_line(line);
    out += line;
}

// Its further lines a little further in.
void Table::put_note(std::string& out, const std::string& text, std::size_t width) const {
    std::size_t indent = indent_ + note_indent;
    for (const std::string& line : wrapped_lines(text, width - indent - gap)) {
        out.append(line.empty() ? 0 : indent, ' ').append(line) += '\n';
        indent = indent_ + note_indent + gap;
    }
}

void Table::put(std::string& out, const Group& group, bool color, std::size_t width) const {
    const bool is_first = out.empty(); // of the groups
    std::vector<std::string> heads;
    for (const Column& column : columns_)
        heads.push_back(column.head);
    if (std::any_of(group.columns.begin(), group.columns.end(),
                    [&](std::size_t c) { return !heads[c].empty(); }))
        put_cells(out, group, heads, true, [&](auto& line) { return faint(line, color); });
    for (const Row& row : rows_) {
        switch (row.kind) {
        case Kind::Cells:
            put_cells(out, group, row.cells, false,
                      [&](auto& line) { return bold(line, color && row.bold); });
            break;
        case Kind::Note:
            if (is_first)
                put_note(out, row.cells[0], width);
            break;
        case Kind::Rule:
            put_rule(out, group);
            break;
        }
    }
}

std::string Table::text(bool color, std::size_t width) const {
    std::string out;
    for (const Group& group : groups(width)) {
        out += out.empty() ? "" : "\n";
        put(out, group, color, width);
    }
    return out;
}

} // namespace acre::cli
