#include "lang/diag/render.h"

#include <algorithm>
#include <map>
#include <vector>

#include <fmt/format.h>

#include "lang/diag/excerpt.h"
#include "lang/diag/fold.h"
#include "lang/diag/glyph.h"
#include "lang/diag/safe_text.h"

namespace acre::lang {
namespace {

// Texts are short by custom; these hold where a stranger's names are not.
constexpr std::size_t longest_title = 300;
constexpr std::size_t longest_label = 80;
constexpr std::size_t longest_note = 1200;

std::string_view color_of(Ink ink) {
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
    case Ink::Number:
        return "\x1b[2m";
    case Ink::Place:
        return "\x1b[4m";
    case Ink::Mend:
        return "\x1b[1;32m";
    }
    return "";
}

std::string_view severity_word(const Diagnostic& d) {
    return d.severity() == Severity::Error ? "error" : "warning";
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
        primary_ink_ = d.severity() == Severity::Error ? Ink::Error : Ink::Warning;
        collect(d);
        if (d.primary.span.file < sources_.size())
            heading(d.primary.span.file,
                    {sources_.file(d.primary.span.file).position(d.primary.span.begin).line});
        title(d);
        excerpts(d.primary.span.file);
        if (!d.notes.empty() || !d.helps.empty())
            out_ += '\n';
        for (const std::string& note : d.notes)
            remark({}, note);
        for (const Help& help : d.helps)
            remark("mend: ", help.text);
        return std::move(out_);
    }

  private:
    using ByLine = std::map<std::uint32_t, std::vector<LineLabel>>;

    void put(std::string_view text, Ink ink) {
        const bool dyed = style_.color && ink != Ink::Plain && !text.empty();
        if (dyed)
            out_ += color_of(ink);
        out_ += text;
        if (dyed)
            out_ += "\x1b[0m";
    }

    // deep-rip.rate, lines 9 and 14
    void heading(FileId file, const std::vector<std::uint32_t>& lines) {
        put(shortened(sources_.file(file).name(), longest_title), Ink::Place);
        std::string text = lines.size() == 1 ? ", line " : ", lines ";
        for (std::size_t i = 0; i < lines.size(); ++i) {
            if (i > 0)
                text += i + 1 == lines.size() ? " and " : ", ";
            text += std::to_string(lines[i]);
        }
        put(text + "\n", Ink::Plain);
    }

    void title(const Diagnostic& d) {
        const std::string lead = fmt::format("{} {}: ", severity_word(d), name_of(d.code));
        put(lead, primary_ink_);
        std::string text(lead.size(), '-'); // keeps the room of `lead` in the first line
        text += shortened(d.title, longest_title);
        std::size_t taken = lead.size();
        for (const std::string& line : fold(text, style_.width)) {
            if (taken == 0)
                out_.append(indent, ' ');
            put(std::string_view(line).substr(taken), Ink::Title);
            out_ += '\n';
            taken = 0;
        }
    }

    void collect(const Diagnostic& d) {
        add_label(d.primary, true);
        for (const Label& label : d.others)
            add_label(label, false);
    }

    void add_label(const Label& label, bool primary) {
        if (label.span.file >= sources_.size())
            return;
        auto at = std::find_if(files_.begin(), files_.end(),
                               [&](const auto& f) { return f.first == label.span.file; });
        if (at == files_.end())
            at = files_.insert(files_.end(), {label.span.file, {}});
        const SourceFile& file = sources_.file(label.span.file);
        const std::uint32_t line = file.position(label.span.begin).line;
        const std::uint32_t line_begin = file.line_begin(line);
        at->second[line].push_back({label.span.begin - line_begin,
                                    std::max(label.span.end, label.span.begin) - line_begin,
                                    shortened(label.text, longest_label), primary});
        digits_ = std::max(digits_, std::to_string(line).size());
    }

    void excerpts(FileId named) {
        for (const auto& [id, lines] : files_) {
            out_ += '\n';
            if (id != named) {
                std::vector<std::uint32_t> numbers;
                for (const auto& [number, labels] : lines)
                    numbers.push_back(number);
                heading(id, numbers);
                out_ += '\n';
            }
            const SourceFile& file = sources_.file(id);
            std::uint32_t before = 0;
            for (const auto& [number, labels] : lines) {
                if (before != 0 && number != before + 1)
                    put(fmt::format("{:>{}}\n", ':', digits_ + indent), Ink::Number);
                excerpt(file.line(number), number, labels);
                before = number;
            }
        }
    }

    void excerpt(std::string_view line, std::uint32_t number,
                 const std::vector<LineLabel>& labels) {
        const std::size_t taken = indent + digits_ + gap;
        const std::size_t width = style_.width > taken + 20 ? style_.width - taken : 20;
        bool is_line = true;
        for (const Row& row : draw_line(line, labels, width, primary_ink_)) {
            put(fmt::format("{:>{}}", is_line ? std::to_string(number) : "", indent + digits_),
                is_line ? Ink::Number : Ink::Plain);
            out_.append(gap, ' ');
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

    // A note or a mend, folded; what follows the first line is indented under it.
    void remark(std::string_view lead, std::string_view text) {
        const std::size_t hung = indent + (lead.empty() ? 2 : lead.size());
        const std::size_t width = style_.width > hung + 30 ? style_.width - hung : 30;
        std::string safe; // its line ends are kept
        for (std::size_t at = 0; at <= text.size();) {
            const std::size_t end = std::min(text.find('\n', at), text.size());
            safe += (at > 0 ? "\n" : "") + shortened(text.substr(at, end - at), longest_note);
            at = end + 1;
        }
        bool first = true;
        for (const std::string& line : fold(safe, width)) {
            out_.append(first ? indent : hung, ' ');
            if (first)
                put(lead, Ink::Mend);
            out_ += line + '\n';
            first = false;
        }
    }

    static constexpr std::size_t indent = 2; // of all that follows the title
    static constexpr std::size_t gap = 3;    // between the number of a line and the line

    const SourceMap& sources_;
    RenderStyle style_;
    std::string out_;
    std::vector<std::pair<FileId, ByLine>> files_; // the one of the mark first
    std::size_t digits_ = 1;
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

std::string render_terse(const Diagnostics& diagnostics, const SourceMap& sources) {
    std::string out;
    for (const Diagnostic& d : diagnostics.all()) {
        if (d.primary.span.file < sources.size()) {
            const SourceFile& file = sources.file(d.primary.span.file);
            const Position at = file.position(d.primary.span.begin);
            out += fmt::format("{}:{}:{}: ", shortened(file.name(), longest_title), at.line,
                               at.column);
        }
        out += fmt::format("{}: {} {}\n", severity_word(d), name_of(d.code),
                           shortened(d.title, longest_title));
    }
    return out;
}

} // namespace acre::lang
