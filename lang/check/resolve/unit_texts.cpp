#include "lang/check/resolve/unit_texts.h"

#include <algorithm>
#include <optional>
#include <utility>

#include <fmt/format.h>

#include "lang/check/near_units.h"
#include "lang/check/resolve/not_a_unit.h"
#include "lang/check/resolve/report.h"
#include "lang/units/clock.h"

namespace acre::lang::resolving {
namespace {

// What is wrong with a unit text, in place: `at` and `end` count within the full text, which may
// begin with a dollar that stands apart in the source.
Span within(const ast::UnitText& text, const SourceMap& sources, std::size_t begin,
            std::size_t end) {
    const std::string_view whole = sources.file(text.span.file).text();
    const std::size_t dollar = text.dollar ? 1 : 0;
    const auto offset = static_cast<std::size_t>(text.text.data() - whole.data());
    if (offset > whole.size() || end < begin || end < dollar)
        return text.span;
    const std::size_t from = offset + (begin < dollar ? 0 : begin - dollar);
    return {text.span.file, static_cast<std::uint32_t>(from),
            static_cast<std::uint32_t>(offset + end - dollar)};
}

std::string written(const ast::UnitText& unit) {
    std::string out;
    if (unit.dollar)
        out.push_back('$');
    out.append(unit.text);
    return out;
}

} // namespace

std::string full_text(const ast::UnitText& unit) {
    return with_usual_spelling(written(unit));
}

std::optional<Unit> UnitTexts::read_text(const ast::UnitText& text, UnitError& error) const {
    return text.dollar ? read_unit(written(text), catalog_, error)
                       : read_unit(text.text, catalog_, error);
}

void UnitTexts::report(const ast::UnitText& text, const UnitError& error) {
    const Span span = within(text, sources_, error.begin, error.end);
    switch (error.kind) {
    case UnitError::Kind::Unknown: {
        if (failed_.count(error.word) > 0)
            return; // its own definition is told
        Diagnostic d = problem(Code::N203, fmt::format("no unit named `{}`", error.word), span,
                               "unknown unit");
        if (diagnostics_.full())
            return diagnostics_.add(std::move(d));
        std::optional<Help> meant = meant_instead(error.word, span, sources_, *modules_);
        const std::vector<NearUnit> near_ones = is_half_of_day(error.word) && meant
                                                    ? std::vector<NearUnit>{}
                                                    : near_units(error.word, catalog_);
        const auto is_slip = [](const NearUnit& near) { return near.slip; };
        const bool sure = std::count_if(near_ones.begin(), near_ones.end(), is_slip) == 1;
        for (const NearUnit& near : near_ones)
            d.helps.push_back({fmt::format("did you mean `{}`?", near.unit),
                               sure && near.slip ? std::optional(Edit{span, std::string(near.unit)})
                                                 : std::nullopt});
        if (meant)
            d.helps.push_back(std::move(*meant));
        else
            d.helps.push_back(
                {fmt::format("to count something new, declare it: write  noun {}", error.word),
                 std::nullopt});
        diagnostics_.add(std::move(d));
        return;
    }
    case UnitError::Kind::Malformed:
        diagnostics_.add(problem(Code::S107, fmt::format("`{}` is not a unit", written(text)), span,
                                 "cannot be read",
                                 {"join names with . and /, use whole powers and no spaces, as in  "
                                  "$/(ac.ft)  or  ft^2"}));
        return;
    case UnitError::Kind::TooLarge:
        diagnostics_.add(
            problem(Code::U312, fmt::format("the unit `{}` is too large", written(text)), span));
        return;
    }
}

const Unit* UnitTexts::read(const ast::UnitText& text) {
    auto& known = known_[text.dollar ? 1 : 0];
    auto& names = names_[text.dollar ? 1 : 0];
    const auto name_of = [&known](std::uint32_t i) { return known[i].text; };
    std::uint32_t id = names.find(text.text, name_of);
    if (id == NameTable::absent) {
        UnitError error{};
        const std::optional<Unit> unit = read_text(text, error);
        if (!unit)
            report(text, error);
        id = static_cast<std::uint32_t>(known.size());
        known.push_back({text.text, unit.value_or(Unit{}), unit.has_value()});
        names.insert(text.text, id, name_of);
    }
    return known[id].good ? &known[id].unit : nullptr;
}

// A name may be declared again when it says the same; `is_new` reports what it does not.
bool UnitTexts::is_new(const ast::Word& name, bool noun) {
    const auto name_of = [this](std::uint32_t i) { return declared_[i].name; };
    const std::uint32_t there = declared_names_.find(name.text, name_of);
    if (there == NameTable::absent) {
        if (catalog_.is_built_in(name.text)) {
            const std::string_view usual = usual_spelling(name.text);
            diagnostics_.add(
                problem(Code::N202, fmt::format("`{}` is already a unit", name.text), name.span,
                        usual.empty() ? "built in" : fmt::format("read as {}", usual),
                        {fmt::format("give it another name, for example  {}_2", name.text)}));
            return false;
        }
        declared_names_.insert(name.text, static_cast<std::uint32_t>(declared_.size()), name_of);
        declared_.push_back({name.text, name.span, noun});
        return true;
    }
    const Declared& first = declared_[there];
    const bool same_file = first.span.file == name.span.file;
    if (first.noun != noun || (noun && same_file))
        report_twice(sources_, diagnostics_, fmt::format("`{}` is declared twice", name.text),
                     name.span, first.span, {}, same_file ? Code::N202 : Code::N210);
    return false;
}

void UnitTexts::declare_noun(const ast::Noun& noun) {
    if (is_new(noun.name, true) && !catalog_.add_noun(noun.name.text)) {
        failed_.emplace(noun.name.text);
        diagnostics_.add(problem(Code::N209,
                                 fmt::format("too many nouns (limit {})", max_bases - first_noun),
                                 noun.name.span, {}, {"count some of them as plain numbers"}));
    }
}

// False when it rests on a unit that is not there (yet): `missing`.
bool UnitTexts::declare_unit(const ast::UnitDefinition& definition, std::string& missing) {
    UnitError error{};
    const std::optional<Unit> base = read_text(definition.unit, error);
    if (!base) {
        missing = error.word;
        if (error.kind == UnitError::Kind::Unknown)
            return false;
        report(definition.unit, error);
        failed_.emplace(definition.name.text);
        return true;
    }
    const std::optional<Ratio> number = read_ratio(definition.number);
    if (!number) {
        failed_.emplace(definition.name.text);
        diagnostics_.add(
            problem(Code::S106, fmt::format("a unit cannot be {} of another", definition.number),
                    definition.number_span, {},
                    {"write a number above zero, for example  unit tank = 1,100 gal"}));
        return true;
    }
    const std::optional<Ratio> scale = multiply(*number, base->scale);
    if (!scale) {
        failed_.emplace(definition.name.text);
        diagnostics_.add(problem(Code::U312,
                                 fmt::format("the unit `{}` is too large", definition.name.text),
                                 definition.number_span));
        return true;
    }
    const Unit unit{base->dim, *scale};
    if (is_new(definition.name, false)) {
        catalog_.add_unit(definition.name.text, unit);
        return true;
    }
    const Unit* there = catalog_.find(definition.name.text);
    const std::uint32_t first = declared_names_.find(
        definition.name.text, [this](std::uint32_t i) { return declared_[i].name; });
    if (first == NameTable::absent || declared_[first].noun || there == nullptr)
        return true; // reported by is_new
    const bool same_file = declared_[first].span.file == definition.name.span.file;
    if (same_file || !(*there == unit))
        report_twice(sources_, diagnostics_,
                     fmt::format("the unit `{}` is defined twice", definition.name.text),
                     definition.name.span, declared_[first].span, {},
                     same_file ? Code::N202 : Code::N210);
    return true;
}

// Units that rest on nothing known. Who rests on one of them has no error of his own, unless they
// go round in a loop.
void UnitTexts::report_waiting(const Waiting& waiting) {
    std::unordered_set<std::string> failed;
    for (const auto& [missing, units] : waiting)
        for (const ast::UnitDefinition* unit : units)
            failed.emplace(unit->name.text);
    bool told = false;
    for (const auto& [missing, units] : waiting) {
        if (failed.count(missing) > 0)
            continue;
        told = true;
        for (const ast::UnitDefinition* unit : units)
            read(unit->unit);
    }
    for (const auto& [missing, units] : waiting)
        for (const ast::UnitDefinition* unit : units)
            if (!told)
                diagnostics_.add(problem(
                    Code::N203, fmt::format("the unit `{}` is defined by itself", unit->name.text),
                    unit->name.span, "in a loop",
                    {"define one of them by a known unit, for example  unit tank = 1,100 "
                     "gal"}));
    failed_.merge(failed);
}

void UnitTexts::take(const UnitTexts& other, const Modules& modules) {
    modules_ = &modules;
    for (const std::size_t kind : {0U, 1U}) {
        known_[kind] = other.known_[kind];
        names_[kind] = other.names_[kind];
    }
    declared_ = other.declared_;
    declared_names_ = other.declared_names_;
    failed_ = other.failed_;
}

void UnitTexts::declare(const Modules& modules) {
    modules_ = &modules;
    std::vector<const ast::UnitDefinition*> ready;
    for (const ast::Module& module : modules) {
        for (const ast::Statement& statement : module.statements)
            if (const auto* noun = std::get_if<ast::Noun>(&statement.node))
                declare_noun(*noun);
            else if (const auto* unit = std::get_if<ast::UnitDefinition>(&statement.node))
                ready.push_back(unit);
    }
    std::reverse(ready.begin(), ready.end()); // taken from the back: in the order written
    // A unit that rests on one not declared yet waits for that name.
    Waiting waiting;
    while (!ready.empty()) {
        const ast::UnitDefinition* unit = ready.back();
        ready.pop_back();
        std::string missing;
        if (!declare_unit(*unit, missing)) {
            waiting[missing].push_back(unit);
        } else if (const auto woken = waiting.find(std::string(unit->name.text));
                   woken != waiting.end()) {
            ready.insert(ready.end(), woken->second.begin(), woken->second.end());
            waiting.erase(woken);
        }
    }
    report_waiting(waiting);
}

} // namespace acre::lang::resolving
