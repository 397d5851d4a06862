#include "engine/questions/measures.h"

#include <algorithm>

#include <fmt/format.h>

#include "engine/questions/quantity.h"
#include "lang/check/near_units.h"
#include "lang/units/catalog.h"
#include "lang/units/letters.h"
#include "lang/units/number_text.h"

namespace acre::engine {
namespace {

std::string lower(std::string_view text) {
    std::string out(text);
    std::transform(out.begin(), out.end(), out.begin(), lang::to_lower);
    return out;
}

bool is_called(const lang::Measure& unit, std::string_view word) {
    return unit.name == word || std::find(unit.spellings.begin(), unit.spellings.end(),
                                          lower(word)) != unit.spellings.end();
}

bool holds(const lang::Measure& unit, std::string_view word) {
    const std::string wanted = lower(word);
    const auto has = [&](std::string_view text) { return lower(text).find(wanted) != text.npos; };
    return has(unit.kind) || has(unit.name) ||
           std::any_of(unit.spellings.begin(), unit.spellings.end(), has);
}

lang::Diagnostic no_unit(std::string_view word) {
    static const lang::UnitCatalog units;
    lang::Diagnostic unknown =
        lang::placeless(lang::Code::C003, fmt::format("no unit named `{}`", word));
    for (const lang::NearUnit& near : lang::near_units(word, units))
        unknown.helps.push_back({fmt::format("did you mean `{}`?", near.unit), {}});
    if (unknown.helps.empty())
        unknown.helps.push_back({"`acrewright measures` lists all units", {}});
    return unknown;
}

} // namespace

lang::Outcome<MeasuresAnswer> ask(const MeasuresQuestion& question) {
    const std::vector<lang::Measure> all = lang::measures();
    MeasuresAnswer answer;
    for (const auto fits : {is_called, holds})
        if (answer.units.empty())
            std::copy_if(all.begin(), all.end(), std::back_inserter(answer.units),
                         [&](const lang::Measure& unit) {
                             return question.word.empty() || fits(unit, question.word);
                         });
    if (answer.units.empty())
        return no_unit(question.word);
    return answer;
}

lang::Outcome<ConversionAnswer> ask(const ConversionQuestion& question) {
    static const lang::UnitCatalog units;
    lang::UnitError error{};
    ConversionAnswer answer;
    answer.from = question.quantity;
    answer.unit = lang::with_usual_spelling(question.unit);
    if (!lang::read_unit(answer.unit, units, error))
        return error.kind == lang::UnitError::Kind::Unknown ? no_unit(error.word)
                                                            : no_unit(question.unit);
    const lang::Outcome<double> value = QuantityReader(answer.unit).read(question.quantity);
    if (!value)
        return value.said;
    answer.value = *value;
    answer.text = lang::quantity_text(*value, answer.unit);
    return answer;
}

} // namespace acre::engine
