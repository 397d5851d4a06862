#include "cli/season/job_facts.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <optional>
#include <utility>

#include "cli/shared/files/confined.h"
#include "cli/shared/files/read_text.h"
#include "cli/shared/legacy.h"
#include "engine/questions/estimate.h"
#include "engine/readers/adjoint.h"
#include "lang/diag/safe_text.h"
#include "lang/syntax/parse.h"

namespace acre::cli {
namespace {

namespace ast = lang::ast;

// A job that only sets numbers and choices, as most do.
struct PlainJob {
    std::string model, season, title, who;
    std::optional<ast::Date> date;
    struct Set {
        std::string name, choice, unit; // a choice, or a number in a unit
        double number = 0;
    };
    std::vector<Set> sets;

    // Jobs of one key share a plan: the same model and season, the same givens set.
    std::string key(const std::string& folder) const {
        std::string text = folder + "\n" + model + "\n" + season;
        std::vector<std::string> names;
        for (const Set& set : sets)
            names.push_back(set.name);
        std::sort(names.begin(), names.end());
        for (const std::string& name : names)
            text += "\n" + name;
        return text;
    }
};

bool read_set(const ast::Module& module, const ast::Set& from, PlainJob::Set& set) {
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
        if (number->unit)
            set.unit = (number->unit->dollar ? "$" : "") + std::string(number->unit->text);
        return true;
    }
    const auto* name = std::get_if<ast::Name>(&module.exprs[id].node);
    if (name == nullptr || sign < 0 || name->text.find('.') != std::string_view::npos)
        return false;
    set.choice = name->text;
    return true;
}

std::optional<PlainJob> plain_job(const ast::Module& module) {
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
        } else if (const auto* date = std::get_if<ast::Date>(&statement.node)) {
            job.date = *date;
        } else if (!std::holds_alternative<ast::Option>(statement.node)) {
            return std::nullopt; // blocks and fields need all of the way
        }
    }
    return job;
}

long day_of(const ast::Date& date) {
    return std::chrono::sys_days{std::chrono::year{date.year} / date.month / date.day}
        .time_since_epoch()
        .count();
}

} // namespace

// One plan for many jobs.
struct SeasonReader::Shared {
    engine::Job job;
    std::map<std::string, std::uint32_t> input; // by name of the given, into Plan::inputs
    std::optional<engine::Adjoint> cost;        // slopes of the cost by everything it rests on
    std::vector<double> inputs, slope, bar;
    engine::Slot days = engine::no_slot, gallons = engine::no_slot;
    struct Machine {
        std::string name;
        engine::Slot own = 0, fixed = 0, hours = 0;
    };
    std::vector<Machine> machines;
    bool plain = true; // every given that jobs of this key set is an input

    engine::Slot slot(const std::string& name) const {
        const lang::LineId id = job->sheet().find(name);
        return id == lang::none ? engine::no_slot : job->plan().line_slot[id];
    }
    double at(engine::Slot slot, const engine::Values& values) const {
        return slot == engine::no_slot || !std::isfinite(values.slot[slot]) ? 0 : values.slot[slot];
    }

    void prepare(const PlainJob* first) {
        const engine::Plan& plan = job->plan();
        const lang::Sheet& sheet = job->sheet();
        for (std::uint32_t i = 0; i < plan.inputs.size(); ++i) {
            input.emplace(sheet.lines[plan.inputs[i].line].name, i);
            inputs.push_back(plan.inputs[i].value);
        }
        plain = first != nullptr &&
                std::all_of(first->sets.begin(), first->sets.end(),
                            [&](const PlainJob::Set& set) { return input.contains(set.name); });
        slope.resize(inputs.size());
        cost.emplace(plan, plan.line_slot[sheet.cost_total]);
        days = slot("days");
        gallons = slot("gallons");
        constexpr std::string_view tail = ".own_per_hour";
        for (const lang::Line& line : sheet.lines) {
            if (!line.name.ends_with(tail))
                continue;
            const std::string name = line.name.substr(0, line.name.size() - tail.size());
            const Machine machine{name, slot(line.name), slot(name + ".fixed_per_year"),
                                  slot(name + ".hours_per_year")};
            if (machine.own != engine::no_slot && machine.fixed != engine::no_slot &&
                machine.hours != engine::no_slot)
                machines.push_back(machine);
        }
    }

    // False: something is not lawful, so the slow way has to say what.
    bool put_in(const PlainJob& from) {
        const lang::Sheet& sheet = job->sheet();
        for (const PlainJob::Set& set : from.sets) {
            const auto at = input.find(set.name);
            if (at == input.end())
                return false;
            const lang::Line& line = sheet.lines[job->plan().inputs[at->second].line];
            if (line.type.kind == lang::Type::Kind::Choice) {
                const std::vector<std::string>& options = sheet.choices[line.type.choice].options;
                const auto option = std::find(options.begin(), options.end(), set.choice);
                if (option == options.end())
                    return false;
                inputs[at->second] = static_cast<double>(option - options.begin());
                continue;
            }
            lang::UnitError error{};
            const std::optional<lang::Unit> unit =
                set.choice.empty()
                    ? lang::read_unit(set.unit.empty() ? "1" : set.unit, sheet.units, error)
                    : std::nullopt;
            if (!unit || unit->dim != line.type.unit.dim)
                return false;
            inputs[at->second] = lang::conversion(*unit, line.type.unit).apply(set.number);
        }
        return true;
    }
    bool is_lawful(const engine::Values& values) const {
        const engine::Plan& plan = job->plan();
        const lang::Sheet& sheet = job->sheet();
        for (const engine::Slot slot : plan.require_slot)
            if (slot != engine::no_slot && values.slot[slot] != 1)
                return false;
        for (std::size_t i = 0; i < sheet.givens.size(); ++i) {
            const engine::Slot given = plan.line_slot[sheet.givens[i].line];
            if (given == engine::no_slot)
                continue;
            const double value = values.slot[given];
            if ((plan.within_low[i] != engine::no_slot &&
                 value < values.slot[plan.within_low[i]]) ||
                (plan.within_high[i] != engine::no_slot &&
                 value > values.slot[plan.within_high[i]]))
                return false;
        }
        return std::isfinite(values.slot[plan.line_slot[sheet.price_total]]);
    }

