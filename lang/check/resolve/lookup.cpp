#include "lang/check/resolve/lookup.h"

namespace acre::lang::resolving {
namespace {

// Cuts a dotted name behind its first part. False when it has no dot.
bool cut(std::string_view name, std::string_view& head, std::string_view& tail) {
    const std::size_t dot = name.find('.');
    if (dot == std::string_view::npos)
        return false;
    head = name.substr(0, dot);
    tail = name.substr(dot + 1);
    return true;
}

// The way of a dotted name from one instance to the next.
struct Search {
    const Resolution& r;
    std::uint32_t instance;
    Entries at;    // asked for, by the place or by the name
    Lists of;      // of which the way takes one entry each
    Lists named;   // whose entries the name says
    Lists through; // all lists of the way

    void enter(std::uint32_t first, const Lists& lists) {
        pass(lists);
        instance = first + r.copy_index(lists, r.instances[instance].at, at);
    }

    // `pan` of `pan.thick`.
    bool name_entry(std::string_view name) {
        const std::uint32_t id =
            r.entry_names.find(name, [this](std::uint32_t i) { return r.entries[i].name; });
        if (id == NameTable::absent)
            return false;
        named.add(r.entries[id].list);
        at.put(r.entries[id].list, r.entries[id].entry);
        return true;
    }

    Found line(const Symbol& symbol, std::uint32_t which) {
        pass(r.scopes[r.instances[instance].module].lists_of(symbol));
        const Entries& fixed = r.instances[instance].at;
        for (const std::uint32_t list : named)
            if (!through.contains(list) || (fixed.has(list) && fixed[list] != at[list]))
                return {}; // not a line of that list, or of a model made for another entry
        Found found{Found::State::Line, line_of(r, instance, symbol, which, at), {}, &symbol};
        for (const std::uint32_t list : of)
            if (!named.contains(list))
                found.of.add(list);
        return found;
    }

    void pass(const Lists& lists) {
        for (const std::uint32_t list : lists) {
            through.add(list);
            if (!r.instances[instance].at.has(list))
                of.add(list);
        }
    }
};

std::uint32_t shared_by_stem(const Resolution& r, std::string_view stem) {
    for (const std::uint32_t instance : r.shared) {
        if (instance == none || r.scopes[r.instances[instance].module].symbols.empty())
            continue;
        const std::string_view prefix = r.instances[instance].prefix;
        if (prefix.size() == stem.size() + 1 && prefix.substr(0, stem.size()) == stem)
            return instance;
    }
    return none;
}

} // namespace

LineId line_of(const Resolution& r, std::uint32_t instance, const Symbol& symbol,
               std::uint32_t which, const Entries& at) {
    const Instance& owner = r.instances[instance];
    const Run& run = r.scopes[owner.module].runs[symbol.run];
    return owner.first_lines[symbol.run] + r.copy_index(run.of, owner.at, at) * run.lines +
           symbol.offset + which;
}

Found look_up(const Resolution& r, std::uint32_t instance, std::string_view name,
              const Entries& at) {
    Search search{r, instance, at, {}, {}, {}};
    for (;;) {
        const Instance& here = r.instances[search.instance];
        const Scope& scope = r.scopes[here.module];
        if (const Symbol* symbol = scope.find(name))
            return search.line(*symbol, 0);
        std::string_view head;
        std::string_view tail;
        if (!cut(name, head, tail))
            return {};
        if (const Symbol* symbol = scope.find(head))
            if (const std::uint32_t which = line_with_suffix(symbol->kind, tail); which != none)
                return search.line(*symbol, which);
        if (const Alias* alias = scope.find_alias(head)) {
            const std::uint32_t target =
                here.targets[static_cast<std::size_t>(alias - scope.aliases.data())];
            if (target == none)
                return {Found::State::Silent, none, {}, nullptr};
            search.enter(target, alias->of);
        } else if (!search.name_entry(head)) {
            return {};
        }
        name = tail;
    }
}

Found look_up_outside(const Resolution& r, std::string_view name, const Entries& at) {
    if (const LineId line = r.sheet.find(name); line != none)
        return {Found::State::Line, line, {}, nullptr};
    std::string_view head;
    std::string_view tail;
    if (cut(name, head, tail)) {
        if (const std::uint32_t shared = shared_by_stem(r, head); shared != none) {
            if (const Found found = look_up(r, shared, tail, at);
                found.state != Found::State::Absent)
                return found;
        }
    }
    return look_up(r, 0, name, at);
}

Found look_up(const Resolution& r, const Where& where, std::string_view name) {
    if (where.instance == none)
        return {};
    if (where.outside) {
        // Within an entry its own line comes before one of the same name elsewhere.
        if (!where.at.none_at_all()) {
            if (const Found found = look_up(r, where.instance, name, where.at);
                found.state != Found::State::Absent)
                return found;
        }
        return look_up_outside(r, name, where.at);
    }
    const Found found = look_up(r, where.instance, name, where.at);
    if (found.state != Found::State::Absent || where.instance != 0)
        return found;
    const LineId line = r.sheet.find(name);
    if (line != none &&
        (r.sheet.lines[line].role == Role::PriceLine || r.sheet.lines[line].role == Role::Total))
        return {Found::State::Line, line, {}, nullptr};
    return {};
}

std::vector<std::string> names_in_sight(const Resolution& r, std::uint32_t instance,
                                        bool givens_only) {
    constexpr std::size_t enough = 100'000; // a help may miss a name; it may not take for ever
    std::vector<std::string> out;
    const auto add = [&](std::uint32_t module, const std::string& prefix) {
        for (const Symbol& symbol : r.scopes[module].symbols)
            if (out.size() < enough && (!givens_only || symbol.kind == Symbol::Kind::Given))
                out.push_back(prefix + std::string(symbol.name));
    };
    const Scope& scope = r.scopes[r.instances[instance].module];
    add(r.instances[instance].module, {});
    for (const Alias& alias : scope.aliases)
        if (alias.module != none && out.size() < enough)
            add(alias.module, alias.name + ".");
    return out;
}

} // namespace acre::lang::resolving
