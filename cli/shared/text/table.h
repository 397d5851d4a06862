// Rows in columns for a page of 80 columns. Cells must be safe to show already.
//
// A table fits its width whatever its names and figures are. What is too wide gives way in this
// order: the column that folds, the heads, the other columns of words, and at last the table is
// parted: the columns that find no place stand below, after the first one again. Figures are never
// broken unless one alone is wider than the page.
#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <utility>
#include <vector>

namespace acre::cli {

enum class Align { Left, Right };

struct Column {
    std::string head; // may be empty
    Align align = Align::Right;
    bool folds = false; // a column of words, at the left: they fold first where it is tight
    bool sums = false;  // a rule is drawn under it
};

class Table {
  public:
    explicit Table(std::vector<Column> columns, std::size_t indent = 2)
        : columns_(std::move(columns)),
          indent_(indent) {}

    void row(std::vector<std::string> cells,
             bool bold = false); // fewer cells than columns: the rest is empty
    void note(std::string text); // words across the columns, below the row before
    void rule();                 // a line of dashes under the columns that sum up
    bool empty() const { return rows_.empty(); }

    // Every line ends with a line end, no line with a space, and none is wider than `width`, which
    // must leave 20 columns after the indent.
    std::string text(bool color = false, std::size_t width = 80) const;

  private:
    enum class Kind { Cells, Note, Rule };
    struct Row {
        Kind kind = Kind::Cells;
        std::vector<std::string> cells;
        bool bold = false;
    };
    // Columns that stand side by side, in the order of the table, with their widths.
    struct Group {
        std::vector<std::size_t> columns, widths;
    };
    std::size_t widest(std::size_t column) const;
    std::size_t longest_word(std::size_t column) const;
    std::size_t taken(const Group& group) const;
    void narrow(Group& group, std::size_t width) const;
    std::vector<Group> groups(std::size_t width) const;
    using Ink = std::function<std::string(const std::string&)>; // of a line
    void put_cells(std::string& out, const Group& group, const std::vector<std::string>& cells,
                   bool is_head, const Ink& ink) const;
    void put_rule(std::string& out, const Group& group) const;
    void put_note(std::string& out, const std::string& text, std::size_t width) const;
    void put(std::string& out, const Group& group, bool color, std::size_t width) const;

    std::vector<Column> columns_;
    std::vector<Row> rows_;
    std::size_t indent_;
};

} // namespace acre::cli
