#include "engine/questions/season/by_road.h"

#include <algorithm>
#include <set>
#include <string_view>
#include <utility>
#include <vector>

#include "engine/driver.h"
#include "engine/questions/estimate.h"
#include "lang/syntax/parse.h"

namespace acre::engine {
namespace {

namespace ast = lang::ast;
using lang::ReferenceKind;

// All that the job names, and one file of values from elsewhere.
class WithRoad : public lang::Loader {
  public:
    WithRoad(lang::Loader& inner, std::string reference, lang::Loaded road)
        : inner_(inner),
          reference_(std::move(reference)),
          road_(std::move(road)) {}
    lang::Outcome<lang::Loaded> load(ReferenceKind kind, std::string_view reference,
                                     std::string_view from) override {
        if (kind == ReferenceKind::Values && reference == reference_)
            return road_;
        return inner_.load(kind, reference, from);
    }

  private:
    lang::Loader& inner_;
    std::string reference_;
    lang::Loaded road_;
};

struct Parsed {
    lang::SourceMap sources;
    lang::Diagnostics diagnostics;
    ast::Module module;

    Parsed(const std::string& name, const std::string& text, lang::FileKind kind)
        : module(lang::parse(sources, sources.add(name, text), kind, diagnostics)) {}
};

struct Entries {
    std::set<std::string> lists, names, sets; // of which lists, how they are called, what they set
};

void add_entry(const ast::Entry& entry, Entries& to) {
    to.lists.emplace(entry.list.text);
    to.names.emplace(entry.name.text);
    for (const ast::Set& set : entry.sets)
        to.sets.emplace(set.name.text);
}

Entries entries_of(const lang::Loaded& values) {
    const Parsed parsed(values.name, values.text, lang::FileKind::Values);
    Entries entries;
    for (const ast::Statement& statement : parsed.module.statements)
        if (const auto* entry = std::get_if<ast::Entry>(&statement.node))
            add_entry(*entry, entries);
    return entries;
}

bool meet(const std::set<std::string>& a, const std::set<std::string>& b) {
    return std::any_of(
        a.begin(), a.end(), [&](const std::string& one) { return b.contains(one); });
}

// What of a job speaks of its own entries in the lists that a road has entries of.
class OwnRoad {
  public:
    OwnRoad(const Parsed& job, lang::Loader& loader, const Entries& road) : road_(road) {
        for (const ast::Statement& statement : job.module.statements) {
            if (const auto* entry = std::get_if<ast::Entry>(&statement.node)) {
                if (road.lists.contains(std::string(entry->list.text)))
                    add_entry(*entry, own_);
            } else if (const auto* with = std::get_if<ast::ValuesReference>(&statement.node)) {
                const auto loaded = loader.load(ReferenceKind::Values, with->path.text,
                                                job.sources.file(job.module.file).name());
                const Entries there = loaded ? entries_of(*loaded) : Entries();
                if (!meet(there.lists, road.lists))
                    continue;
                files_.emplace(with->path.text);
                own_.names.insert(there.names.begin(), there.names.end());
            }
        }
    }

    bool has(const ast::StatementNode& node) const {
        if (const auto* entry = std::get_if<ast::Entry>(&node))
            return road_.lists.contains(std::string(entry->list.text));
        if (const auto* with = std::get_if<ast::ValuesReference>(&node))
            return files_.contains(std::string(with->path.text));
        // Of one of its entries, or for all of them in the place of what each says.
        if (const auto* set = std::get_if<ast::Set>(&node)) {
            const std::string name(set->name.text);
            return road_.sets.contains(name) || own_.names.contains(name.substr(0, name.find('.')));
        }
        return std::holds_alternative<ast::Option>(node);
    }

  private:
    const Entries& road_;
    Entries own_;
    std::set<std::string> files_;
};

std::string without_own_road(const lang::Request& request, lang::Loader& loader,
                             const Entries& road) {
    const Parsed job(request.name, request.text, lang::FileKind::Job);
    const OwnRoad own(job, loader, road);
    std::string text(job.sources.file(job.module.file).text());
    const auto& statements = job.module.statements;
    for (std::size_t i = statements.size(); i-- > 0;) // the last first: places stay
        if (own.has(statements[i].node))
            text.erase(statements[i].span.begin, statements[i].span.end - statements[i].span.begin);
    return text;
}

std::optional<MoveMoney> money_of(const lang::Request& request, lang::Loader& loader) {
    const lang::Outcome<Job> job = make_job(request, loader);
    if (!job)
        return std::nullopt;
    const lang::Outcome<Estimate> estimated = estimate(**job);
    if (!estimated)
        return std::nullopt;
    return MoveMoney{static_cast<double>(estimated->price_cents) / 100, estimated->cost_total};
}

} // namespace

std::optional<MoveMoney> price_by_road(lang::Request request, lang::Loader& loader,
                                       const GivenSets& sets, const RoadsFile& roads) {
    std::string with;
    for (const auto& [name, value] : sets)
        if (name == "with")
            with = value;
        else
            request.sets.emplace_back(name, value);
    if (with.empty())
        return money_of(request, loader);
    lang::Outcome<lang::Loaded> road = roads.beside.load(ReferenceKind::Values, with, roads.name);
    if (!road || !request.option.empty())
        return std::nullopt;
    const Entries entries = entries_of(*road);
    if (entries.lists.empty())
        return std::nullopt;
    request.text = without_own_road(request, loader, entries) + "\nwith \"" + with + "\"\n";
    WithRoad both(loader, with, std::move(*road));
    return money_of(request, both);
}

} // namespace acre::engine
