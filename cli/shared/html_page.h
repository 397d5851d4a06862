// What the pages for a browser or a printer share: their head, with the colors of the charts
// (cli/shared/chart/paper.h), light, dark and on paper. A page loads nothing and runs nothing.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace acre::cli {

// Up to and with <body>. The title is made safe here.
std::string html_head(std::string_view title);
std::string html_foot();

// A table of figures. On a telephone each row is a block with the heads beside its cells; the first
// `words` columns are words. Texts are made safe here.
class HtmlTable {
  public:
    HtmlTable(std::vector<std::string> heads, std::size_t words);
    void row(const std::vector<std::string>& cells);
    std::string finish() &&;

  private:
    std::vector<std::string> heads_;
    std::size_t words_;
    std::string out_;
};

} // namespace acre::cli
