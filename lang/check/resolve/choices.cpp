// Choices and their options: those with a name of their own, and those that a given makes for
// itself.
#include <algorithm>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include <fmt/format.h>

#include "lang/check/resolve/resolution.h"

namespace acre::lang::resolving {
namespace {

bool same_options(const ChoiceType& a, const ast::Choice& b) {
    return std::equal(
        a.options.begin(), a.options.end(), b.options.begin(), b.options.end(),
        [](const std::string& x, const ast::Word& y) { return x == y.text; });
}

} // namespace

ChoiceId Resolution::find_choice(std::string_view name) const {
    return choice_names.find(
        name, [this](std::uint32_t i) -> std::string_view { return sheet.choices[i].name; });
}

ChoiceId Resolution::add_choice(const ast::Word& name, const std::vector<ast::Word>& options) {
    const auto id = static_cast<ChoiceId>(sheet.choices.size());
    ChoiceType type{std::string(name.text), {}, name.span};
    NameTable names;
    for (const ast::Word& option : options) {
        const std::uint32_t there =
            names.insert(option.text, static_cast<std::uint32_t>(type.options.size()),
                         [&type](std::uint32_t i) -> std::string_view { return type.options[i]; });
        if (there != NameTable::absent)
            add(problem(
                Code::N202,
                fmt::format("`{}` appears twice in the choice `{}`", option.text, name.text),
                option.span, "again"));
        type.options.emplace_back(option.text);
    }
    sheet.choices.push_back(std::move(type));
    option_names.push_back(std::move(names));
    return id;
}

std::uint32_t Resolution::find_option(ChoiceId choice, std::string_view name) const {
    return option_names[choice].find(
        name,
        [&](std::uint32_t i) -> std::string_view { return sheet.choices[choice].options[i]; });
}

void declare_choices(Resolution& r) {
    for (const ast::Module& module : r.program.modules) {
        for (const ast::Statement& statement : module.statements) {
            const auto* choice = std::get_if<ast::Choice>(&statement.node);
            if (choice == nullptr)
                continue;
            const ChoiceId there = r.choice_names.insert(
                choice->name.text, static_cast<ChoiceId>(r.sheet.choices.size()),
                [&r](std::uint32_t i) -> std::string_view { return r.sheet.choices[i].name; });
            if (there == NameTable::absent) {
                r.add_choice(choice->name, choice->options);
                continue;
            }
            const Span first = r.sheet.choices[there].span;
            if (first.file == choice->name.span.file)
                report_twice(r.sources, r.diagnostics,
                             fmt::format("the choice `{}` is defined twice", choice->name.text),
                             choice->name.span, first);
            else if (!same_options(r.sheet.choices[there], *choice))
                report_twice(r.sources, r.diagnostics,
                             fmt::format("two used models define the choice `{}` differently",
                                         choice->name.text),
                             choice->name.span, first, "give one of them another name", Code::N210);
        }
    }
}

} // namespace acre::lang::resolving
