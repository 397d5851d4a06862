// What a log counts, and what the machines cost that it counts hours of. Every used model says it
// for itself; the lines keep the names that the sheet has.
#include <algorithm>
#include <array>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "lang/check/resolve/formula.h"
#include "lang/check/resolve/lookup.h"
#include "lang/check/resolve/messages.h"
#include "lang/check/resolve/resolution.h"
#include "lang/diag/suggest.h"

namespace acre::lang::resolving {
namespace {

const ast::Fleet* fleet_of(const ast::Module& module) {
    for (const ast::Statement& statement : module.statements)
        if (const auto* fleet = std::get_if<ast::Fleet>(&statement.node))
            return fleet;
    return nullptr;
}

// An instance for each entry of a list, where the job lists none, is the one that there is: it goes
// by the name of its model, as the shared one does.
bool is_only_one(const Resolution& r, const Instance& instance) {
    if (instance.owner == none)
        return true;
    const Instance& owner = r.instances[instance.owner];
    const Lists& of = r.scopes[owner.module].aliases[instance.alias].of;
    return !of.empty() && r.entry_prefix(of, owner.at, instance.at).empty();
}

std::string machine_name(const Resolution& r, const Instance& instance) {
    if (!is_only_one(r, instance))
        return instance.prefix.substr(0, instance.prefix.size() - 1);
    return stem_of(r.sources.file(r.scopes[instance.module].module->file).name());
}

// What a job has one figure of: fuel, days.
enum class OnlyOne : std::uint8_t { Fuel, Days, No };
using OnesTaken = std::array<bool, 3>;

OnlyOne only_one(const Line& line) {
    if (line.unit_text == "gal" || line.unit_text == "L")
        return OnlyOne::Fuel;
    return line.unit_text == "day" ? OnlyOne::Days : OnlyOne::No;
}

class Counter {
  public:
    // `by_model`: what the job's own model counts; what its used models count of it is in there.
    Counter(Resolution& r, std::uint32_t instance, OnesTaken& by_model)
        : r_(r),
          instance_(instance),
          by_model_(by_model),
          here_(r.instances[instance]),
          scope_(r.scopes[here_.module]) {}

    void run() {
        for (const ast::Statement& statement : scope_.module->statements)
            if (const auto* count = std::get_if<ast::Count>(&statement.node))
                for (const ast::Counted& counted : count->lines)
                    take(counted);
    }

  private:
    void take(const ast::Counted& said) {
        const Where where = r_.where(instance_, here_.at);
        const Found found = look_up(r_, where, said.line.text);
        if (found.state == Found::State::Absent)
            report_unknown_name(r_, where, said.line.text, said.line.span);
        const Alias* machine = said.of ? machine_named(*said.of) : nullptr;
        if (found.state != Found::State::Line || (said.of && machine == nullptr) ||
            !is_counted(said, found.line))
            return;
        const Found many = said.many ? how_many(*said.many) : Found{};
        Lists over = found.of;
        if (many.state == Found::State::Line)
            for (const std::uint32_t list : many.of)
                over.add(list);
        if (machine != nullptr)
            for (const std::uint32_t list : machine->of)
                over.add(list);
        // Of a line or a machine that each entry has, the one of every entry.
        for (std::uint32_t c = 0; c < r_.copies(over, here_.at); ++c) {
            const Entries at = r_.copy(over, here_.at, c);
            add(said, look_up(r_, instance_, said.line.text, at).line,
                machine == nullptr ? none : instance_of(*machine, at),
                many.state == Found::State::Line ? look_up(r_, instance_, said.many->text, at).line
                                                 : none);
        }
    }

    std::uint32_t instance_of(const Alias& alias, const Entries& at) const {
        const std::uint32_t first =
            here_.targets[static_cast<std::size_t>(&alias - scope_.aliases.data())];
        return first == none ? none : first + r_.copy_index(alias.of, here_.at, at);
    }

    void add(const ast::Counted& said, LineId line, std::uint32_t machine, LineId many) {
        const auto one = static_cast<std::size_t>(only_one(r_.sheet.lines[line]));
        if (instance_ != 0 && by_model_[one])
            return;
        by_model_[one] =
            by_model_[one] || (instance_ == 0 && one != static_cast<std::size_t>(OnlyOne::No));
        std::string name;
        if (machine != none)
            name = machine_name(r_, r_.instances[machine]);
        // Of one model: others may work with the same machine, and count the same lines.
        for (std::size_t i = first_; i < r_.sheet.counted.size(); ++i) {
            const Counted& other = r_.sheet.counted[i];
            if (other.machine != name)
                continue;
            if (other.line == line)
                return twice(fmt::format("`{}` is counted twice", said.line.text), said.line.span);
            if (!name.empty())
                return twice(fmt::format("`{}` has two meters", said.of->text), said.of->span);
        }
        r_.sheet.counted.push_back({line, many, std::move(name)});
    }

