// Whether each statement stands where it may. The other half of the assembler.
#include <fmt/format.h>

#include "lang/syntax/assemble.h"
#include "lang/syntax/messages.h"
#include "lang/syntax/parse.h"
#include "lang/syntax/places.h"
#include "lang/units/number_text.h"

namespace acre::lang {

namespace {

std::optional<FileKind> kind_said_by(Keyword head) {
    switch (head) {
    case Keyword::Model:
        return FileKind::Model;
    case Keyword::Library:
        return FileKind::Library;
    case Keyword::Season:
        return FileKind::Season;
    case Keyword::Values:
        return FileKind::Values;
    case Keyword::Job:
        return FileKind::Job;
    case Keyword::Firm:
        return FileKind::Firm;
    default:
        return std::nullopt;
    }
}

std::string_view header_of(FileKind kind) {
    switch (kind) {
    case FileKind::Season:
        return R"(`season "NAME"`)";
    case FileKind::Values:
        return R"(`values "NAME"`)";
    case FileKind::Job:
        return R"(`job "NAME"`)";
    case FileKind::Firm:
        return R"(`firm "NAME"`)";
    default:
        return R"(`model "NAME"` or `library "NAME"`)";
    }
}

} // namespace

Assembler::Assembler(ast::Module& module, const std::vector<LogicalLine>& lines,
                     std::string_view text, FileKind kind, Diagnostics& diagnostics)
    : module_(module),
      lines_(lines),
      text_(text),
      kind_(kind),
      diagnostics_(diagnostics),
      statement_of_(lines.size(), ast::none),
      skipped_(lines.size(), false) {
    if (lines.empty() && kind != FileKind::CommandLine)
        diagnostics_.add(
            {Code::S114,
             fmt::format("the file has no statement; it must start with {}", header_of(kind)),
             {{module.file, 0, 0}, ""},
             {},
             {},
             {}});
}

std::string_view Assembler::first_word(const LogicalLine& line) const {
    const char* begin = text_.data() + line.begin;
    const char* end = text_.data() + line.end;
    return {begin, static_cast<std::size_t>(end_of_dotted_name(begin, end) - begin)};
}

// The first statement says what the file is. A file of another kind is read as what it says, so
// that one error is all.
std::optional<Form> Assembler::header_form(const LogicalLine& line) {
    const std::optional<FileKind> said = kind_said_by(line.head);
    const bool fits =
        said && (*said == kind_ || (kind_ == FileKind::Model && *said == FileKind::Library));
    if (!fits) {
        Diagnostic d{Code::S114,
                     fmt::format("the file must start with {}", header_of(kind_)),
                     {span(line), ""},
                     {},
                     {},
                     {}};
        if (!said)
            d.helps.push_back({"add it as the first line, with a name of your own", std::nullopt});
        if (said)
            d.notes.push_back(fmt::format("a file that starts with `{}` needs another extension",
                                          first_word(line)));
        diagnostics_.add(std::move(d));
    }
    if (!said)
        return std::nullopt;
    says_what_it_is_ = true;
    kind_ = *said;
    if (fits)
        module_.kind = kind_;
    return Form::TextLine;
}

std::optional<Form> Assembler::form_of(std::uint32_t index) {
    const LogicalLine& line = lines_[index];
    if (is_header(index))
        if (const std::optional<Form> form = header_form(line))
            return form;
    if (line.parent != no_parent && skipped_[line.parent]) {
        skipped_[index] = true;
        return std::nullopt;
    }
    const Keyword above = line.parent == no_parent ? Keyword::None : lines_[line.parent].head;
    if (above != Keyword::Table)
        close_table();
    if (above == Keyword::Table && line.head == Keyword::None) {
        if (++rows_seen_ == max_table_rows + 1)
            diagnostics_.add(
                {Code::S119,
                 fmt::format("the table has more than {} rows", number_text(max_table_rows)),
                 {span(line), "one too many"},
                 {},
                 {},
                 {}});
        return rows_seen_ <= max_table_rows ? std::optional(Form::Row) : std::nullopt;
    }
    if (above != Keyword::None && above != Keyword::Part && too_many_inner(line)) {
        skipped_[index] = true;
        return std::nullopt;
    }
    const Place place = above == Keyword::None ? place_in(kind_) : place_in(above);
    if ((place == InFirm || place == InJob) && line.head == Keyword::None &&
        text_[line.begin] == ':')
        return Form::PageWord;
    if (place == InFirm && line.head == Keyword::Money)
        return Form::FirmMoney;
    const Permit* permit = permit_of(line.head);
    const bool is_known =
        permit != nullptr ||
        kind_said_by(line.head).has_value(); // `library` and `job` stand nowhere but first
    if (permit == nullptr || (permit->places & place) == 0) {
        if (is_known && line.head != Keyword::None)
            misplaced(line);
        else if (place == InPrice)
            diagnostics_.add(describe_unknown_step(text_, span(line)));
        else
            diagnostics_.add(describe_unknown(text_, span(line), name_of_place(place),
                                              (permit_of(Keyword::Set)->places & place) != 0));
    } else {
        if (line.head == Keyword::Table) {
            table_line_ = index;
            rows_seen_ = 0;
            last_x_.reset();
        }
        return permit->form;
    }
    skipped_[index] = true;
    return std::nullopt;
}

bool Assembler::too_many_inner(const LogicalLine& line) {
    if (counted_ != line.parent)
        inner_seen_ = 0;
    counted_ = line.parent;
    if (++inner_seen_ == max_inner_lines + 1)
        diagnostics_.add(
            {Code::S122,
             fmt::format("more than {} lines in one `{}`", number_text(max_inner_lines),
                         spelling_of(lines_[line.parent].head)),
             {span(line), "one too many"},
             {},
             {},
             {}});
    return inner_seen_ > max_inner_lines;
}

void Assembler::misplaced(const LogicalLine& line) {
    const Keyword above = line.parent == no_parent ? Keyword::None : lines_[line.parent].head;
    const Place place = above == Keyword::None ? place_in(kind_) : place_in(above);
    const std::string_view word = spelling_of(line.head);
    const Permit* permit = permit_of(line.head);
    Diagnostic d{
        Code::S104,
        fmt::format("`{}` is not allowed {}", word, name_of_place(place)),
        {{module_.file, line.begin, line.begin + static_cast<std::uint32_t>(word.size())}, ""},
        {},
        {},
        {}};
    if (line.parent != no_parent)
        d.others.push_back(
            {{module_.file, lines_[line.parent].begin,
              lines_[line.parent].begin + static_cast<std::uint32_t>(spelling_of(above).size())},
             "it is indented below this"});
    if (kind_said_by(line.head) && line.head != Keyword::Firm &&
        (permit == nullptr || place != InJob))
        d.helps.push_back(
            {fmt::format("`{}` says what a file is; it belongs in the first line only", word), {}});
    else if (line.head == Keyword::Given && may_begin(Keyword::Set, kind_, above))
        d.helps.push_back({"here a value is set: write  set  for  given",
                           Edit{d.primary.span, std::string(spelling_of(Keyword::Set))}});
    else if (permit != nullptr)
        d.helps.push_back(
            {fmt::format("`{}` goes {}{}", word, list_of_places(permit->places),
                         permit->places == InPrice ? ": indent it below its price" : ""),
             {}});
    diagnostics_.add(std::move(d));
}

} // namespace acre::lang
