#include "lang/diag/render.h"

#include <algorithm>
#include <map>
#include <vector>

#include <fmt/format.h>

#include "lang/diag/excerpt.h"
#include "lang/diag/glyph.h"
#include "lang/diag/safe_text.h"

namespace acre::lang {
namespace {

// Texts are short by custom; these hold where a stranger's names are not.
constexpr std::size_t longest_title = 300;
constexpr std::size_t longest_label = 80;
constexpr std::size_t longest_note = 1200;

std::string_view colour_of(Ink ink) {
    switch (ink) {
    case Ink::Plain:
        return "";
    case Ink::Title:
        return "\x1b[1m";
    case Ink::Error:
        return "\x1b[1;31m";
    case Ink::Warning:
        return "\x1b[1;33m";
    case Ink::Mark:
        return "\x1b[36m";
    case Ink::Gutter:
        return "\x1b[34m";
    }
    return "";
}

std::string shortened(std::string_view text, std::size_t limit) {
    // Cut before it is drawn: a text of megabytes is not walked through.
    std::string out = terminal_text(text.substr(0, 4 * limit));
    if (text.size() <= 4 * limit && out.size() <= limit)
        return out;
    std::size_t at = 0;
    std::size_t columns = 0;
    while (at < out.size() && columns < limit) {
        const Glyph glyph = glyph_at(out, at);
        columns += glyph.columns;
        at += glyph.bytes;
    }
    if (at < out.size() || text.size() > 4 * limit) {
        out.resize(at);
        out += "...";
    }
    return out;
}

class Drawing {
  public:
    Drawing(const SourceMap& sources, RenderStyle style) : sources_(sources), style_(style) {}

    std::string draw(const Diagnostic& d) {
        const bool error = d.severity() == Severity::Error;
        primary_ink_ = error ? Ink::Error : Ink::Warning;
        put(fmt::format("{}[{}]", error ? "error" : "warning", name_of(d.code)), primary_ink_);
        put(": " + shortened(d.title, longest_title), Ink::Title);
        out_ += '\n';
        excerpts(d);
        if (drew_ && (!d.notes.empty() || !d.helps.empty()))
            gutter("|");
        for (const std::string& note : d.notes)
            remark("note", note);
        for (const Help& help : d.helps)
            remark("help", help.text);
        return std::move(out_);
    }

  private:
    using ByLine = std::map<std::uint32_t, std::vector<LineLabel>>;

    void put(std::string_view text, Ink ink) {
        const bool dyed = style_.colour && ink != Ink::Plain && !text.empty();
        if (dyed)
            out_ += colour_of(ink);
        out_ += text;
        if (dyed)
            out_ += "\x1b[0m";
    }

    // A line of its own that has nothing but the gutter.
    void gutter(std::string_view sign) {
        put(std::string(digits_ + 1, ' ') + std::string(sign), Ink::Gutter);
        out_ += '\n';
    }

    void add_label(const Label& label, bool primary,
                   std::vector<std::pair<FileId, ByLine>>& files) {
        if (label.span.file >= sources_.size())
            return;
        auto at = std::find_if(files.begin(), files.end(),
                               [&](const auto& f) { return f.first == label.span.file; });
        if (at == files.end())
            at = files.insert(files.end(), {label.span.file, {}});
        const SourceFile& file = sources_.file(label.span.file);
        const std::uint32_t line = file.position(label.span.begin).line;
        const std::uint32_t line_begin = file.line_begin(line);
        at->second[line].push_back({label.span.begin - line_begin,
                                    std::max(label.span.end, label.span.begin) - line_begin,
                                    shortened(label.text, longest_label), primary});
        digits_ = std::max(digits_, std::to_string(line).size());
    }

