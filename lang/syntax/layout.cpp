#include "lang/syntax/layout.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstring>

#include "lang/source/utf8.h"
#include "lang/syntax/characters.h"
#include "lang/syntax/parse.h"
#include "lang/units/number_text.h"

namespace acre::lang {

namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

// One physical line: where its content stands, without comment and blanks around.
struct Physical {
    std::uint32_t begin = 0;
    std::uint32_t end = 0;
    std::uint32_t indent = 0;
};

bool is_blank(char c) {
    return c == ' ' || c == '\t' || c == '\r';
}

// Where a `#` outside quotes begins a comment; the end of the line if nowhere.
const char* find_comment(const char* begin, const char* end) {
    const auto* sign =
        static_cast<const char*>(std::memchr(begin, '#', static_cast<std::size_t>(end - begin)));
    if (sign == nullptr)
        return end;
    bool quoted = false;
    for (const char* p = begin; p != end; ++p)
        if (*p == '"')
            quoted = !quoted;
        else if (*p == '#' && !quoted)
            return p;
    return end;
}

class Layouter {
  public:
    Layouter(std::string_view text, FileId file, FileKind kind, Diagnostics& diagnostics)
        : text_(text),
          file_(file),
          lists_entries_(kind == FileKind::Job || kind == FileKind::Values),
          diagnostics_(diagnostics) {}

    std::vector<LogicalLine> run(const std::vector<std::uint32_t>& unwanted) {
        lines_.reserve(text_.size() / 32 + 1);
        const char* const base = text_.data();
        const char* const end = base + text_.size();
        std::size_t next_unwanted = 0;
        const char* p = text_.starts_with(byte_order_mark) ? base + byte_order_mark.size() : base;
        while (p != end) {
            const auto* line_end =
                static_cast<const char*>(std::memchr(p, '\n', static_cast<std::size_t>(end - p)));
            if (line_end == nullptr)
                line_end = end;
            const bool placed = place(trimmed(p, line_end));
            const auto limit = static_cast<std::uint32_t>(line_end - base);
            for (; next_unwanted < unwanted.size() && unwanted[next_unwanted] < limit;
                 ++next_unwanted)
                if (placed)
                    lines_[current_].damaged = true;
            p = line_end == end ? end : line_end + 1;
        }
        return std::move(lines_);
    }

  private:
    Physical trimmed(const char* begin, const char* end) const {
        std::uint32_t indent = 0;
        const char* p = begin;
        for (; p != end && is_blank(*p); ++p)
            indent = *p == '\t' ? (indent / tab_stop + 1) * tab_stop : indent + 1;
        const char* last = find_comment(p, end);
        while (last != p && is_blank(last[-1]))
            --last;
        return {offset(p), offset(last), indent};
    }

    // Gives a line of text its place. False for a line without content.
    bool place(Physical line) {
        if (line.begin == line.end)
            return false;
        while (!open_.empty() && lines_[open_.back()].indent >= line.indent)
            open_.pop_back();
        if (!open_.empty()) {
            LogicalLine& above = lines_[open_.back()];
            if (!has_inner_lines(above.head) ||
                (above.inner_indent == 0 && continues(above, line))) {
                above.end = line.end;
                if (has_inner_lines(above.head))
                    look_at_end(above, line);
                current_ = open_.back();
                return true;
            }
            check_indent(above.inner_indent, line);
        } else {
            std::uint32_t margin = 0;
            if (line.indent > 0)
                check_indent(margin, line);
        }
        LogicalLine statement;
        statement.begin = line.begin;
        statement.end = line.end;
        statement.indent = line.indent;
        statement.parent = open_.empty() ? no_parent : open_.back();
        statement.head = head_of(line);
        if (has_inner_lines(statement.head))
            look_at_end(statement, line);
        current_ = static_cast<std::uint32_t>(lines_.size());
        lines_.push_back(statement);
        open_.push_back(current_);
        return true;
    }

    // Inner lines of one statement, and all lines at the margin, begin in one column.
    void check_indent(std::uint32_t& wanted, Physical line) {
        if (wanted != line.indent && (wanted != 0 || open_.empty())) {
            Diagnostic d{Code::S115,
                         "the indentation matches no line above",
                         {{file_, line.begin, line.end}, ""},
                         {},
                         {},
                         {}};
            d.helps.push_back(
                {open_.empty()
                     ? std::string("start the line at the margin, or indent it below its statement")
                     : fmt::format("indent it by {} spaces, like the line above", wanted),
                 Edit{{file_, line_begin(line.begin), line.begin}, std::string(wanted, ' ')}});
            diagnostics_.add(std::move(d));
        }
        wanted = line.indent;
    }

