// Layers of values from outside the model: the season, the job, a field layout, entries, the
// option, the command line. Later wins; every value remembers who set it.
#include <algorithm>
#include <string>
#include <unordered_map>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "lang/check/resolve/added_up.h"
#include "lang/check/resolve/dated_sets.h"
#include "lang/check/resolve/formula.h"
#include "lang/check/resolve/lookup.h"
#include "lang/check/resolve/messages.h"
#include "lang/check/resolve/resolution.h"
#include "lang/check/resolve/season_names.h"
#include "lang/check/resolve/set_messages.h"
#include "lang/diag/described.h"
#include "lang/diag/place.h"
#include "lang/diag/suggest.h"

namespace acre::lang::resolving {
namespace {

// An error in it was told before; its given is to have no value.
bool is_withheld(const Resolution& r, Span span) {
    const Withheld& places = r.program.withheld;
    return std::any_of(places.begin(), places.end(), [&](const auto& place) {
        return place.second >= span.begin && place.second < span.end &&
               place.first == r.sources.file(span.file).name();
    });
}

// One list of `set` statements: the values of one place, in which each given may be set once.
class Place {
  public:
    Place(Resolution& r, Layer layer, const Where& where, bool apply)
        : r_(r),
          layer_(layer),
          where_(where),
          apply_(apply),
          dated_(r) {}

    void set(const ast::Set& set, Span span) {
        const Found found = found_at(set.name, where_.at);
        withheld_ = is_withheld(r_, span);
        if (found.state == Found::State::Absent)
            return withheld_ ? void() : unknown(set.name);
        if (found.state == Found::State::Silent)
            return;
        if (r_.sheet.lines[found.line].given == none)
            return withheld_ ? void() : report_computed(r_, set.name, found.line);
        const Lists over = r_.open(found.of, where_.at);
        if (!is_of_entry(found))
            return withheld_ ? void() : report_not_of_entry(r_, set.name, found.line);
        if (!withheld_ && !set.within && set_before(set.name, found.line, over.size()))
            return;
        if (is_added_up(set.name, found.line, over))
            return;
        kept_ = apply_ && (!set.within || dated_.take(set, found.line, over.size()));
        // Of several entries each computes the value for itself. One that is not kept is looked at
        // once: the others have nothing else to say.
        for (std::uint32_t c = 0; c < (kept_ ? r_.copies(over, where_.at) : 1) && !r_.full; ++c) {
            Where where = where_;
            where.at = r_.copy(over, where_.at, c);
            const LineId line = over.empty() ? found.line : found_at(set.name, where.at).line;
            put(line, set, span, where, over.size());
        }
    }

    // What a season sets and nothing here has.
    void report_unknown() {
        if (unknown_.empty())
            return;
        SeasonNames names(r_, givens());
        for (const ast::Word& name : unknown_)
            names.add(name);
        names.report();
    }

  private:
    // In an entry a name is that of the entry itself, and of nothing else.
    Found found_at(const ast::Word& name, const Entries& at) const {
        const Found found = where_.at.none_at_all() ? Found{} : look_up(r_, 0, name.text, at);
        return found.state == Found::State::Absent ? look_up_outside(r_, name.text, at) : found;
    }
    bool is_of_entry(const Found& found) const {
        const std::uint32_t place = r_.sheet.lines[found.line].entry;
        for (std::uint32_t list = 0; list < r_.lists.size(); ++list)
            if (where_.at.has(list) && !found.of.contains(list) &&
                (place == none || !r_.places[place].has(list) ||
                 r_.places[place][list] != where_.at[list]))
                return false;
        return true;
    }

    // What is set for all entries counts once for each. True: reported.
    bool is_added_up(const ast::Word& name, LineId line, const Lists& set_over) {
        if (line >= r_.added_up.size())
            return false;
        for (const std::uint32_t list : set_over)
            if (r_.lists[list].count() > 1 && r_.added_up[line].over.contains(list)) {
                report_set_for_all(r_, name, list, r_.added_up[line].sum);
                return true;
            }
        return false;
    }

    // `over`: how many lists it is set for all of; one entry may still be set apart.
    bool set_before(const ast::Word& name, LineId line, std::uint32_t over) {
        const auto [there, added] =
            before_.try_emplace(std::uint64_t{line} * max_lists + over, name.span);
        if (added)
            return false;
        report_set_twice(r_, name, there->second);
        return true;
    }

