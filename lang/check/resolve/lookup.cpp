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

Found line_found(const Resolution& r, std::uint32_t instance, const Symbol& symbol,
                 std::uint32_t which, std::uint32_t block) {
    const bool each = symbol.each_block() && r.instances[instance].block == none;
    return {Found::State::Line, line_of(r, instance, symbol, which, block == none ? 0 : block),
            each, &symbol};
}

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
               std::uint32_t which, std::uint32_t block) {
    const Instance& owner = r.instances[instance];
    if (owner.block != none)
        return owner.first_line + symbol.offset + which; // made for one block
    return owner.first_line + symbol.offset + symbol.each_before * (r.block_count - 1) +
           block * symbol.stride + which;
}

Found look_up(const Resolution& r, std::uint32_t instance, std::string_view name,
              std::uint32_t block) {
    bool each = false;
    for (;;) {
        const Instance& here = r.instances[instance];
        const Scope& scope = r.scopes[here.module];
        if (const Symbol* symbol = scope.find(name)) {
            Found found = line_found(r, instance, *symbol, 0, block);
            found.each_block |= each;
            return found;
        }
        std::string_view head;
        std::string_view tail;
        if (!cut(name, head, tail))
            return {};
        if (const Symbol* symbol = scope.find(head)) {
            if (const std::uint32_t which = line_with_suffix(symbol->kind, tail); which != none) {
                Found found = line_found(r, instance, *symbol, which, block);
                found.each_block |= each;
                return found;
            }
        }
        const Alias* alias = scope.find_alias(head);
        if (alias == nullptr)
            return {};
        const std::uint32_t target =
            here.targets[static_cast<std::size_t>(alias - scope.aliases.data())];
        if (target == none)
            return {Found::State::Silent};
        const bool instance_each = alias->each_block && here.block == none;
        each |= instance_each;
        instance = target + (instance_each && block != none ? block : 0);
        name = tail;
    }
}

Found look_up_outside(const Resolution& r, std::string_view name, std::uint32_t block) {
    if (const LineId line = r.sheet.find(name); line != none)
        return {Found::State::Line, line, false, nullptr};
    std::string_view head;
    std::string_view tail;
    if (cut(name, head, tail)) {
        if (const std::uint32_t shared = shared_by_stem(r, head); shared != none) {
            if (const Found found = look_up(r, shared, tail, block);
                found.state != Found::State::Absent)
                return found;
        }
    }
    return look_up(r, 0, name, block);
}

Found look_up(const Resolution& r, const Where& where, std::string_view name) {
    if (where.instance == none)
        return {};
    if (where.outside) {
        // Within a block its own line comes before one of the same name elsewhere.
        if (where.block != none) {
            if (const Found found = look_up(r, where.instance, name, where.block);
                found.state != Found::State::Absent)
                return found;
        }
        return look_up_outside(r, name, where.block);
    }
    const Found found = look_up(r, where.instance, name, where.block);
    if (found.state != Found::State::Absent || where.instance != 0)
        return found;
    const LineId line = r.sheet.find(name);
    if (line != none &&
        (r.sheet.lines[line].role == Role::PriceLine || r.sheet.lines[line].role == Role::Total))
        return {Found::State::Line, line, false, nullptr};
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
