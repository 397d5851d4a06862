#include "cli/shared/text/page.h"

#include "cli/shared/text/style.h"
#include "cli/shared/text/wrap.h"
#include "lang/diag/glyph.h"

namespace acre::cli {

std::string heading(std::string_view text, bool color, std::size_t indent) {
    std::string out;
    for (const std::string& line : wrapped_lines(text, page_width - indent))
        out += std::string(out.empty() ? 0 : indent, ' ') + bold(line, color) + '\n';
    return out;
}

std::string not_for_the_customer(bool color) {
    return faint(firms_own, color) + '\n';
}

std::string paragraph(std::string_view text, std::string_view first) {
    return std::string(first) +
           wrap(text, page_width, first.empty() ? 0 : lang::text_columns(first)) + '\n';
}

std::string remark(std::string_view text) {
    std::string out;
    for (const std::string& line : wrapped_lines(text, page_width - 4))
        out.append(line.empty() ? 0 : out.empty() ? 2 : 4, ' ').append(line) += '\n';
    return out;
}

} // namespace acre::cli
