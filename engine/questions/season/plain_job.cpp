#include "engine/questions/season/plain_job.h"

#include <algorithm>
#include <variant>

#include "lang/check/own_money.h"
#include "lang/syntax/parse.h"

namespace acre::engine {
namespace {

namespace ast = lang::ast;

bool read_set(const ast::Module& module, const ast::Set& from, PlainJob::Set& set) {
    if (from.swing)
        return false; // a range of its own: the plan is not the season's
    set.name = from.name.text;
    double sign = 1;
    ast::ExprId id = from.value;
    while (id != ast::none && std::holds_alternative<ast::Negate>(module.exprs[id].node)) {
        sign = -sign;
        id = std::get<ast::Negate>(module.exprs[id].node).of;
    }
    if (id == ast::none)
        return false;
    if (const auto* number = std::get_if<ast::Number>(&module.exprs[id].node)) {
        set.number = sign * number->value;
        if (number->unit) {
            set.unit = (number->unit->dollar ? "$" : "") + std::string(number->unit->text);
            set.money = lang::money_of_number(*number->unit);
        }
        return true;
    }
    const auto* name = std::get_if<ast::Name>(&module.exprs[id].node);
    if (name == nullptr || sign < 0 || name->text.find('.') != std::string_view::npos)
        return false;
    set.choice = name->text;
    return true;
}

std::optional<PlainJob> job_of(const ast::Module& module) {
    PlainJob job;
    job.title = module.title.text;
    for (const ast::Statement& statement : module.statements) {
        if (const auto* set = std::get_if<ast::Set>(&statement.node)) {
            if (!read_set(module, *set, job.sets.emplace_back()))
                return std::nullopt;
        } else if (const auto* model = std::get_if<ast::ModelReference>(&statement.node)) {
            job.model = model->path.text;
        } else if (const auto* season = std::get_if<ast::SeasonReference>(&statement.node)) {
            job.season = season->path.text;
        } else if (const auto* who = std::get_if<ast::For>(&statement.node)) {
            job.who = who->who.text;
        } else if (const auto* dates = std::get_if<ast::Dates>(&statement.node)) {
            if (dates->last)
                return std::nullopt; // whether it is done by then is told the long way
            job.date = dates->first;
        } else if (!std::holds_alternative<ast::Option>(statement.node) &&
                   !std::holds_alternative<ast::Note>(statement.node) &&
                   !std::holds_alternative<ast::PageWord>(statement.node)) {
            return std::nullopt; // entries and fields need all of the way
        }
    }
    return job;
}

} // namespace

std::string PlainJob::key(const std::string& folder) const {
    std::string text = folder + "\n" + model + "\n" + season;
    if (date) // a season is judged by the year of the job
        text += "\n" + std::to_string(date->year);
    std::vector<std::string> names;
    for (const Set& set : sets)
        names.push_back(set.name + " " + set.money); // that it is the firm's is told of one of them
    std::sort(names.begin(), names.end());
    for (const std::string& name : names)
        text += "\n" + name;
    return text;
}

std::optional<PlainJob> plain_job(const std::string& path, const std::string& text) {
    lang::SourceMap sources;
    lang::Diagnostics diagnostics;
    const ast::Module module =
        lang::parse(sources, sources.add(path, text), lang::FileKind::Job, diagnostics);
    return diagnostics.has_errors() ? std::nullopt : job_of(module);
}

} // namespace acre::engine