    bool continues(const LogicalLine& above, Physical line) const {
        if (above.open_brackets > 0 || above.unfinished)
            return true;
        const char* p = text_.data() + line.begin;
        const char* end = text_.data() + line.end;
        if (!is_letter(*p))
            return *p == '"' || above.head != Keyword::Table;
        const char* word_end = end_of_word(p, end);
        const WordRole role = role_of(keyword_of({p, static_cast<std::size_t>(word_end - p)}));
        return (role == WordRole::Joint || role == WordRole::Free) && !names_a_line(word_end, end);
    }

    // What the next line needs to know about a statement with inner lines: has it come to an end?
    void look_at_end(LogicalLine& statement, Physical line) const {
        const char* const begin = text_.data() + line.begin;
        const char* const end = text_.data() + line.end;
        const char* word = end;
        while (word != begin && is_name_char(word[-1]))
            --word;
        statement.unfinished =
            word == end ? std::string_view("=,+-*/^<>|(:.").find(end[-1]) != std::string_view::npos
                        : role_of(keyword_of({word, static_cast<std::size_t>(end - word)})) ==
                              WordRole::Joint;
        count_brackets(statement, line);
    }

    void count_brackets(LogicalLine& statement, Physical line) const {
        bool quoted = false;
        for (std::uint32_t i = line.begin; i < line.end; ++i) {
            const char c = text_[i];
            if (c == '"')
                quoted = !quoted;
            else if (!quoted && c == '(')
                ++statement.open_brackets;
            else if (!quoted && c == ')' && statement.open_brackets > 0)
                --statement.open_brackets;
        }
    }

    // A word before `:` or `=` is meant as a name, whatever word it is.
    static bool names_a_line(const char* p, const char* end) {
        while (p != end && is_blank(*p))
            ++p;
        return p != end && (*p == ':' || (*p == '=' && (end - p == 1 || p[1] != '=')));
    }

    Keyword head_of(Physical line) const {
        const char* p = text_.data() + line.begin;
        const char* end = text_.data() + line.end;
        const char* word_end = end_of_word(p, end);
        const Keyword word = keyword_of({p, static_cast<std::size_t>(word_end - p)});
        if (word == Keyword::None && lists_entries_ && open_.empty() && is_entry(p, end))
            return Keyword::Entry;
        return word != Keyword::None && names_a_line(word_end, end) ? Keyword::None : word;
    }

    // Two names, and nothing behind them but a text: an entry of a list.
    static bool is_entry(const char* p, const char* end) {
        for (int word = 0; word < 2; ++word) {
            const char* const word_end = end_of_word(p, end);
            if (word_end == p)
                return false;
            p = word_end;
            while (p != end && is_blank(*p))
                ++p;
            if (word == 0 && p == word_end)
                return false;
        }
        return p == end || (*p == '"' && std::find(p + 1, end, '"') + 1 >= end);
    }

    std::uint32_t offset(const char* p) const {
        return static_cast<std::uint32_t>(p - text_.data());
    }
    std::uint32_t line_begin(std::uint32_t at) const {
        const std::size_t before = text_.rfind('\n', at);
        return before == std::string_view::npos ? 0 : static_cast<std::uint32_t>(before + 1);
    }

    std::string_view text_;
    FileId file_;
    bool lists_entries_; // a job and a file of values do
    Diagnostics& diagnostics_;
    std::vector<LogicalLine> lines_;
    std::vector<std::uint32_t>
        open_; // the statements that a deeper line may belong to, outermost first
    std::uint32_t current_ = 0;
};

} // namespace

LogicalLines lay_out(const SourceMap& sources, FileId file, FileKind kind,
                     Diagnostics& diagnostics) {
    const std::string_view text = sources.file(file).text();
    if (text.size() > max_file_bytes) {
        diagnostics.add({Code::S118,
                         fmt::format("the file has {} bytes, more than the limit of {}",
                                     number_text(static_cast<double>(text.size())),
                                     number_text(max_file_bytes)),
                         {{file, 0, 0}, ""},
                         {},
                         {},
                         {}});
        return {};
    }
    const CharacterScan scan = scan_characters(text);
    if (scan.invalid_at != CharacterScan::none) {
        const std::uint32_t at = scan.invalid_at;
        diagnostics.add(
            {Code::F703,
             fmt::format("the file is not UTF-8 text: byte {} at offset {}",
                         fmt::format("0x{:02X}", static_cast<unsigned char>(text[at])), at),
             {{file, at, at}, ""},
             {},
             {},
             {}});
        return {};
    }
    const auto after = [text](std::size_t at) {
        next_character(text, at);
        return static_cast<std::uint32_t>(at);
    };
    for (const std::uint32_t at : scan.unwanted)
        diagnostics.add({Code::S100,
                         "invisible character",
                         {{file, at, after(at)}, "shows nothing"},
                         {},
                         {},
                         {{"delete it", Edit{{file, at, after(at)}, ""}}}});
    return {Layouter(text, file, kind, diagnostics).run(scan.unwanted), true};
}

} // namespace acre::lang
