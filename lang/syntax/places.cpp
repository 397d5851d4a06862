#include "lang/syntax/places.h"

#include <array>
#include <utility>
#include <vector>

#include <fmt/format.h>

namespace acre::lang {
namespace {

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

} // namespace

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

bool may_begin(Keyword head, FileKind kind, Keyword above) {
    const Place place = above == Keyword::None ? place_in(kind) : place_in(above);
    const Permit* permit = permit_of(head);
    return permit != nullptr && (permit->places & place) != 0;
}

bool may_begin_file(Keyword head, FileKind kind) {
    switch (kind) {
    case FileKind::Model:
    case FileKind::Library: // both are .rate files
        return head == Keyword::Model || head == Keyword::Library;
    case FileKind::Season:
        return head == Keyword::Season;
    case FileKind::Values:
        return head == Keyword::Values;
    case FileKind::Job:
        return head == Keyword::Job;
    case FileKind::Firm:
        return head == Keyword::Firm;
    case FileKind::CommandLine:
        break;
    }
    return false;
}

} // namespace acre::lang
