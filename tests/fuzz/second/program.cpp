#include "tests/fuzz/second/program.h"

#include <algorithm>
#include <utility>
#include <variant>

#include "lang/syntax/parse.h"

namespace acre::fuzz::second {

namespace ast = lang::ast;

namespace {

// "library/season-prices" is season_prices where it is used.
std::string name_of(std::string_view path) {
    std::string name(
        path.substr(path.rfind('/') == std::string_view::npos ? 0 : path.rfind('/') + 1));
    std::replace(name.begin(), name.end(), '-', '_');
    return name;
}

} // namespace

Program::Program(const lang::Request& request, lang::Loader& loader) : loader_(loader) {
    instances_.emplace_back();
    own_ = &instances_.back();
    const Module* first = module(request.name, request.text, request.kind);
    if (request.kind != lang::FileKind::Job && request.kind != lang::FileKind::Model)
        beyond_ = true;
    for (const ast::Statement& statement : first->statements)
        if (const auto* dates = std::get_if<ast::Dates>(&statement.node))
            date_ = dates->first;
    if (request.season)
        read_settings(*module("season", request.season->text, lang::FileKind::Season));
    if (request.kind == lang::FileKind::Job)
        read_job(*first, request, loader);
    else
        own_->module = first;
    if (request.field_sets)
        read_settings(*module("field", *request.field_sets, lang::FileKind::CommandLine));
    for (const ast::Statement& statement : first->statements) {
        if (const auto* entry = std::get_if<ast::Entry>(&statement.node))
            add_sets(*first, entry->sets, std::string(entry->name.text) + ".");
        const auto* option = std::get_if<ast::Option>(&statement.node);
        if (option != nullptr && !request.option.empty() && option->title.text == request.option)
            add_sets(*first, option->sets, "");
    }
    for (const auto& [name, value] : request.sets)
        read_settings(
            *module("set", "set " + name + " = " + value + "\n", lang::FileKind::CommandLine));
    if (own_->module == nullptr)
        beyond_ = true;
    else if (!beyond_)
        fill(*own_);
    beyond_ = beyond_ || said_.has_errors();
}

const Module* Program::module(std::string_view name, std::string text, lang::FileKind kind) {
    const lang::FileId file = sources_.add(std::string(name), std::move(text));
    modules_.push_back(lang::parse(sources_, file, kind, said_));
    own_kinds(modules_.back());
    return &modules_.back();
}

// Nouns, units, functions and lists keep their own names in every model.
void Program::own_kinds(const Module& module) {
    for (const ast::Statement& statement : module.statements) {
        if (const auto* noun = std::get_if<ast::Noun>(&statement.node))
            units.add_noun(noun->name.text);
        if (const auto* unit = std::get_if<ast::UnitDefinition>(&statement.node)) {
            const auto of = units.read(std::string(unit->unit.dollar ? "$" : "") +
                                       std::string(unit->unit.text));
            if (of)
                units.add(unit->name.text, multiply(number(decimal(unit->number)), *of));
            else
                beyond_ = true;
        }
        const auto function = [&](const ast::Word& name) {
            auto& there = functions[std::string(name.text)];
            there = {&module, &statement, there.statement != nullptr};
        };
        if (const auto* table = std::get_if<ast::Table>(&statement.node))
            function(table->name);
        if (const auto* define = std::get_if<ast::Define>(&statement.node))
            function(define->name);
        if (const auto* list = std::get_if<ast::List>(&statement.node)) {
            auto& entries = lists_[std::string(list->name.text)];
            for (const ast::Word& entry : list->entries)
                if (entries.empty() || list->entries.size() > entries.size())
                    entries.emplace_back(entry.text);
        }
    }
}

void Program::read_job(const Module& job, const lang::Request& request, lang::Loader& loader) {
    const auto load = [&](lang::ReferenceKind kind, const ast::Text& path, lang::FileKind as) {
        lang::Outcome<lang::Loaded> loaded = loader.load(kind, path.text, request.name);
        beyond_ = beyond_ || !loaded;
        return loaded ? module(loaded->name, loaded->text, as) : nullptr;
    };
    std::vector<const Module*> values;
    const Module* season = nullptr;
    for (const ast::Statement& statement : job.statements) {
        if (const auto* model = std::get_if<ast::ModelReference>(&statement.node)) {
            own_->module = load(lang::ReferenceKind::Model, model->path, lang::FileKind::Model);
            models_[std::string(model->path.text)] = own_->module;
        }
        if (const auto* reference = std::get_if<ast::SeasonReference>(&statement.node))
            season = request.season ? nullptr
                                    : load(lang::ReferenceKind::Season, reference->path,
                                           lang::FileKind::Season);
        if (const auto* reference = std::get_if<ast::ValuesReference>(&statement.node))
            values.push_back(
                load(lang::ReferenceKind::Values, reference->path, lang::FileKind::Values));
    }
    if (season != nullptr)
        read_settings(*season);
    for (const Module* of : values)
        if (of != nullptr)
            read_settings(*of);
    std::map<std::string, std::vector<std::string>> listed;
    for (const ast::Statement& statement : job.statements)
        if (const auto* entry = std::get_if<ast::Entry>(&statement.node))
            listed[std::string(entry->list.text)].emplace_back(entry->name.text);
    read_settings(job);
    // Lists are read when the models are: the job's own entries take their place.
    if (own_->module != nullptr)
        for (const ast::Statement& statement : own_->module->statements)
            if (const auto* uses = std::get_if<ast::Use>(&statement.node))
                static_cast<void>(use_shared(uses->path.text, *own_));
    for (auto& [list, entries] : listed)
        lists_[list] = entries;
}

// What holds for a part of the year stands over what holds for the rest of it.
void Program::read_settings(const Module& module) {
    for (const bool of_days : {false, true})
        for (const ast::Statement& statement : module.statements)
            if (const auto* set = std::get_if<ast::Set>(&statement.node);
                set != nullptr && set->within.has_value() == of_days && holds(*set))
                settings_.push_back({std::string(set->name.text), {&module, set->value}});
    for (const ast::Statement& statement : module.statements)
        if (std::holds_alternative<ast::Entry>(statement.node) &&
            module.kind == lang::FileKind::Values)
            beyond_ = true;
}

// Without days always; with days for jobs whose earliest start is one of them.
bool Program::holds(const ast::Set& set) const {
    const auto day = [](const ast::Date& date) {
        return (date.year * 12 + date.month) * 31 + date.day;
    };
    if (!set.within)
        return true;
    const ast::Date& last = set.within->last ? *set.within->last : set.within->first;
    return date_ && day(*date_) >= day(set.within->first) && day(*date_) <= day(last);
}

void Program::add_sets(const Module& module, const std::vector<ast::Set>& sets,
                       const std::string& prefix) {
    for (const ast::Set& set : sets)
        settings_.push_back({prefix + std::string(set.name.text), {&module, set.value}});
}

Instance* Program::use_shared(std::string_view path, const Instance& user) {
    if (const auto there = shared_.find(path); there != shared_.end())
        return there->second;
    const std::string key(path);
    if (models_.count(key) == 0) {
        const lang::Outcome<lang::Loaded> loaded =
            loader_.load(lang::ReferenceKind::Model, path, sources_.file(user.module->file).name());
        beyond_ = beyond_ || !loaded || instances_.size() > 100;
        if (beyond_)
            return nullptr;
        models_[key] = module(loaded->name, loaded->text, lang::FileKind::Model);
    }
    instances_.emplace_back();
    Instance& made = instances_.back();
    made.module = models_[key];
    made.prefix = name_of(path) + ".";
    shared_[key] = &made;
    fill(made);
    return &made;
}

void Program::fill(Instance& instance) {
    std::string each, part;
    bool beyond = instance.beyond;
    const Module& module = *instance.module;
    for (const ast::Statement& statement : module.statements) {
        each.clear();
        part.clear();
        beyond = instance.beyond;
        if (statement.part != ast::none) {
            const auto& of = std::get<ast::Part>(module.statements[statement.part].node);
            part = of.title.text;
            each = of.each ? std::string(of.each->text) : "";
            beyond = beyond || of.of || (!each.empty() && &instance != own_);
        }
        if (const auto* use_of = std::get_if<ast::Use>(&statement.node)) {
            use(instance, *use_of, !each.empty());
            if (&instance == own_)
                for (Instance& used : instances_)
                    if (used.prefix == (use_of->alias ? std::string(use_of->alias->text)
                                                      : name_of(use_of->path.text)) +
                                           ".")
                        used.part = statement.part == ast::none
                                        ? std::string(used.module->title.text)
                                        : part;
        } else
            declare(instance, statement, each, beyond);
    }
}

void Program::use(Instance& instance, const ast::Use& use, bool in_part_each) {
    const std::string name = use.alias ? std::string(use.alias->text) : name_of(use.path.text);
    Instance* shared = use_shared(use.path.text, instance);
    if (shared == nullptr || shared->module->kind == lang::FileKind::Library)
        return;
    if (use.bindings.empty()) {
        instance.used[name] = shared;
        return;
    }
    // Whether somebody uses the shared one too is not looked into: it has the model's own values
    // then, but for what a season sets by its name.
    instances_.emplace_back();
    Instance& copy = instances_.back();
    copy.module = shared->module;
    copy.prefix = name + ".";
    copy.user = &instance;
    copy.shared = shared;
    copy.beyond = &instance != own_ || in_part_each;
    for (const ast::Binding& binding : use.bindings)
        copy.with[std::string(binding.name.text)] = {instance.module, binding.value};
    instance.used[name] = &copy;
    fill(copy);
}

void Program::declare(Instance& instance, const ast::Statement& statement, std::string each,
                      bool beyond) {
    using What = Declared::What;
    const auto add = [&](const ast::Word& name, const char* ending, What what) {
        const std::string full = std::string(name.text) + ending;
        instance.names[full] = {what, &instance, &statement, full, each, beyond};
    };
    if (const auto* given = std::get_if<ast::Given>(&statement.node))
        add(given->name, "", What::Given);
    if (const auto* line = std::get_if<ast::Line>(&statement.node))
        add(line->name, "", What::Line);
    if (const auto* cost = std::get_if<ast::Cost>(&statement.node)) {
        add(cost->name, "", What::Rate);
        add(cost->name, ".quantity", What::Quantity);
        add(cost->name, ".amount", What::Amount);
    }
    if (const auto* event = std::get_if<ast::Event>(&statement.node)) {
        add(event->name, "", What::Count);
        add(event->name, ".amount", What::EventAmount);
        add(event->name, ".money", What::EventMoney);
    }
}

const std::vector<std::string>& Program::entries(std::string_view list) const {
    static const std::vector<std::string> one_without_a_name{""};
    const auto found = lists_.find(std::string(list));
    return found == lists_.end() || found->second.empty() ? one_without_a_name : found->second;
}

const Setting* Program::last_setting(std::string_view name, std::string_view in_every_entry) const {
    for (auto setting = settings_.rbegin(); setting != settings_.rend(); ++setting)
        if (setting->name == name || setting->name == in_every_entry)
            return &*setting;
    return nullptr;
}

} // namespace acre::fuzz::second
