// Rows in columns for a terminal of 80 columns. Cells must be safe to show already.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace acre::cli {

enum class Align { Left, Right };

struct Column {
    std::string head; // may be empty
    Align align = Align::Right;
    bool folds = false; // its words fold when the table is too wide; one column at most
    bool sums = false;  // a rule is drawn under it
};

class Table {
  public:
    explicit Table(std::vector<Column> columns, std::size_t indent = 2)
        : columns_(std::move(columns)),
          indent_(indent) {}

    void row(std::vector<std::string> cells,
             bool bold = false);  // fewer cells than columns: the rest is empty
    void title(std::string text); // a line across the columns
    void rule();                  // a line of dashes under the columns that sum up
    void blank();
    bool empty() const { return rows_.empty(); }

    // Every line ends with a line end and no line with a blank.
    std::string text(bool color = false, std::size_t width = 80) const;

  private:
    enum class Kind { Cells, Title, Rule, Blank };
    struct Row {
        Kind kind = Kind::Cells;
        std::vector<std::string> cells;
        bool bold = false;
    };
    std::vector<std::size_t> widths(std::size_t width) const;

    std::vector<Column> columns_;
    std::vector<Row> rows_;
    std::size_t indent_;
};

} // namespace acre::cli