    void twice(std::string title, Span span) {
        r_.add(problem(Code::N202, std::move(title), span, "again", {"keep one of them"}));
    }

    // The line that says how many of a machine there are: a plain number.
    Found how_many(const ast::Word& name) {
        const Where where = r_.where(instance_, here_.at);
        const Found found = look_up(r_, where, name.text);
        if (found.state == Found::State::Absent)
            report_unknown_name(r_, where, name.text, name.span);
        if (found.state != Found::State::Line)
            return {};
        const Line& line = r_.sheet.lines[found.line];
        if (line.type.kind == Type::Kind::Poison ||
            (line.type.kind != Type::Kind::Choice && line.type.unit.is_plain()))
            return found;
        Diagnostic d = problem(
            Code::U304,
            fmt::format("how many machines there are is a plain number, and `{}` is {}", name.text,
                        line.type.kind == Type::Kind::Choice ? "a choice" : "in " + line.unit_text),
            name.span, line.unit_text);
        d.others.push_back({line.name_span, "defined here"});
        r_.add(std::move(d));
        return {};
    }

    // Numbers are counted, and a meter counts hours.
    bool is_counted(const ast::Counted& said, LineId id) {
        const Line& line = r_.sheet.lines[id];
        if (line.type.kind == Type::Kind::Poison && line.role != Role::CostQuantity)
            return false;
        const bool number = line.type.kind != Type::Kind::Choice;
        if (number && (!said.of || line.type.unit.dim == r_.sheet.units.find("h")->dim))
            return true;
        Diagnostic d = problem(
            number ? Code::U304 : Code::U309,
            number ? fmt::format("a machine's meter counts hours, and `{}` is in {}",
                                 said.line.text, line.unit_text)
                   : fmt::format("`{}` is a choice, and a log counts numbers", said.line.text),
            said.line.span, number ? line.unit_text : "a choice");
        if (number)
            d.helps.push_back({fmt::format("for work, write  count {}", said.line.text), {}});
        d.others.push_back({line.name_span, "defined here"});
        r_.add(std::move(d));
        return false;
    }

    const Alias* machine_named(const ast::Word& name) {
        const Alias* alias = scope_.find_alias(name.text);
        if (alias != nullptr && alias->module == none)
            return nullptr; // reported
        if (alias != nullptr && fleet_of(*r_.scopes[alias->module].module) != nullptr)
            return alias;
        std::vector<std::string_view> machines;
        for (const Alias& other : scope_.aliases)
            if (other.module != none && fleet_of(*r_.scopes[other.module].module) != nullptr)
                machines.push_back(other.name);
        Diagnostic d =
            problem(Code::N216,
                    alias == nullptr ? fmt::format("no used model is called `{}` here", name.text)
                                     : fmt::format("`{}` does not say what it costs a year, so it "
                                                   "is no machine of a fleet",
                                                   name.text),
                    name.span, "not a machine");
        const std::vector<std::string_view> found = near_names(name.text, machines);
        for (const std::string_view near : found)
            d.helps.push_back({fmt::format("did you mean `{}`?", near),
                               near_edit(name.text, found, near, name.span)});
        if (alias != nullptr)
            d.helps.push_back(
                {fmt::format("in {}, write  fleet costs MONEY_A_YEAR over "
                             "HOURS_A_YEAR",
                             r_.sources.file(r_.scopes[alias->module].module->file).name()),
                 {}});
        else if (!machines.empty())
            d.notes.push_back(fmt::format("machines here: {}", listed(machines)));
        r_.add(std::move(d));
        return nullptr;
    }

    Resolution& r_;
    std::uint32_t instance_;
    OnesTaken& by_model_;
    const Instance& here_;
    const Scope& scope_;
    std::size_t first_ = r_.sheet.counted.size(); // of this instance
};

} // namespace

void take_counts(Resolution& r) {
    OnesTaken by_model{};
    for (std::uint32_t i = 0; i < r.instances.size() && !r.full; ++i) {
        Counter(r, i, by_model).run();
        const ast::Module& module = *r.scopes[r.instances[i].module].module;
        if (const ast::Fleet* fleet = fleet_of(module)) {
            const Where where = r.where(i, r.instances[i].at);
            const NodeId costs = build(r, where, fleet->costs);
            const NodeId over = build(r, where, fleet->over);
            r.sheet.fleets.push_back({machine_name(r, r.instances[i]), costs, over});
        }
    }
}

} // namespace acre::lang::resolving
