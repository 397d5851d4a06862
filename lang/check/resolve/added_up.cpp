#include "lang/check/resolve/added_up.h"

#include <algorithm>
#include <string>
#include <unordered_map>
#include <utility>

#include <fmt/format.h>

#include "lang/check/resolve/lookup.h"
#include "lang/check/resolve/messages.h"

namespace acre::lang::resolving {
namespace {

constexpr std::size_t most_named = 5;

// The lines that a formula names.
std::vector<LineId> lines_of(const Sheet& sheet, NodeId formula) {
    std::vector<LineId> lines;
    std::vector<NodeId> open;
    if (formula != none)
        open.push_back(formula);
    while (!open.empty()) {
        const Node& node = sheet.nodes[open.back()];
        open.pop_back();
        if (node.op == Op::Line)
            lines.push_back(node.index);
        for_each_child(sheet, node, [&](NodeId child) { open.push_back(child); });
    }
    return lines;
}

// The givens of its own entry and kind of unit that the formula of a given reads.
std::vector<LineId> of_its_kind(const Sheet& sheet, LineId id) {
    const Line& line = sheet.lines[id];
    const std::vector<Setting>& settings = sheet.givens[line.given].settings;
    std::vector<LineId> out;
    if (settings.empty())
        return out;
    for (const LineId other : lines_of(sheet, settings.front().value)) {
        const Line& there = sheet.lines[other];
        if (there.given != none && there.entry == line.entry &&
            there.type.kind == Type::Kind::Number && there.type.unit.dim == line.type.unit.dim)
            out.push_back(other);
    }
    return out;
}

// "area" of "north.area" and of "draft.north.area"
std::string without_entry(const Sheet& sheet, LineId id) {
    const std::string& name = sheet.lines[id].name;
    const std::string entry = sheet.entries[sheet.lines[id].entry].name + ".";
    const std::size_t at = name.find(entry);
    return at == std::string::npos ? name : name.substr(0, at) + name.substr(at + entry.size());
}

std::string each_named(const List& list, std::string_view name) {
    std::string out;
    for (std::size_t e = 0; e < std::min(list.entries.size(), most_named); ++e)
        out += fmt::format("{}`{}.{}`", e == 0 ? "" : ", ", list.entries[e], name);
    return list.entries.size() > most_named
               ? out + fmt::format(" and {} more", list.entries.size() - most_named)
               : out;
}

// The lists of which two lines have different entries.
Lists that_differ(const Resolution& r, LineId a, LineId b) {
    Lists out;
    const std::uint32_t from = r.sheet.lines[a].entry;
    const std::uint32_t to = r.sheet.lines[b].entry;
    for (std::uint32_t list = 0; from != none && to != none && list < r.lists.size(); ++list)
        if (r.places[from].has(list) && r.places[to].has(list) &&
            r.places[from][list] != r.places[to][list])
            out.add(list);
    return out;
}

// The `sum(NAME)` of the prices, whose formulas are not there yet: the lines of all entries.
std::vector<std::pair<LineId, AddedUp>> sums_of_prices(Resolution& r) {
    std::vector<std::pair<LineId, AddedUp>> out;
    const ast::Module& model = r.program.modules[r.program.model];
    for (const ast::Statement& statement : model.statements) {
        const auto* price = std::get_if<ast::Price>(&statement.node);
        if (price == nullptr || price->quantity >= model.exprs.size())
            continue;
        const ast::Expr& expr = model.exprs[price->quantity];
        const auto* call = std::get_if<ast::Call>(&expr.node);
        if (call == nullptr || call->function.text != "sum" || call->arg_count != 1)
            continue;
        const auto* name = std::get_if<ast::Name>(&model.exprs[model.args[call->first_arg]].node);
        const Found first = name == nullptr ? Found{} : look_up(r, 0, name->text, {});
        if (first.state != Found::State::Line)
            continue;
        for (std::uint32_t c = 0; c < r.copies(first.of, {}); ++c)
            out.emplace_back(look_up(r, 0, name->text, r.copy(first.of, {}, c)).line,
                             AddedUp{first.of, expr.span});
    }
    return out;
}

} // namespace

std::vector<AddedUp> added_up_lines(Resolution& r) {
    std::vector<AddedUp> sums;
    if (std::all_of(r.lists.begin(), r.lists.end(), [](const List& l) { return l.count() < 2; }))
        return sums;
    const Sheet& sheet = r.sheet;
    sums.resize(sheet.lines.size());
    std::vector<LineId> open;
    const auto add = [&](LineId line, const AddedUp& sum) {
        if (sheet.lines[line].given == none || sum.over.empty() || !sums[line].over.empty())
            return;
        sums[line] = sum;
        open.push_back(line);
    };
    for (const auto& [line, sum] : sums_of_prices(r))
        add(line, sum);
    for (const Node& node : sheet.nodes) {
        if (node.op != Op::Sum || node.arg_count < 2)
            continue;
        const auto line_at = [&](std::uint32_t i) -> const Node& {
            return sheet.nodes[sheet.args[node.first_arg + i]];
        };
        const Node& last = line_at(node.arg_count - 1);
        if (line_at(0).op != Op::Line || last.op != Op::Line)
            continue;
        const Lists over = that_differ(r, line_at(0).index, last.index);
        for (std::uint32_t i = 0; i < node.arg_count && !over.empty(); ++i)
            if (line_at(i).op == Op::Line)
                add(line_at(i).index, {over, node.span});
    }
    while (!open.empty()) {
        const LineId line = open.back();
        open.pop_back();
        for (const LineId other : of_its_kind(sheet, line))
            add(other, sums[line]);
    }
    return sums;
}

void report_set_for_all(Resolution& r, const ast::Word& name, std::uint32_t list, Span sum) {
    const List& of = r.lists[list];
    Diagnostic d = problem(Code::I610,
                           fmt::format("`{}` is set for each {} at once, and the job has {}",
                                       name.text, of.name, of.entries.size()),
                           name.span, fmt::format("for each {} at once", of.name));
    d.others.push_back({sum, "added up over them"});
    d.notes.push_back(fmt::format("`{}` belongs to each {}, and `sum` adds it up: it would count "
                                  "{} times",
                                  name.text, of.name, of.entries.size()));
    d.helps.push_back({fmt::format("say how it is shared out, {} by {}: {}", of.name, of.name,
                                   each_named(of, name.text)),
                       {}});
    r.add(std::move(d));
}

void report_boundary_for_all(Resolution& r) {
    const std::uint32_t blocks = r.find_list("block");
    if (blocks == none || std::none_of(r.added_up.begin(), r.added_up.end(),
                                       [&](const AddedUp& a) { return a.over.contains(blocks); }))
        return;
    for (const ast::Statement& statement : r.program.modules[r.program.job].statements)
        if (std::holds_alternative<ast::Field>(statement.node))
            r.add(problem(Code::I610, "one boundary is given for the whole job, which has blocks",
                          statement.span, "for all blocks at once",
                          {"put a `field` into each block that has a boundary"}));
}

namespace {

// By the plain name of a given that is added up: the entries that say it, in their own words or by
// what its formula reads.
struct Group {
    std::vector<char> said; // by place
    std::vector<LineId> line;
    bool has_figure = false; // a figure of the model is in force where nobody says it
};

class SilentEntries {
  public:
    explicit SilentEntries(Resolution& r) : r_(r), told_(r.places.size(), 0) {}