    void excerpts(const Diagnostic& d) {
        std::vector<std::pair<FileId, ByLine>> files;
        add_label(d.primary, true, files);
        for (const Label& label : d.others)
            add_label(label, false, files);
        for (const auto& [id, lines] : files) {
            drew_ = true;
            const SourceFile& file = sources_.file(id);
            const bool first = id == d.primary.span.file;
            const Position at =
                first ? file.position(d.primary.span.begin) : Position{lines.begin()->first, 0};
            put(std::string(digits_, ' ') + (first ? "--> " : "::: "), Ink::Gutter);
            out_ += shortened(file.name(), longest_title);
            out_ +=
                first ? fmt::format(":{}:{}\n", at.line, at.column) : fmt::format(":{}\n", at.line);
            gutter("|");
            std::uint32_t before = 0;
            for (const auto& [number, labels] : lines) {
                if (before != 0 && number != before + 1) {
                    put("...", Ink::Gutter);
                    out_ += '\n';
                }
                excerpt(file.line(number), number, labels);
                before = number;
            }
        }
    }

    void excerpt(std::string_view line, std::uint32_t number,
                 const std::vector<LineLabel>& labels) {
        const std::size_t taken = digits_ + 3;
        const std::size_t width = style_.width > taken + 20 ? style_.width - taken : 20;
        bool is_line = true;
        for (const Row& row : draw_line(line, labels, width, primary_ink_)) {
            put(is_line ? fmt::format("{:>{}} |", number, digits_)
                        : std::string(digits_ + 1, ' ') + "|",
                Ink::Gutter);
            out_ += ' ';
            std::size_t column = 0;
            for (const Piece& piece : row) {
                out_.append(std::max(piece.column, column) - column, ' ');
                put(piece.text, piece.ink);
                column = piece.column + text_columns(piece.text);
            }
            while (out_.back() == ' ')
                out_.pop_back();
            out_ += '\n';
            is_line = false;
        }
    }

    // A note or help, folded at blanks; a line end in it starts a new line.
    void remark(std::string_view kind, std::string_view text) {
        put(std::string(digits_ + 1, ' ') + "= ", Ink::Gutter);
        put(kind, Ink::Title);
        out_ += ": ";
        const std::size_t indent = digits_ + kind.size() + 5;
        const std::size_t width = style_.width > indent + 30 ? style_.width - indent : 30;
        bool first = true;
        while (true) {
            const std::size_t end = text.find('\n');
            std::string rest = shortened(text.substr(0, end), longest_note);
            while (true) {
                std::size_t fold = rest.size();
                if (text_columns(rest) > width) {
                    const std::size_t blank = rest.rfind(' ', width);
                    fold = blank == std::string::npos || blank == 0
                               ? std::min(rest.find(' '), rest.size())
                               : blank;
                }
                if (!first)
                    out_.append(indent, ' ');
                out_.append(rest, 0, fold);
                while (out_.back() == ' ')
                    out_.pop_back();
                out_ += '\n';
                first = false;
                fold = std::min(rest.find_first_not_of(' ', fold), rest.size());
                rest.erase(0, fold);
                if (rest.empty())
                    break;
            }
            if (end == std::string_view::npos)
                return;
            text.remove_prefix(end + 1);
        }
    }

    const SourceMap& sources_;
    RenderStyle style_;
    std::string out_;
    std::size_t digits_ = 1;
    bool drew_ = false; // an excerpt: a file that cannot be read has none
    Ink primary_ink_ = Ink::Error;
};

std::string counted(std::size_t n, std::string_view what) {
    return fmt::format("{} {}{}", n, what, n == 1 ? "" : "s");
}

} // namespace

std::string render(const Diagnostic& diagnostic, const SourceMap& sources, RenderStyle style) {
    return Drawing(sources, style).draw(diagnostic);
}

std::string render(const Diagnostics& diagnostics, const SourceMap& sources, RenderStyle style) {
    std::string out;
    for (const Diagnostic& d : diagnostics.all())
        out += render(d, sources, style) + '\n';
    if (out.empty())
        return out;
    if (diagnostics.has_errors())
        out += counted(diagnostics.error_count(), "error");
    if (diagnostics.warning_count() > 0)
        out += (diagnostics.has_errors() ? ", " : "") +
               counted(diagnostics.warning_count(), "warning");
    if (diagnostics.left_out() > 0)
        out += fmt::format(", {} of them not shown", diagnostics.left_out());
    return out + '\n';
}

} // namespace acre::lang