    void put(LineId line, const ast::Set& set, Span span, const Where& where, std::uint32_t over) {
        const std::size_t nodes = r_.sheet.nodes.size();
        const std::size_t args = r_.sheet.args.size();
        const NodeId value =
            withheld_ ? none : build(r_, where, set.value, choice_of(r_.sheet.lines[line].type));
        const bool swings = set.swing && !withheld_;
        const NodeId low = swings ? build(r_, where, set.swing->low) : none;
        const NodeId high = swings ? build(r_, where, set.swing->high) : none;
        const std::string because = set.because ? std::string(set.because->text) : std::string();
        Given& given = r_.sheet.givens[r_.sheet.lines[line].given];
        if (!kept_ && set.within) {
            given.of_other_days.push_back({layer_, span, value, because, over, set.within});
            return;
        }
        if (!kept_) { // an option that is not chosen: its errors are told, its values are not kept
            r_.sheet.nodes.resize(nodes);
            r_.sheet.args.resize(args);
            return;
        }
        // What is set for one entry holds for it, whether it stands before or after what is set for
        // all.
        auto& settings = given.settings;
        auto place = settings.end();
        while (place != settings.begin() && (place - 1)->layer == layer_ &&
               (place - 1)->over < over)
            --place;
        const bool in_force = place == settings.end();
        settings.insert(place, {layer_, span, value, because, over, set.within});
        if (!swings || !in_force)
            return;
        given.swing_low = low;
        given.swing_high = high;
        given.swing_span = set.swing->span;
        given.shape = set.shape;
        given.of_it = set.of_it;
        given.chosen = false;
    }

    void unknown(const ast::Word& name) {
        if (lost_to_syntax(r_, name.text, r_.scopes[r_.program.model].module->file))
            return;
        if (layer_ == Layer::Season)
            return unknown_.push_back(name);
        if (r_.diagnostics.full())
            return r_.add(
                problem(Code::I601, fmt::format("no given named `{}`", name.text), name.span));
        if (report_no_such_entry(r_, name))
            return;
        Diagnostic d = problem(Code::I601, fmt::format("no given named `{}`", name.text), name.span,
                               "not in the model");
        const std::vector<std::string_view> found = near_givens(name.text);
        for (const std::string_view near : found)
            d.helps.push_back(
                {fmt::format("did you mean `{}`{}?", near, place(near, name.span.file)),
                 near_edit(name.text, found, near, name.span)});
        for (const Described& said : described_by(name.text, said_givens(), 3))
            if (std::find(found.begin(), found.end(), said.name) == found.end())
                d.helps.push_back({described_help(said), {}});
        if (d.helps.empty())
            d.notes.push_back(
                fmt::format("the model is {}",
                            r_.sources.file(r_.scopes[r_.program.model].module->file).name()));
        r_.add(std::move(d));
    }

    // As the job's model says them, and by their own dotted names; without the lines of single
    // entries.
    const std::vector<std::string_view>& givens() {
        if (givens_.empty()) {
            in_sight_ = names_in_sight(r_, 0, true);
            for (const Given& given : r_.sheet.givens)
                if (const Line& line = r_.sheet.lines[given.line]; line.entry == none)
                    givens_.push_back(line.name);
            givens_.insert(givens_.end(), in_sight_.begin(), in_sight_.end());
        }
        return givens_;
    }
    std::vector<Described> said_givens() const {
        std::vector<Described> said;
        for (const Given& given : r_.sheet.givens)
            if (const Line& line = r_.sheet.lines[given.line]; line.entry == none)
                said.push_back({line.name, line.label});
        return said;
    }
    std::vector<std::string_view> near_givens(std::string_view name) {
        return near_names(name, givens());
    }

    std::string place(std::string_view name, FileId seen_from) const {
        const Found found = look_up_outside(r_, name, {});
        return found.state != Found::State::Line
                   ? std::string()
                   : fmt::format(
                         " ({})",
                         spoken_place(r_.sources, r_.sheet.lines[found.line].name_span, seen_from));
    }

