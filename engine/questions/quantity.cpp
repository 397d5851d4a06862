#include "engine/questions/quantity.h"

#include <algorithm>
#include <utility>
#include <variant>

#include <fmt/format.h>

#include "engine/words/words.h"
#include "lang/check/near_units.h"
#include "lang/check/own_money.h"
#include "lang/source/source_map.h"
#include "lang/syntax/parse.h"
#include "lang/units/number_text.h"

namespace acre::engine {
namespace {

const lang::UnitCatalog& built_in_units() {
    static const lang::UnitCatalog units;
    return units;
}

std::optional<lang::Unit> unit_of(std::string_view text, const lang::UnitCatalog& units) {
    lang::UnitError error{};
    return lang::read_unit(text, units, error);
}

// The value of a text that is one `set` and nothing behind it, perhaps below zero.
const lang::ast::Number* number_in(const lang::ast::Module& module, bool& below_zero) {
    if (module.statements.size() != 1)
        return nullptr;
    const auto* set = std::get_if<lang::ast::Set>(&module.statements.front().node);
    if (set == nullptr || set->because || set->value >= module.exprs.size())
        return nullptr;
    const lang::ast::Expr* value = &module.exprs[set->value];
    if (const auto* minus = std::get_if<lang::ast::Negate>(&value->node)) {
        below_zero = true;
        value = &module.exprs[minus->of];
    }
    return std::get_if<lang::ast::Number>(&value->node);
}

} // namespace

QuantityReader::QuantityReader(const PricedJob& job, const Subject& line, std::string where)
    : units_(job.sheet().units),
      money_(job.sheet().firm.money),
      where_(std::move(where)) {
    const lang::Sheet& sheet = job.sheet();
    if (const lang::LineId id = sheet.find(line.name); id != lang::none) {
        unit_ = sheet.lines[id].type.unit;
        unit_text_ = unit_text(sheet, sheet.lines[id]);
    }
    if (unit_text_.empty())
        unit_text_ = "1";
}

QuantityReader::QuantityReader(const PricedJob& job, std::string unit_text, std::string where)
    : QuantityReader(job.sheet().units, std::move(unit_text), std::move(where)) {
    money_ = job.sheet().firm.money;
}

QuantityReader::QuantityReader(std::string unit_text, std::string where)
    : QuantityReader(built_in_units(), std::move(unit_text), std::move(where)) {}

QuantityReader::QuantityReader(const lang::UnitCatalog& units, std::string unit_text,
                               std::string where)
    : units_(units),
      unit_(unit_of(unit_text.empty() ? "1" : unit_text, units)),
      unit_text_(unit_text.empty() ? "1" : std::move(unit_text)),
      where_(std::move(where)) {}

lang::Diagnostic QuantityReader::unread(std::string why) const {
    return lang::placeless(lang::Code::C003, where_ + std::move(why));
}

lang::Outcome<lang::Unit> QuantityReader::unit_named(std::string_view text) const {
    lang::UnitError error{};
    if (const std::optional<lang::Unit> unit = lang::read_unit(text, units_, error))
        return *unit;
    if (error.kind != lang::UnitError::Kind::Unknown)
        return unread(fmt::format("`{}` is not a unit", text));
    lang::Diagnostic unknown = unread(fmt::format("no unit named `{}`", error.word));
    for (const lang::NearUnit& near : lang::near_units(error.word, units_))
        unknown.helps.push_back({fmt::format("did you mean `{}`?", near.unit), {}});
    return unknown;
}

// By the notation's own reader, so that a number means here what it means in a file.
lang::Outcome<QuantityReader::Written> QuantityReader::written(std::string_view text) const {
    std::string line = "set value = ";
    line += text;
    std::replace_if(
        line.begin(), line.end(), [](char c) { return c == '\n' || c == '\r' || c == '#'; }, '?');
    lang::SourceMap sources;
    lang::Diagnostics said;
    const lang::FileId file = sources.add("command line", std::move(line));
    const lang::ast::Module module = lang::parse(sources, file, lang::FileKind::CommandLine, said);
    const auto error =
        std::find_if(said.all().begin(), said.all().end(), [](const lang::Diagnostic& d) {
            return d.severity() == lang::Severity::Error;
        });
    if (error != said.all().end()) {
        lang::Diagnostic failed = unread(fmt::format("`{}`: {}", text, error->title));
        failed.notes = error->notes;
        for (const lang::Help& help : error->helps)
            failed.helps.push_back({help.text, {}});
        return failed;
    }
    bool below_zero = false;
    const lang::ast::Number* number = number_in(module, below_zero);
    if (number == nullptr)
        return unread(fmt::format("`{}` is not a number with its unit", text));
    Written out{below_zero ? -number->value : number->value, {}};
    if (number->unit) {
        if (const std::string_view money = lang::money_of_number(*number->unit);
            !money.empty() && !lang::is_own_money(money, money_)) {
            lang::Diagnostic failed = lang::placeless(
                lang::Code::U314,
                where_ + fmt::format("`{}` is in {}; the money of this firm is {}", text,
                                     lang::code_of_money(money), money_.code));
            failed.helps.push_back({"write the amount in that; nothing is converted", {}});
            return failed;
        }
        const std::string unit_text =
            (number->unit->dollar ? "$" : "") + std::string(number->unit->text);
        lang::Outcome<lang::Unit> unit = unit_named(unit_text);
        if (!unit)
            return std::move(unit.said);
        out.unit = *unit;
    }
    return out;
}

lang::Outcome<double> QuantityReader::read(std::string_view text) const {
    lang::Outcome<Written> from = written(text);
    if (!from)
        return std::move(from.said);
    const lang::Unit unit = from->unit.value_or(lang::one);
    if (unit_ && unit_->dim == unit.dim && (from->unit || unit_text_ == "1"))
        return lang::conversion(unit, *unit_).apply(from->value);
    lang::Diagnostic other =
        unit_text_ == "1" ? unread(fmt::format("`{}` is not a plain number", text))
                          : unread(fmt::format("`{}` is not a quantity in {}", text, unit_text_));
    if (!from->unit && unit_text_ != "1")
        other.helps.push_back(
            {fmt::format("write  {}", lang::written_text(from->value, unit_text_)), {}});
    return other;
}

} // namespace acre::engine
