#include "cli/shared/text/table.h"

#include <algorithm>

#include "cli/shared/text/style.h"
#include "cli/shared/text/wrap.h"
#include "lang/diag/glyph.h"

namespace acre::cli {

namespace {

constexpr std::size_t gap = 2;
constexpr std::size_t least_folded = 16;

std::size_t columns_of(const std::string& text) {
    return text.empty() ? 0 : lang::text_columns(text);
}

// The lines of a cell in a column that folds: blanks before its words stay before every line.
std::vector<std::string> folded_cell(const std::string& cell, std::size_t width) {
    const std::size_t blanks = std::min(cell.find_first_not_of(' '), cell.size());
    std::vector<std::string> lines = wrapped_lines(cell, width - std::min(blanks, width - 1));
    for (std::string& line : lines)
        line.insert(0, blanks, ' ');
    return lines;
}

void end_line(std::string& out) {
    while (!out.empty() && out.back() == ' ')
        out.pop_back();
    out += '\n';
}

} // namespace

void Table::row(std::vector<std::string> cells, bool bold) {
    cells.resize(columns_.size());
    rows_.push_back({Kind::Cells, std::move(cells), bold});
}
void Table::title(std::string text) {
    rows_.push_back({Kind::Title, {std::move(text)}, true});
}
void Table::rule() {
    rows_.push_back({Kind::Rule, {}, false});
}
void Table::blank() {
    rows_.push_back({Kind::Blank, {}, false});
}

std::vector<std::size_t> Table::widths(std::size_t width) const {
    std::vector<std::size_t> widths;
    std::size_t total = indent_;
    for (std::size_t c = 0; c < columns_.size(); ++c) {
        std::size_t widest = columns_of(columns_[c].head);
        for (const Row& row : rows_)
            widest = row.kind == Kind::Cells ? std::max(widest, columns_of(row.cells[c])) : widest;
        widths.push_back(widest);
        total += widest + (c > 0 ? gap : 0);
    }
    for (std::size_t c = 0; c < columns_.size() && total > width; ++c) {
        if (columns_[c].folds) {
            const std::size_t over =
                std::min(total - width, widths[c] - std::min(widths[c], least_folded));
            widths[c] -= over;
            total -= over;
        }
    }
    return widths;
}

std::string Table::text(bool color, std::size_t width) const {
    const std::vector<std::size_t> widths = this->widths(width);
    std::string out;
    const auto put_cells = [&](const std::vector<std::string>& cells, bool is_bold, bool is_head) {
        std::vector<std::vector<std::string>> lines;
        std::size_t height = 1;
        for (std::size_t c = 0; c < cells.size(); ++c) {
            lines.push_back(columns_[c].folds ? folded_cell(cells[c], widths[c])
                                              : std::vector<std::string>{cells[c]});
            height = std::max(height, lines.back().size());
        }
        for (std::size_t l = 0; l < height; ++l) {
            std::string line(indent_, ' ');
            for (std::size_t c = 0; c < cells.size(); ++c) {
                const std::string& cell = l < lines[c].size() ? lines[c][l] : std::string();
                line.append(c > 0 ? gap : 0, ' ');
                line += columns_[c].align == Align::Left ? padded(cell, widths[c])
                                                         : right_aligned(cell, widths[c]);
            }
            end_line(line);
            line.pop_back();
            out += is_head ? faint(line, color) : is_bold ? bold(line, color) : line;
            out += '\n';
        }
    };
    if (std::any_of(columns_.begin(), columns_.end(),
                    [](const Column& column) { return !column.head.empty(); })) {
        std::vector<std::string> heads;
        for (const Column& column : columns_)
            heads.push_back(column.head);
        put_cells(heads, false, true);
    }
    for (const Row& row : rows_) {
        switch (row.kind) {
        case Kind::Cells:
            put_cells(row.cells, row.bold, false);
            break;
        case Kind::Title:
            out += std::string(indent_, ' ') + bold(row.cells[0], color) + "\n";
            break;
        case Kind::Blank:
            out += '\n';
            break;
        case Kind::Rule: {
            std::string line(indent_, ' ');
            for (std::size_t c = 0; c < columns_.size(); ++c) {
                line.append(c > 0 ? gap : 0, ' ');
                line += std::string(widths[c], columns_[c].sums ? '-' : ' ');
            }
            end_line(line);
            out += line;
            break;
        }
        }
    }
    return out;
}

} // namespace acre::cli