    Resolution& r_;
    Layer layer_;
    Where where_;
    bool apply_;
    DatedSets dated_;
    bool withheld_ = false, kept_ = false; // the statement at hand
    std::unordered_map<std::uint64_t, Span> before_;
    std::vector<std::string> in_sight_;
    std::vector<std::string_view> givens_;
    std::vector<ast::Word> unknown_; // of a season
};

Where outside(const Resolution& r, std::uint32_t module, const Entries& at = {}) {
    return {&r.program.modules[module], 0, at, nullptr, true};
}

void lay_sets(Resolution& r, std::uint32_t module, Layer layer) {
    if (module == none)
        return;
    Place place(r, layer, outside(r, module), true);
    // What a season sets for some days goes before what it sets for the year.
    for (const bool dated : {false, true})
        for (const ast::Statement& statement : r.program.modules[module].statements)
            if (const auto* set = std::get_if<ast::Set>(&statement.node);
                set != nullptr && set->within.has_value() == dated)
                place.set(*set, statement.span);
    place.report_unknown();
}

Span set_span(const ast::Module& module, const ast::Set& set) {
    const Span value =
        set.value < module.exprs.size() ? module.exprs[set.value].span : set.name.span;
    return join(join(set.name.span, value), set.because ? set.because->span : value);
}

void lay_list(Resolution& r, const std::vector<ast::Set>& sets, Layer layer, const Where& where,
              bool apply) {
    Place place(r, layer, where, apply);
    for (const ast::Set& set : sets)
        place.set(set, set_span(*where.module, set));
}

// What `module`, the job or a file of values, sets in entries.
void lay_entries(Resolution& r, std::uint32_t module, Layer layer) {
    for (const ListEntry& entry : r.entries) {
        Entries at;
        at.put(entry.list, entry.entry);
        for (const EntrySaid& said : entry.said)
            if (said.module == module && !r.full)
                lay_list(r, said.entry->sets, layer, outside(r, module, at), true);
    }
}

void lay_value_files(Resolution& r) {
    for (const std::uint32_t module : r.program.values) {
        lay_sets(r, module, Layer::Values);
        lay_entries(r, module, Layer::Values);
    }
}

void lay_options(Resolution& r) {
    const ast::Module& job = r.program.modules[r.program.job];
    std::vector<const ast::Option*> options;
    NameTable titles_taken;
    for (const ast::Statement& statement : job.statements) {
        const auto* option = std::get_if<ast::Option>(&statement.node);
        if (option == nullptr)
            continue;
        const std::uint32_t there =
            titles_taken.insert(option->title.text, static_cast<std::uint32_t>(options.size()),
                                [&](std::uint32_t i) { return options[i]->title.text; });
        if (there != NameTable::absent) {
            report_twice(r.sources, r.diagnostics,
                         fmt::format("two options are called \"{}\"", option->title.text),
                         option->title.span, options[there]->title.span);
            continue;
        }
        if (options.size() == max_job_options)
            return r.too_many("options", max_job_options, option->title.span);
        if (option->sets.empty())
            report_empty_option(r, *option);
        options.push_back(option);
        r.sheet.job.options.emplace_back(option->title.text);
    }
    bool chosen = false;
    for (const ast::Option* option : options) {
        const bool apply = option->title.text == r.program.option;
        chosen |= apply;
        lay_list(r, option->sets, Layer::Option, outside(r, r.program.job), apply);
    }
    if (r.program.option.empty() || chosen)
        return;
    Diagnostic d = problem(
        Code::I605, fmt::format("the job has no option \"{}\"", r.program.option), job.title.span);
    const std::vector<std::string_view> titles(r.sheet.job.options.begin(),
                                               r.sheet.job.options.end());
    for (const std::string_view near : near_names(r.program.option, titles, 1))
        d.helps.push_back({fmt::format("did you mean \"{}\"?", near), std::nullopt});
    d.notes.push_back(titles.empty() ? std::string("the job has no options")
                                     : fmt::format("its options: {}", listed(titles)));
    r.add(std::move(d));
}

} // namespace

void lay_values(Resolution& r) {
    lay_bindings(r);
    if (rules_of(r.program.notation).entries_are_apart)
        r.added_up = added_up_lines(r);
    lay_sets(r, r.program.season, Layer::Season);
    lay_value_files(r);
    lay_sets(r, r.program.job, Layer::Job);
    lay_sets(r, r.program.field, Layer::Field);
    if (r.program.job != none) {
        report_boundary_for_all(r);
        lay_entries(r, r.program.job, Layer::Entry);
        lay_options(r);
    }
    lay_sets(r, r.program.command_line, Layer::CommandLine);
    warn_of_silent_entries(r);
    keep_as_modeled(r);
    start_from_shared(r);
    for (Given& given : r.sheet.givens) {
        if (given.settings.empty())
            continue;
        Setting& last = given.settings.back();
        if (last.value != none && is_withheld(r, last.span))
            last.value = none; // a default of the model
        r.sheet.lines[given.line].value = last.value;
    }
}

} // namespace acre::lang::resolving