    void run() {
        for (LineId id = 0; id < r_.added_up.size(); ++id)
            if (!r_.added_up[id].over.empty() && said_by_job(r_.sheet.lines[id].entry))
                add(id);
        for (const std::string& name : order_)
            tell(name, groups_[name]);
    }

  private:
    // A place of one entry that the job lists: those come first.
    bool said_by_job(std::uint32_t place) const {
        std::uint32_t listed = 0;
        for (const ListEntry& entry : r_.entries)
            listed += entry.said.empty() ? 0 : 1;
        return place != none && place < listed;
    }

    bool is_set(LineId line) const {
        const std::vector<Setting>& settings = r_.sheet.givens[r_.sheet.lines[line].given].settings;
        return !settings.empty() && settings.back().layer > Layer::Binding;
    }

    void add(LineId id) {
        const Sheet& sheet = r_.sheet;
        const Line& line = sheet.lines[id];
        std::string name = without_entry(sheet, id);
        Group& group = groups_[name];
        if (group.said.empty()) {
            group.said.assign(r_.places.size(), 0);
            group.line.assign(r_.places.size(), none);
            order_.push_back(std::move(name));
        }
        const std::vector<Setting>& settings = sheet.givens[line.given].settings;
        const std::vector<LineId> kin = of_its_kind(sheet, id);
        const bool by_kin =
            std::any_of(kin.begin(), kin.end(), [this](LineId other) { return is_set(other); });
        group.line[line.entry] = id;
        group.said[line.entry] = is_set(id) || by_kin ? 1 : 0;
        group.has_figure |=
            !kin.empty() || (!settings.empty() && lines_of(sheet, settings.front().value).empty());
    }

    void tell(const std::string& name, const Group& group) {
        if (!group.has_figure ||
            std::none_of(group.said.begin(), group.said.end(), [](char said) { return said != 0; }))
            return;
        for (std::size_t p = 0; p < group.said.size(); ++p) {
            if (group.said[p] != 0 || group.line[p] == none || told_[p] != 0)
                continue;
            told_[p] = 1;
            const ListEntry& entry =
                *std::find_if(r_.entries.begin(), r_.entries.end(), [&](const ListEntry& e) {
                    return e.name == r_.sheet.entries[p].name;
                });
            const std::string_view list = r_.lists[entry.list].name;
            Diagnostic d = problem(
                Code::L821,
                fmt::format("{} `{}` does not say its `{}`, and others do", list, entry.name, name),
                entry.span, "the model's own figure counts");
            d.others.push_back({r_.sheet.lines[group.line[p]].name_span, "from here"});
            d.helps.push_back({fmt::format("in the {}, write  set {} = …", list, name), {}});
            r_.add(std::move(d));
        }
    }

    Resolution& r_;
    std::unordered_map<std::string, Group> groups_;
    std::vector<std::string> order_;
    std::vector<char> told_; // by place
};

} // namespace

void warn_of_silent_entries(Resolution& r) {
    SilentEntries(r).run();
}

} // namespace acre::lang::resolving
