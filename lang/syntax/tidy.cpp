#include "lang/syntax/tidy.h"

#include <algorithm>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "lang/syntax/layout.h"
#include "lang/syntax/parse.h"
#include "lang/syntax/tidy_rows.h"
#include "lang/syntax/tokens.h"

namespace acre::lang {

namespace {

constexpr std::uint32_t level_width = 2;
constexpr std::uint32_t continuation_width = 4;

std::vector<std::uint32_t> binary_minus_signs(const ast::Module& module) {
    std::vector<std::uint32_t> offsets;
    for (const ast::Expr& expr : module.exprs)
        if (const auto* binary = std::get_if<ast::Binary>(&expr.node);
            binary != nullptr && binary->op == ast::BinaryOp::Subtract)
            offsets.push_back(binary->op_span.begin);
    std::sort(offsets.begin(), offsets.end());
    return offsets;
}

class Tidier {
  public:
    Tidier(std::string_view text, const LogicalLines& layout,
           std::vector<std::uint32_t> binary_minus)
        : text_(text),
          lines_(layout.lines),
          binary_minus_(std::move(binary_minus)) {}

    std::string run() {
        std::uint32_t at = text_.starts_with("\xEF\xBB\xBF") ? 3 : 0;
        for (std::uint32_t i = 0; i < lines_.size(); ++i) {
            between(at, lines_[i].begin, i);
            statement(i);
            at = lines_[i].end;
        }
        between(at, static_cast<std::uint32_t>(text_.size()),
                static_cast<std::uint32_t>(lines_.size()));
        align(rows_);
        return joined();
    }

  private:
    std::uint32_t level(std::uint32_t index) const {
        std::uint32_t levels = 0;
        for (std::uint32_t p = lines_[index].parent; p != no_parent; p = lines_[p].parent)
            ++levels;
        return levels;
    }

    void statement(std::uint32_t index) {
        const LogicalLine& line = lines_[index];
        const Keyword parent = line.parent == no_parent ? Keyword::None : lines_[line.parent].head;
        std::vector<TidyRow> rows = rows_of(text_, line, parent, binary_minus_);
        const std::uint32_t indent = level(index) * level_width;
        for (std::size_t i = 0; i < rows.size(); ++i) {
            rows[i].indent = i == 0 ? indent : indent + continuation_width;
            rows_.push_back(std::move(rows[i]));
        }
    }

    // Comments and empty lines between two statements; `next` is the statement that follows.
    void between(std::uint32_t at, std::uint32_t end, std::uint32_t next) {
        Token t = next_token(text_, at, end);
        if (t.kind == TokenKind::Comment && !rows_.empty()) { // behind the statement above
            rows_.back().comment = trimmed(t);
            t = next_token(text_, t.end, end);
        }
        if (t.kind == TokenKind::LineEnd && !rows_.empty())
            t = next_token(text_, t.end, end);
        const std::size_t first = rows_.size();
        for (; t.kind != TokenKind::End; t = next_token(text_, t.end, end)) {
            if (t.kind == TokenKind::Comment) {
                TidyRow row;
                row.comment = trimmed(t);
                row.indent = column(t.begin); // as written, until the block is placed
                rows_.push_back(row);
                t = next_token(text_, t.end, end); // the line end of the comment
                if (t.kind == TokenKind::End)
                    break;
            } else if (!rows_.empty() && !is_empty(rows_.back())) {
                rows_.emplace_back();
            }
        }
        place_comments(first, next);
    }

    // A block of comments stands at the level of the statement that follows. The last block of an
    // indented run of statements, with an empty line behind it, stays with them.
    void place_comments(std::size_t first, std::uint32_t next) {
        const std::uint32_t next_level = next < lines_.size() ? level(next) : 0;
        const std::uint32_t next_column = next < lines_.size() ? lines_[next].indent : 0;
        const std::uint32_t last_level = next > 0 ? level(next - 1) : 0;
        for (std::size_t i = first; i < rows_.size();) {
            if (is_empty(rows_[i])) {
                ++i;
                continue;
            }
            std::size_t end = i;
            while (end < rows_.size() && !is_empty(rows_[end]))
                ++end;
            const bool apart = end < rows_.size() || next == lines_.size();
            const bool stays = next_level < last_level && apart && rows_[i].indent > next_column;
            for (; i < end; ++i)
                rows_[i].indent = (stays ? last_level : next_level) * level_width;
        }
    }

    static bool is_empty(const TidyRow& row) { return row.pieces.empty() && row.comment.empty(); }
    std::string_view trimmed(Token comment) const {
        const std::string_view s = comment.in(text_);
        return s.substr(0, s.find_last_not_of(" \t\r") + 1);
    }
    std::uint32_t column(std::uint32_t at) const {
        std::uint32_t column = 0;
        for (std::size_t i = text_.rfind('\n', at) + 1; i < at; ++i) // npos + 1 is 0
            column = text_[i] == '\t' ? (column / tab_stop + 1) * tab_stop : column + 1;
        return column;
    }

    std::string joined() const {
        std::string out;
        out.reserve(text_.size() + text_.size() / 8);
        std::size_t count = rows_.size();
        while (count > 0 && is_empty(rows_[count - 1]))
            --count;
        for (std::size_t i = 0; i < count; ++i)
            out.append(rows_[i].text).push_back('\n');
        return out;
    }

    std::string_view text_;
    const std::vector<LogicalLine>& lines_;
    std::vector<std::uint32_t> binary_minus_;
    std::vector<TidyRow> rows_;
};

} // namespace

std::optional<std::string> tidy(const SourceMap& sources, FileId file, FileKind kind,
                                Diagnostics& diagnostics) {
    Diagnostics found;
    // Of the tree nothing else is needed, and it is many times as large as the text.
    std::vector<std::uint32_t> binary_minus = binary_minus_signs(parse(sources, file, kind, found));
    const bool failed = found.has_errors();
    for (const Diagnostic& d : found.all())
        diagnostics.add(d);
    diagnostics.add_left_out(found);
    if (failed)
        return std::nullopt;
    Diagnostics again; // the layout reports nothing new
    const LogicalLines layout = lay_out(sources, file, kind, again);
    return Tidier(sources.file(file).text(), layout, std::move(binary_minus)).run();
}

} // namespace acre::lang