    void facts(const engine::Values& values, engine::SeasonJob& to,
               std::map<std::string, engine::SeasonMachine>& all) {
        const engine::Plan& plan = job->plan();
        const lang::Sheet& sheet = job->sheet();
        to.price = values.slot[plan.line_slot[sheet.price_total]];
        to.cost = values.slot[plan.line_slot[sheet.cost_total]];
        to.days = at(days, values);
        to.gallons = at(gallons, values);
        for (const lang::PriceItem& item : sheet.prices)
            if (item.per_text == "ac" && to.acres == 0)
                to.acres = at(plan.line_slot[item.quantity], values);
        // The hours on a machine are what an hour of owning it adds to the cost: the cost is linear
        // in every ownership rate.
        cost->run(values.slot, slope, bar);
        for (const Machine& machine : machines) {
            const double hours = machine.own < bar.size() ? bar[machine.own] : 0;
            if (hours > 1e-9)
                to.hours[machine.name] = hours;
            all.insert_or_assign(machine.name,
                                 engine::SeasonMachine{machine.name, at(machine.own, values),
                                                       at(machine.fixed, values),
                                                       at(machine.hours, values)});
        }
    }
};

SeasonReader::SeasonReader(std::string models_folder) : models_folder_(std::move(models_folder)) {}
SeasonReader::~SeasonReader() = default;
std::size_t SeasonReader::plans() const {
    return shared_.size();
}

bool SeasonReader::read(const std::string& path, engine::SeasonJob& job, Console& console,
                        int& code) {
    lang::Outcome<std::string> text = read_text(path, false);
    if (!text)
        return read_slowly(path, {}, job, console, code);
    lang::SourceMap sources;
    lang::Diagnostics diagnostics;
    const ast::Module module =
        lang::parse(sources, sources.add(path, std::move(*text)), lang::FileKind::Job, diagnostics);
    const std::optional<PlainJob> plain =
        diagnostics.has_errors() ? std::nullopt : plain_job(module);
    if (!plain || !plain->date)
        return read_slowly(path, {}, job, console, code);
    const std::string key = plain->key(folder_of(path));
    const auto shared = shared_.find(key);
    if (shared == shared_.end())
        return read_slowly(path, key, job, console, code);
    Shared& one = *shared->second;
    steps_ += one.job->plan().size();
    if (!one.plain || !one.put_in(*plain))
        return read_slowly(path, {}, job, console, code);
    const engine::Values values = engine::evaluate(one.job->plan(), one.inputs);
    if (!one.is_lawful(values))
        return read_slowly(path, {}, job, console, code);
    job.file = path;
    job.title = plain->title;
    job.who = plain->who;
    job.start = day_of(*plain->date);
    one.facts(values, job, machines_);
    return true;
}

// All of the way, with every check and message. With a key the plan is kept for the jobs that
// follow.
bool SeasonReader::read_slowly(const std::string& path, const std::string& key,
                               engine::SeasonJob& job, Console& console, int& code) {
    JobArguments arguments;
    arguments.path = path;
    arguments.models = models_folder_;
    auto shared = std::make_unique<Shared>();
    shared->job = open_job(arguments, console, code);
    if (!shared->job)
        return false;
    const engine::PricedJob& opened = *shared->job;
    const std::size_t nodes = opened.sheet().nodes.size();
    steps_ += nodes;
    const lang::Outcome<engine::Estimate> estimate = engine::estimate(opened);
    code = report(estimate.said, console);
    if (!estimate || code != exit_done)
        return false;
    const lang::JobInfo& info = opened.sheet().job;
    if (!info.date) {
        console.err += "acrewright: `" + lang::terminal_text(path) +
                       "` has no `date`: a season needs the day each job starts\n";
        code = exit_at_fault;
        return false;
    }
    job.file = path;
    job.title = info.title;
    job.who = info.who;
    job.start = day_of(*info.date);
    std::optional<PlainJob> plain;
    if (!key.empty()) {
        lang::Diagnostics ignored;
        lang::SourceMap sources;
        plain = plain_job(lang::parse(sources, sources.add(path, opened.request().text),
                                      lang::FileKind::Job, ignored));
    }
    shared->prepare(plain ? &*plain : nullptr);
    shared->facts(opened.values(), job, machines_);
    if (!key.empty() && kept_steps_ + nodes <= max_kept_steps) {
        kept_steps_ += nodes;
        shared_.emplace(key, std::move(shared));
    }
    return true;
}

} // namespace acre::cli
