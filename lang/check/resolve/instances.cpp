// Instances of used models: one shared by all who use it plainly, one of its own for a use with
// bindings.
#include <algorithm>
#include <string>
#include <utility>

#include <fmt/format.h>

#include "lang/check/resolve/resolution.h"
#include "lang/units/number_text.h"

namespace acre::lang::resolving {
namespace {

class Builder {
  public:
    explicit Builder(Resolution& r) : r_(r) {}

    void run() {
        add(r_.program.model, {}, none, none, {});
        r_.sheet.parts.reserve(16);
        // First come first: the uses of the job's own model, then theirs.
        for (std::uint32_t i = 0; i < r_.instances.size() && !too_many_ && !r_.full; ++i)
            make_targets(i);
    }

  private:
    std::uint32_t add(std::uint32_t module, std::string prefix, std::uint32_t owner,
                      std::uint32_t alias, const Entries& at) {
        const auto id = static_cast<std::uint32_t>(r_.instances.size());
        Instance instance;
        instance.module = module;
        instance.prefix = std::move(prefix);
        instance.owner = owner;
        instance.alias = alias;
        instance.at = at;
        instance.first_part = static_cast<std::uint32_t>(r_.sheet.parts.size());
        const Scope& scope = r_.scopes[module];
        std::string name =
            instance.prefix.substr(0, instance.prefix.empty() ? 0 : instance.prefix.size() - 1);
        if (r_.sheet.parts.size() + scope.parts.size() > max_parts)
            r_.too_many("parts", max_parts, scope.module->title.span);
        for (std::size_t p = 0; p < scope.parts.size() && !r_.full; ++p) {
            const auto& part = std::get<ast::Part>(scope.module->statements[scope.parts[p]].node);
            r_.sheet.parts.push_back(
                {std::string(part.title.text), name, !scope.part_lists[p].empty()});
        }
        if (owner != none)
            instance.join = part_to_join(owner, alias, scope);
        instance.targets.assign(scope.aliases.size(), none);
        r_.instances.push_back(std::move(instance));
        return id;
    }

    // The costs of a used model count in the part that uses it; used outside all parts, in one
    // named after it.
    std::uint32_t part_to_join(std::uint32_t owner, std::uint32_t alias, const Scope& used) {
        const Scope& scope = r_.scopes[r_.instances[owner].module];
        const std::uint32_t joined =
            owner == 0 ? scope.part_of(scope.module->statements[scope.aliases[alias].statement])
                       : r_.instances[owner].join;
        if (joined != none || !used.has_costs)
            return joined;
        std::vector<Part>& parts = r_.sheet.parts;
        const std::string_view title = used.module->title.text;
        const auto same = std::find_if(parts.begin(), parts.end(), [&](const Part& p) {
            return p.instance.empty() && p.title == title;
        });
        if (same != parts.end())
            return static_cast<std::uint32_t>(same - parts.begin());
        parts.push_back({std::string(title), {}, false});
        return static_cast<std::uint32_t>(parts.size() - 1);
    }

    void make_targets(std::uint32_t owner) {
        const std::uint32_t module = r_.instances[owner].module;
        const Scope& scope = r_.scopes[module];
        for (std::uint32_t a = 0; a < scope.aliases.size() && !too_many_ && !r_.full; ++a) {
            const Alias& alias = scope.aliases[a];
            if (alias.module == none)
                continue;
            const std::uint32_t target =
                alias.own ? make_own(owner, a, alias) : make_shared(owner, a, alias);
            r_.instances[owner].targets[a] = target;
            if (!alias.own && is_first_of_its_model(owner))
                report_same(owner, a);
        }
    }

    bool is_first_of_its_model(std::uint32_t owner) const {
        return std::none_of(
            r_.instances.begin(), r_.instances.begin() + owner,
            [&](const Instance& other) { return other.module == r_.instances[owner].module; });
    }

    // Two names without `with` for one model: one machine, not two.
    void report_same(std::uint32_t owner, std::uint32_t a) {
        const Scope& scope = r_.scopes[r_.instances[owner].module];
        const Alias& alias = scope.aliases[a];
        const auto before =
            std::find_if(scope.aliases.begin(), scope.aliases.begin() + a, [&](const Alias& other) {
                return !other.own && other.module == alias.module;
            });
        if (before == scope.aliases.begin() + a || !has_lines(alias.module))
            return;
        Diagnostic d = problem(Code::L832,
                               fmt::format("`{}` is the same as `{}`: without `with` a model is "
                                           "there once, whatever it is called",
                                           alias.name, before->name),
                               alias.span, "not another one");
        d.others.push_back({before->span, "the same"});
        d.helps.push_back({"give the second its own values:  use … as … with purchase = $…", {}});
        r_.add(std::move(d));
    }

    std::uint32_t make_own(std::uint32_t owner, std::uint32_t a, const Alias& alias) {
        const Entries fixed = r_.instances[owner].at;
        std::uint32_t first = none;
        for (std::uint32_t c = 0; c < r_.copies(alias.of, fixed); ++c) {
            if (!room(owner, alias))
                return none;
            const Entries at = r_.copy(alias.of, fixed, c);
            const std::string prefix =
                r_.instances[owner].prefix + r_.entry_prefix(alias.of, fixed, at);
            const std::uint32_t id = add(alias.module, prefix + alias.name + ".", owner, a, at);
            if (c == 0)
                first = id;
        }
        return first;
    }

