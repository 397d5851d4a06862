// Which statement may stand where. The other half of the assembler.
#include <fmt/format.h>

#include <array>
#include <iterator>

#include "lang/syntax/assemble.h"
#include "lang/syntax/messages.h"
#include "lang/syntax/parse.h"
#include "lang/units/number_text.h"

namespace acre::lang {

namespace {

enum Place : std::uint32_t {
    InModel = 1U << 0U,
    InLibrary = 1U << 1U,
    InSeason = 1U << 2U,
    InJob = 1U << 3U,
    InCommand = 1U << 4U,
    InPart = 1U << 5U,
    InPrice = 1U << 6U,
    InTable = 1U << 7U,
    InDefine = 1U << 8U,
    InOption = 1U << 9U,
    InEntry = 1U << 10U,
    InValues = 1U << 11U,
    InFirm = 1U << 12U
};

struct Permit {
    Keyword head;
    Form form;
    std::uint32_t places;
};

// clang-format off
constexpr auto permits = std::to_array<Permit>({
    {Keyword::Use,         Form::Use,            InModel | InLibrary | InPart},
    {Keyword::Noun,        Form::Noun,           InModel | InLibrary},
    {Keyword::Unit,        Form::UnitDefinition, InModel | InLibrary},
    {Keyword::Choice,      Form::Choice,         InModel | InLibrary},
    {Keyword::Table,       Form::Table,          InModel | InLibrary | InPart},
    {Keyword::Define,      Form::Define,         InModel | InLibrary},
    {Keyword::Part,        Form::Part,           InModel},
    {Keyword::Price,       Form::Price,          InModel},
    {Keyword::Given,       Form::Given,          InModel | InPart},
    {Keyword::Cost,        Form::Cost,           InModel | InPart},
    {Keyword::Event,       Form::Event,          InModel | InPart},
    {Keyword::Correlate,   Form::Correlate,      InModel | InPart},
    {Keyword::Require,     Form::Require,        InModel | InPart},
    {Keyword::Caution,     Form::Caution,        InModel | InPart},
    {Keyword::Overhead,    Form::Step,           InPrice},
    {Keyword::Contingency, Form::Step,           InPrice},
    {Keyword::Reserve,     Form::Step,           InPrice},
    {Keyword::Markup,      Form::Step,           InPrice},
    {Keyword::Margin,      Form::Step,           InPrice},
    {Keyword::At,          Form::Step,           InPrice},
    {Keyword::Round,       Form::Step,           InPrice},
    {Keyword::Source,      Form::TextLine,       InDefine},
    {Keyword::Note,        Form::TextLine,       InDefine | InJob},
    {Keyword::Known,       Form::Known,          InDefine},
    {Keyword::Tested,      Form::ParameterRange, InDefine},
    {Keyword::Limit,       Form::ParameterRange, InDefine},
    {Keyword::Example,     Form::Example,        InDefine},
    {Keyword::Set,         Form::Set,            InSeason | InJob | InValues | InCommand | InOption | InEntry},
    {Keyword::Option,      Form::Option,         InJob},
    {Keyword::List,        Form::List,           InModel | InLibrary},
    {Keyword::Show,        Form::Show,           InModel},
    {Keyword::Count,       Form::Count,          InModel},
    {Keyword::Fleet,       Form::Fleet,          InModel},
    {Keyword::Entry,       Form::Entry,          InJob | InValues},
    {Keyword::Field,       Form::Field,          InJob | InEntry},
    {Keyword::Model,       Form::TextLine,       InJob},
    {Keyword::Season,      Form::TextLine,       InJob},
    {Keyword::With,        Form::TextLine,       InJob},
    {Keyword::Firm,        Form::TextLine,       InModel | InSeason | InJob},
    {Keyword::Money,       Form::ModelMoney,     InModel | InLibrary | InFirm},
    {Keyword::For,         Form::TextLine,       InJob},
    {Keyword::Date,        Form::Date,           InJob},
    {Keyword::Closed,      Form::Closed,         InSeason},
    {Keyword::None,        Form::Line,           InModel | InPart | InDefine},
});

constexpr auto place_names = std::to_array<std::pair<Place, std::string_view>>({
    {InModel, "in a model"},        {InLibrary, "in a library"},    {InSeason, "in a season"},
    {InJob, "in a job"},            {InCommand, "in `--set`"},      {InPart, "in a part"},
    {InPrice, "in a price"},        {InTable, "in a table"},        {InDefine, "in a define"},
    {InOption, "in an option"},     {InEntry, "in an entry of a list"},
    {InValues, "in a file of values"}, {InFirm, "in a firm's file"},
});
// clang-format on

const Permit* permit_of(Keyword head) {
    for (const Permit& permit : permits)
        if (permit.head == head)
            return &permit;
    return nullptr;
}

Place place_in(FileKind kind) {
    switch (kind) {
    case FileKind::Model:
        return InModel;
    case FileKind::Library:
        return InLibrary;
    case FileKind::Season:
        return InSeason;
    case FileKind::Values:
        return InValues;
    case FileKind::Job:
        return InJob;
    case FileKind::Firm:
        return InFirm;
    case FileKind::CommandLine:
        break;
    }
    return InCommand;
}

Place place_in(Keyword parent) {
    switch (parent) {
    case Keyword::Price:
        return InPrice;
    case Keyword::Table:
        return InTable;
    case Keyword::Define:
        return InDefine;
    case Keyword::Option:
        return InOption;
    case Keyword::Entry:
        return InEntry;
    default:
        return InPart;
    }
}

std::string name_of_place(Place place) {
    for (const auto& [p, name] : place_names)
        if (p == place)
            return std::string(name);
    return {};
}

// "in a model, in a part or in a library"
std::string list_of_places(std::uint32_t places) {
    std::vector<std::string_view> names;
    for (const auto& [p, name] : place_names)
        if ((places & p) != 0)
            names.push_back(name);
    std::string list;
    for (std::size_t i = 0; i < names.size(); ++i)
        list += fmt::format("{}{}", i == 0 ? "" : i + 1 == names.size() ? " or " : ", ", names[i]);
    return list;
}

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
    else if (permit != nullptr)
        d.helps.push_back({fmt::format("`{}` goes {}", word, list_of_places(permit->places)), {}});
    diagnostics_.add(std::move(d));
}

} // namespace acre::lang
