#include "lang/check/resolve/lists.h"

#include <algorithm>
#include <string>
#include <utility>

#include <fmt/format.h>

#include "lang/check/resolve/messages.h"
#include "lang/check/resolve/resolution.h"
#include "lang/diag/suggest.h"
#include "lang/syntax/words.h"

namespace acre::lang::resolving {
namespace {

bool same_entries(const List& list, const ast::List& other) {
    return std::equal(
        list.entries.begin(), list.entries.end(), other.entries.begin(), other.entries.end(),
        [](std::string_view a, const ast::Word& b) { return a == b.text; });
}

void declare(Resolution& r, const ast::List& said) {
    if (keyword_of(said.name.text) != Keyword::None)
        return r.add(problem(
            Code::S108,
            fmt::format("`{}` is a word of the notation and cannot name a list", said.name.text),
            said.name.span, {},
            {fmt::format("choose another name, such as `{}_1`", said.name.text)}));
    const std::uint32_t there = r.find_list(said.name.text);
    if (there == none) {
        if (r.lists.size() == max_lists)
            return r.too_many("lists", max_lists, said.name.span);
        List list{said.name.text, said.name.span, {}, false, false, none};
        for (const ast::Word& entry : said.entries)
            list.entries.push_back(entry.text);
        list.choice = r.add_choice(said.name, said.entries);
        r.sheet.choices[list.choice]
            .options.emplace_back(); // an entry that the model does not name
        r.lists.push_back(std::move(list));
        return;
    }
    const List& first = r.lists[there];
    const bool same_file = first.span.file == said.name.span.file;
    if (same_file || !same_entries(first, said))
        report_twice(r.sources, r.diagnostics,
                     same_file ? fmt::format("the list `{}` is declared twice", said.name.text)
                               : fmt::format("two used models declare the list `{}` differently",
                                             said.name.text),
                     said.name.span, first.span, {}, same_file ? Code::N202 : Code::N210);
}

// Texts of the first version did not say that blocks are a list, and others may still leave it out.
void declare_blocks(Resolution& r) {
    if (r.find_list("block") != none)
        return;
    for (const ast::Module& module : r.program.modules)
        for (const ast::Statement& statement : module.statements) {
            const auto* part = std::get_if<ast::Part>(&statement.node);
            if (part == nullptr || !part->each || part->each->text != "block")
                continue;
            if (rules_of(r.program.notation).lists_are_declared) {
                Diagnostic d = problem(Code::L824, "`block` is a list, and nothing says so",
                                       part->each->span, "not declared");
                const Span before{statement.span.file, statement.span.begin, statement.span.begin};
                d.helps.push_back({"write  list block \"a piece of ground\"  before this part",
                                   Edit{before, "list block  \"a piece of ground\"\n\n"}});
                r.add(std::move(d));
            }
            declare(r, {*part->each, {}, {}});
            return;
        }
}

} // namespace

void report_no_list(Resolution& r, const ast::Word& name) {
    Diagnostic d =
        problem(Code::N217, fmt::format("no list named `{}`", name.text), name.span, "not a list");
    std::vector<std::string_view> names;
    for (const List& list : r.lists)
        names.push_back(list.name);
    const std::vector<std::string_view> found = near_names(name.text, names);
    for (const std::string_view near : found)
        d.helps.push_back({fmt::format("did you mean `{}`?", near),
                           near_edit(name.text, found, near, name.span)});
    if (!names.empty())
        d.notes.push_back(fmt::format("the lists of the model: {}", listed(names)));
    if (found.empty())
        d.helps.push_back({fmt::format("in the model, write  list {}", name.text), std::nullopt});
    r.add(std::move(d));
}

namespace {

void warn_of_unread(Resolution& r, const List& list) {
    const auto first = std::find_if(r.entries.begin(), r.entries.end(), [&](const ListEntry& e) {
        return !e.said.empty() && r.lists[e.list].name == list.name;
    });
    if (first != r.entries.end())
        r.add(problem(Code::L810,
                      fmt::format("no part of the model reads the list `{}`", list.name),
                      first->span, "does nothing",
                      {fmt::format("in the model, write  part \"…\" each {}", list.name)}));
}

// What an entry says of itself; a later text that says it again wins.
void tell_of(Entry& to, const ast::Entry& said) {
    if (said.label)
        to.label = said.label->text;
    if (said.field) {
        to.field_path = said.field->text;
        to.field_within = said.within ? said.within->text : std::string_view();
    }
}

// A job may say more of an entry that a file of values lists; one text lists it once.
void say_again(Resolution& r, ListEntry& first, std::uint32_t list, Span span,
               const EntrySaid& said) {
    if (first.said.empty() || first.list != list || said.entry == nullptr ||
        first.said.back().module == said.module)
        return report_twice(r.sources, r.diagnostics,
                            fmt::format("two entries are called `{}`", first.name), span,
                            first.span);
    first.said.push_back(said);
    Entries place;
    place.put(list, first.entry);
    tell_of(r.sheet.entries[r.place_ids.at(place)], *said.entry);
}

// Whose name an entry would take from a line or a used model.
bool takes_a_name(Resolution& r, std::string_view name, Span span) {
    const Scope& scope = r.scopes[r.program.model];
    const Alias* alias = scope.find_alias(name);
    const Symbol* symbol = alias != nullptr ? nullptr : scope.find(name);
    if (!rules_of(r.program.notation).lists_are_declared || (alias == nullptr && symbol == nullptr))
        return false;
    report_twice(r.sources, r.diagnostics,
                 fmt::format("`{}` is the name of {}, so no entry can have it", name,
                             alias != nullptr ? "a used model" : "a line"),
                 span, alias != nullptr ? alias->span : symbol->span,
                 "give the entry another name");
    return true;
}

void add_entry(Resolution& r, std::uint32_t list, std::string_view name, Span span,
               const EntrySaid& said) {
    const std::uint32_t there =
        r.entry_names.insert(name, static_cast<std::uint32_t>(r.entries.size()),
                             [&r](std::uint32_t i) { return r.entries[i].name; });
    if (there != NameTable::absent)
        return say_again(r, r.entries[there], list, span, said);
    if (takes_a_name(r, name, span))
        return;
    List& into = r.lists[list];
    if (into.entries.size() == max_entries)
        return r.too_many("entries of a list", max_entries, span);
    ListEntry entry{name, span, list, static_cast<std::uint32_t>(into.entries.size()), {}};
    into.entries.push_back(name);
    if (said.entry != nullptr) {
        Entries place;
        place.put(list, entry.entry);
        r.place_ids.emplace(place, static_cast<std::uint32_t>(r.places.size()));
        r.places.push_back(place);
        r.sheet.entries.push_back({std::string(name), {}, {}, {}, none, span});
        entry.said.push_back(said);
        tell_of(r.sheet.entries.back(), *said.entry);
    }
    r.entries.push_back(std::move(entry));
}

void add_entries(Resolution& r, std::uint32_t module) {
    for (const ast::Statement& statement : r.program.modules[module].statements) {
        const auto* entry = std::get_if<ast::Entry>(&statement.node);
        if (entry == nullptr || r.full)
            continue;
        const std::uint32_t list = r.find_list(entry->list.text);
        if (list == none) {
            report_no_list(r, entry->list);
            continue;
        }
        r.lists[list].by_job = true;
        add_entry(r, list, entry->name.text, entry->name.span, {entry, module});
    }
}

} // namespace

std::uint32_t Resolution::find_list(std::string_view name) const {
    for (std::uint32_t l = 0; l < lists.size(); ++l)
        if (lists[l].name == name)
            return l;
    return none;
}

std::uint32_t Resolution::copies(const Lists& of, const Entries& fixed) const {
    std::uint64_t copies = 1;
    for (const std::uint32_t list : of)
        if (!fixed.has(list))
            copies = std::min<std::uint64_t>(copies * lists[list].count(), max_sheet_lines + 1U);
    return static_cast<std::uint32_t>(copies);
}

Entries Resolution::copy(const Lists& of, Entries fixed, std::uint32_t index) const {
    Entries at = fixed;
    for (const std::uint8_t* list = of.end(); list != of.begin();) {
        --list;
        if (fixed.has(*list))
            continue;
        at.put(*list, index % lists[*list].count());
        index /= lists[*list].count();
    }
    return at;
}

std::uint32_t Resolution::copy_index(const Lists& of, const Entries& fixed,
                                     const Entries& at) const {
    std::uint32_t index = 0;
    for (const std::uint32_t list : of)
        if (!fixed.has(list))
            index = index * lists[list].count() + (at.has(list) ? at[list] : 0);
    return index;
}

Lists Resolution::open(const Lists& of, const Entries& at) const {
    Lists out;
    for (const std::uint32_t list : of)
        if (!at.has(list))
            out.add(list);
    return out;
}

std::string Resolution::entry_prefix(const Lists& of, const Entries& fixed,
                                     const Entries& at) const {
    std::string out;
    for (const std::uint32_t list : of)
        if (!fixed.has(list) && !lists[list].entries.empty())
            out.append(lists[list].entries[at[list]]).append(".");
    return out;
}

std::uint32_t Resolution::place_of(const Entries& at) {
    Entries named;
    Entry entry;
    for (std::uint32_t list = 0; list < lists.size(); ++list) {
        if (!at.has(list) || lists[list].entries.empty())
            continue;
        named.put(list, at[list]);
        const std::string_view name = lists[list].entries[at[list]];
        entry.name += fmt::format("{}{}", entry.name.empty() ? "" : ".", name);
        entry.span = lists[list].span;
    }
    if (named.none_at_all())
        return none;
    const auto [there, added] = place_ids.emplace(named, static_cast<std::uint32_t>(places.size()));
    if (added) {
        places.push_back(named);
        sheet.entries.push_back(std::move(entry));
    }
    return there->second;
}

Lists Resolution::lists_of(const ast::Part& part) const {
    Lists out;
    for (const std::optional<ast::Word>& name : {part.of, part.each})
        if (name)
            if (const std::uint32_t list = find_list(name->text); list != none)
                out.add(list);
    return out;
}

void declare_lists(Resolution& r) {
    for (const ast::Module& module : r.program.modules)
        for (const ast::Statement& statement : module.statements)
            if (const auto* list = std::get_if<ast::List>(&statement.node))
                declare(r, *list);
    declare_blocks(r);
    for (const ast::Module& module : r.program.modules)
        for (const ast::Statement& statement : module.statements)
            if (const auto* part = std::get_if<ast::Part>(&statement.node))
                for (const std::optional<ast::Word>& name : {part->each, part->of})
                    if (name) {
                        const std::uint32_t list = r.find_list(name->text);
                        if (list == none)
                            report_no_list(r, *name);
                        else
                            r.lists[list].is_read = true;
                    }
}

void list_entries(Resolution& r) {
    std::vector<std::vector<std::string_view>> of_model;
    for (List& list : r.lists)
        of_model.push_back(std::exchange(list.entries, {}));
    for (const std::uint32_t module : r.program.values)
        add_entries(r, module);
    if (r.program.job != none)
        add_entries(r, r.program.job);
    for (std::uint32_t l = 0; l < r.lists.size(); ++l) {
        if (r.lists[l].by_job && !r.lists[l].is_read)
            warn_of_unread(r, r.lists[l]);
        for (const std::string_view name : of_model[l])
            if (!r.lists[l].by_job)
                add_entry(r, l, name, r.lists[l].span, {});
    }
}

} // namespace acre::lang::resolving