    std::uint32_t make_shared(std::uint32_t owner, std::uint32_t a, const Alias& alias) {
        std::uint32_t& shared = r_.shared[alias.module];
        if (shared != none || !room(owner, alias))
            return shared;
        const SourceFile& file = r_.sources.file(r_.scopes[alias.module].module->file);
        const std::string prefix = stem_of(file.name()) + ".";
        for (const std::uint32_t other : r_.shared) {
            if (other == none || r_.instances[other].prefix != prefix || !has_lines(alias.module) ||
                !has_lines(r_.instances[other].module))
                continue; // a library has no lines whose names could meet
            const Instance& first = r_.instances[other];
            const Alias& first_alias =
                r_.scopes[r_.instances[first.owner].module].aliases[first.alias];
            Diagnostic d = problem(Code::N210,
                                   fmt::format("two used models would both be called `{}`",
                                               prefix.substr(0, prefix.size() - 1)),
                                   alias.span, file.name());
            d.others.push_back(
                {first_alias.span, r_.sources.file(r_.scopes[first.module].module->file).name()});
            d.notes.push_back("a model used without `with` is named after its file");
            d.helps.push_back({"rename one of the two files", std::nullopt});
            r_.add(std::move(d));
            return none;
        }
        const std::uint32_t id = add(alias.module, prefix, owner, a, {});
        r_.shared[alias.module] = id; // `add` may not move it, but says nothing about that
        return id;
    }

    bool has_lines(std::uint32_t module) const { return !r_.scopes[module].symbols.empty(); }

    bool room(std::uint32_t owner, const Alias& alias) {
        if (r_.instances.size() < max_instances)
            return true;
        if (!too_many_)
            r_.add(problem(
                Code::N214,
                fmt::format("used models come to more than {} instances",
                            number_text(max_instances)),
                alias.span,
                fmt::format("in `{}`", r_.scopes[r_.instances[owner].module].module->title.text),
                {"every `use … with` makes one, or one for each entry in an `each` part"}));
        too_many_ = true;
        return false;
    }

    Resolution& r_;
    bool too_many_ = false;
};

// Models that use each other in a loop: reported once a loop, and the use that closes it is taken
// out.
class LoopFinder {
  public:
    explicit LoopFinder(Resolution& r) : r_(r), state_(r.uses.size(), State::New) {}

    void run() {
        for (std::uint32_t module = 0; module < r_.uses.size(); ++module)
            if (state_[module] == State::New)
                visit(module);
    }

  private:
    enum class State : std::uint8_t { New, Open, Done };

    void visit(std::uint32_t module) { // no deeper than there are modules
        state_[module] = State::Open;
        path_.push_back(module);
        for (std::size_t i = 0; i < r_.uses[module].size(); ++i) {
            std::uint32_t& used = r_.uses[module][i];
            if (used == none)
                continue;
            if (state_[used] == State::Open) {
                report(module, i, used);
                used = none;
            } else if (state_[used] == State::New) {
                visit(used);
            }
        }
        path_.pop_back();
        state_[module] = State::Done;
    }

    const ast::Use& use(std::uint32_t module, std::size_t which) const {
        for (const ast::Statement& statement : r_.program.modules[module].statements)
            if (const auto* found = std::get_if<ast::Use>(&statement.node))
                if (which-- == 0)
                    return *found;
        static const ast::Use nothing{};
        return nothing;
    }

    std::string_view name(std::uint32_t module) const {
        return r_.sources.file(r_.program.modules[module].file).name();
    }

    void report(std::uint32_t module, std::size_t which, std::uint32_t used) {
        const auto first = std::find(path_.begin(), path_.end(), used);
        std::string path;
        for (auto at = first; at != path_.end(); ++at)
            path += fmt::format("{} uses ", name(*at));
        path += name(used);
        const auto count = path_.end() - first;
        Diagnostic d =
            problem(Code::N207,
                    count == 1 ? "a model uses itself"
                               : fmt::format("{} models use each other in a loop", count),
                    use(module, which).path.span, "closes the loop");
        for (auto at = first; at + 1 != path_.end(); ++at) {
            const auto& uses = r_.uses[*at];
            const auto next = std::find(uses.begin(), uses.end(), *(at + 1)) - uses.begin();
            d.others.push_back({use(*at, static_cast<std::size_t>(next)).path.span, {}});
        }
        d.notes.push_back(std::move(path));
        d.helps.push_back({"move what both need into a model that uses neither", std::nullopt});
        r_.add(std::move(d));
    }

    Resolution& r_;
    std::vector<State> state_;
    std::vector<std::uint32_t> path_;
};

// A model may call the functions of itself and of all it uses, however far away.
void see(Resolution& r, std::uint32_t module, std::vector<bool>& seen) {
    if (seen[module])
        return;
    seen[module] = true;
    for (const std::uint32_t used : r.uses[module])
        if (used != none)
            see(r, used, seen);
}

} // namespace

void make_scopes(Resolution& r) {
    r.uses = r.program.uses;
    r.uses.resize(r.program.modules.size());
    LoopFinder(r).run();
    r.scopes.reserve(r.program.modules.size());
    for (std::size_t i = 0; i < r.program.modules.size(); ++i) {
        r.scopes.push_back(make_scope(r, r.program.modules[i], r.uses[i]));
        std::vector<bool> seen(r.program.modules.size());
        see(r, static_cast<std::uint32_t>(i), seen);
        r.sees.push_back(std::move(seen));
    }
}

void make_instances(Resolution& r) {
    r.shared.assign(r.program.modules.size(), none);
    Builder(r).run();
}

} // namespace acre::lang::resolving
