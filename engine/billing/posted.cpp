#include "engine/billing/posted.h"

#include <algorithm>
#include <array>
#include <map>
#include <tuple>

#include <fmt/format.h>

#include "engine/log/csv_table.h"
#include "engine/log/log_cells.h"
#include "lang/units/calendar.h"
#include "lang/units/number_text.h"

namespace acre::engine {
namespace {

using lang::Code;

constexpr std::array<std::string_view, 4> heads = {"week", "product", "price", "source"};
constexpr std::size_t max_posted_columns = 20;
constexpr double most_a_gallon = 1'000;

class Reader {
  public:
    Reader(CsvTable table, bool semicolons, lang::Diagnostics& said)
        : table_(std::move(table)),
          semicolons_(semicolons),
          said_(said) {}

    std::optional<PostedPrices> read() {
        columns();
        if (failed_)
            return std::nullopt;
        for (std::size_t i = 1; i < table_.rows.size(); ++i)
            row(table_.rows[i]);
        if (failed_)
            return std::nullopt;
        std::sort(rows_.begin(), rows_.end(), [](const Row& a, const Row& b) {
            return std::tie(a.price.product, a.price.first) <
                   std::tie(b.price.product, b.price.first);
        });
        PostedPrices prices;
        for (std::size_t i = 0; i < rows_.size(); ++i) {
            const PostedPrice& one = rows_[i].price;
            if (i > 0 && rows_[i - 1].price.product == one.product &&
                one.first < rows_[i - 1].price.first + 7)
                error(rows_[i].span, "week",
                      fmt::format("this week and that of {} overlap",
                                  lang::day_text(rows_[i - 1].price.week)),
                      "a product has one price a week");
            prices.products.insert(one.product);
            prices.rows.push_back(one);
        }
        if (failed_)
            return std::nullopt;
        return prices;
    }

  private:
    struct Row {
        PostedPrice price;
        lang::Span span;
    };
    CsvTable table_;
    bool semicolons_, american_ = false, failed_ = false;
    lang::Diagnostics& said_;
    std::map<std::string_view, std::size_t> column_;
    std::vector<Row> rows_;

    void error(lang::Span span, std::string_view head, const std::string& title,
               std::string label) {
        failed_ = true;
        said_.add({Code::J005,
                   fmt::format("column `{}`: {}", head, title),
                   {span, std::move(label)},
                   {},
                   {},
                   {}});
    }

    void columns() {
        const CsvRow& head = table_.rows[0];
        for (std::size_t i = 0; i < head.size(); ++i) {
            std::string name = plain_word(head[i].text);
            if (name.starts_with("week ") && is_american_date("date" + name.substr(4))) {
                american_ = true;
                name = "week";
            }
            const auto* known = std::find(heads.begin(), heads.end(), name);
            if (known == heads.end())
                error(head[i].span, head[i].text, "unknown column of posted prices",
                      "the columns are week, product, price and source");
            else if (!column_.emplace(*known, i).second)
                error(head[i].span, head[i].text, "it appears twice", "again");
        }
        for (const std::string_view name : heads)
            if (!column_.contains(name) && !failed_)
                error(head[0].span, name, "the posted prices do not have it",
                      "the first row must name it");
    }

    void row(const CsvRow& cells) {
        if (cells.size() != table_.rows[0].size())
            return error(cells.back().span, table_.rows[0].back().text,
                         fmt::format("this row has {} cells, the first row names {}", cells.size(),
                                     table_.rows[0].size()),
                         "the last one");
        const auto cell = [&](std::string_view head) -> const CsvCell& {
            return cells[column_.at(head)];
        };
        Row row;
        row.span = cell("week").span;
        const auto week = day_in(cell("week").text, american_);
        if (!week)
            return error(row.span, "week", "no such date",
                         american_ ? "write it as 3/14/2027" : "write it as 2027-03-14");
        row.price.week = *week;
        row.price.first = *lang::day_number(*week);
        row.price.product = plain_word(cell("product").text);
        row.price.source = cell("source").text;
        const auto price = figure_in(cell("price").text, semicolons_);
        if (!price || !(*price > 0) || *price > most_a_gallon)
            error(cell("price").span, "price", "a price a gallon is needed here",
                  price ? "no such price" : "not a number");
        else
            row.price.price = *price;
        if (row.price.product.empty())
            error(cell("product").span, "product", "which fuel is it?", "empty");
        if (row.price.source.empty())
            error(cell("source").span, "source", "a posted price needs its source", "empty");
        rows_.push_back(std::move(row));
    }
};

} // namespace

const PostedPrice* PostedPrices::find(std::string_view product, long day) const {
    const auto after =
        std::upper_bound(rows.begin(), rows.end(), std::pair(product, day),
                         [](const auto& wanted, const PostedPrice& row) {
                             return std::pair<std::string_view, long>(wanted) <
                                    std::pair<std::string_view, long>(row.product, row.first);
                         });
    if (after == rows.begin())
        return nullptr;
    const PostedPrice& row = *std::prev(after);
    return row.product == product && day < row.first + 7 ? &row : nullptr;
}

lang::Outcome<PostedPrices> read_posted(std::string name, std::string text) {
    auto sources = std::make_shared<lang::SourceMap>();
    const lang::FileId file = sources->add(std::move(name), std::move(text));
    const std::string_view read = sources->file(file).text();
    const char between = between_cells(read);
    CsvTable table = read_csv(read, file, max_posted_rows, max_posted_columns, between);
    lang::Said said;
    std::string fault;
    if (table.too_many_rows)
        fault = fmt::format("the posted prices have more than {} rows",
                            lang::number_text(max_posted_rows));
    else if (!table.well_formed)
        fault = "the posted prices are not valid CSV: a quote has no match";
    else if (table.rows.size() < 2)
        fault = "the posted prices have no rows below their first line";
    if (fault.empty()) {
        auto prices = Reader(std::move(table), between == ';', said.diagnostics).read();
        if (prices)
            return std::move(*prices);
    } else {
        const auto end = static_cast<std::uint32_t>(read.size());
        const std::uint32_t at = table.well_formed ? 0 : std::min(table.end.begin, end);
        said.diagnostics.add(
            {Code::J005, std::move(fault), {{file, at, std::min(at + 1, end)}, ""}, {}, {}, {}});
    }
    said.sources = std::move(sources);
    return said;
}

} // namespace acre::engine
