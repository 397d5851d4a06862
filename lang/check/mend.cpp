#include "lang/check/mend.h"

#include <algorithm>
#include <tuple>

#include <fmt/format.h>

#include "lang/check/factors.h"
#include "lang/check/operations.h"
#include "lang/check/resolve/report.h"
#include "lang/check/written_unit.h"
#include "lang/diag/place.h"

namespace acre::lang {
namespace {

constexpr std::size_t longest_quote = 70;
constexpr std::size_t most_menders = 3;

Dim inverse_of(const Dim& dim) {
    Dim out;
    std::transform(dim.exponent.begin(), dim.exponent.end(), out.exponent.begin(),
                   [](std::int8_t e) { return static_cast<std::int8_t>(-e); });
    return out;
}

// Whether a line rests on another, through any number of formulas.
class Reach {
  public:
    Reach(const Sheet& sheet, LineId target)
        : sheet_(sheet),
          target_(target),
          seen_(sheet.lines.size(), false) {}

    bool line(LineId start) {
        std::vector<LineId> waiting{start};
        while (!waiting.empty()) {
            const LineId id = waiting.back();
            waiting.pop_back();
            if (id == target_)
                return true;
            if (seen_[id] || sheet_.lines[id].value == none)
                continue;
            seen_[id] = true;
            collect(sheet_.lines[id].value, waiting);
        }
        return false;
    }

  private:
    void collect(NodeId id, std::vector<LineId>& lines) const {
        const Node& node = sheet_.nodes[id];
        if (node.op == Op::Line)
            lines.push_back(node.index);
        for_each_child(sheet_, node, [&](NodeId child) { collect(child, lines); });
    }

    const Sheet& sheet_;
    LineId target_;
    std::vector<bool> seen_;
};

bool may_mend(const Line& line) {
    return line.type.kind == Type::Kind::Number && !line.type.unit.is_plain() &&
           (line.role == Role::Given || line.role == Role::Line || line.role == Role::CostRate);
}

// Whether the text says `use` of what the first part of the dotted name stands for.
bool in_sight(const SourceMap& sources, FileId file, std::string_view name) {
    const std::string_view text = sources.file(file).text();
    const std::string_view head = name.substr(0, name.find('.'));
    std::string title(head);
    std::replace(title.begin(), title.end(), '_', '-');
    return text.find(fmt::format("use \"{}\"", head)) != std::string_view::npos ||
           text.find(fmt::format("use \"{}\"", title)) != std::string_view::npos ||
           text.find(fmt::format("\" as {}", head)) != std::string_view::npos;
}

// "load" where 1/load is missing, of a noun: what is for each of them is as likely as what is for
// all.
std::string counted_thing(const Sheet& sheet, const Dim& missing) {
    std::size_t noun = max_bases;
    for (std::size_t i = 0; i < missing.exponent.size(); ++i)
        if (missing.exponent[i] != 0) {
            if (noun != max_bases || missing.exponent[i] != -1 || i < first_noun)
                return {};
            noun = i;
        }
    if (noun == max_bases)
        return {};
    Unit one_of_them;
    one_of_them.dim.exponent[noun] = 1;
    return sheet.units.text(one_of_them);
}

// `F * x / x`: what is divided by is in the formula, or the other way round.
bool cancels(const SourceMap& sources, const Sheet& sheet, const std::vector<Factor>& factors,
             const Mender& mender) {
    return std::any_of(
        factors.begin(), factors.end(),
        [&](const Factor& factor) {
            return factor.under != mender.inverse &&
                   sources.text(sheet.nodes[factor.node].span) == mender.name;
        });
}

} // namespace

std::string factor_text(const SourceMap& sources, const Node& node) {
    std::string text = quotable(sources, node.span);
    if (text.empty() || row_of(node.op).strength > row_of(Op::Add).strength)
        return text;
    int open = 0;
    for (std::size_t i = 0; i < text.size(); ++i) {
        open += text[i] == '(' ? 1 : text[i] == ')' ? -1 : 0;
        if (open == 0 && i + 1 < text.size())
            return "(" + text + ")";
    }
    return text; // it has its brackets
}

std::vector<Mender> menders(const Sheet& sheet, const SourceMap& sources, const Site& site, Span at,
                            const Dim& missing) {
    std::vector<Mender> out;
    const Dim inverse = inverse_of(missing);
    if (missing.is_plain())
        return out;
    if (site.function != nullptr) {
        for (std::size_t i = 0; i < site.function->parameters.size() && out.size() < most_menders;
             ++i) {
            const Type& type = site.function->parameter_types[i];
            if (type.kind == Type::Kind::Number &&
                (type.unit.dim == missing || type.unit.dim == inverse))
                out.push_back({site.function->parameters[i], site.function->parameter_texts[i], "",
                               type.unit.dim != missing});
        }
        return out;
    }
    const bool in_main_model =
        site.line == none || sheet.lines[site.line].name.find('.') == std::string::npos;
    const std::uint32_t entry = site.line == none ? none : sheet.lines[site.line].entry;
    struct Candidate {
        bool other_file, inverse, computed;
        std::uint32_t file, begin;
        LineId line;
        auto key() const { return std::tuple(other_file, inverse, computed, file, begin); }
    };
    std::vector<Candidate> found;
    for (LineId id = 0; id < sheet.lines.size(); ++id) {
        const Line& line = sheet.lines[id];
        if (!may_mend(line) || (line.type.unit.dim != missing && line.type.unit.dim != inverse))
            continue;
        const bool other_file = line.name_span.file != at.file;
        if (other_file && !in_sight(sources, at.file, line.name))
            continue;
        if (id == site.line || (line.entry != none && line.entry != entry) ||
            (other_file && !in_main_model))
            continue;
        found.push_back({other_file, line.type.unit.dim != missing, line.role != Role::Given,
                         line.name_span.file, line.name_span.begin, id});
    }
    std::sort(found.begin(), found.end(),
              [](const Candidate& a, const Candidate& b) { return a.key() < b.key(); });
    for (const Candidate& candidate : found) {
        const Line& line = sheet.lines[candidate.line];
        const std::string name(candidate.other_file ? line.name : sources.text(line.name_span));
        const auto same = [&](const Mender& m) { return m.name == name; };
        if (out.size() == most_menders)
            break;
        if (std::any_of(out.begin(), out.end(), same) ||
            (site.line != none && Reach(sheet, site.line).line(candidate.line)))
            continue;
        const std::string unit_text =
            line.unit_text.empty() ? sheet.units.text(line.type.unit) : line.unit_text;
        if (hides_ratio(sheet, unit_text))
            continue;
        out.push_back({name, unit_text, spoken_place(sources, line.name_span, at.file),
                       candidate.inverse, candidate.other_file});
    }
    return out;
}

std::string quotable(const SourceMap& sources, Span span) {
    const std::string_view text = sources.text(span);
    return text.size() > longest_quote || text.find_first_of("\n\r") != std::string_view::npos
               ? std::string()
               : std::string(text);
}

std::vector<Help> mend(const Sheet& sheet, const SourceMap& sources, const Site& site,
                       NodeId formula, const Dim& missing) {
    const Node& node = sheet.nodes[formula];
    const std::vector<Factor> factors = factors_of(sheet, formula);
    std::vector<Mender> found = menders(sheet, sources, site, node.span, missing);
    found.erase(
        std::remove_if(found.begin(), found.end(),
                       [&](const Mender& m) { return cancels(sources, sheet, factors, m); }),
        found.end());
    const std::vector<ShortNumber> numbers = short_number(sheet, sources, factors, missing);
    std::vector<Help> out;
    for (const ShortNumber& number : numbers)
        out.push_back(
            {fmt::format("if `{}` is for each {}, write  {}", number.written, number.per,
                         number.whole),
             found.empty() ? std::optional(Edit{number.span, number.whole}) : std::nullopt});
    if (found.empty())
        return out;
    const auto known = [](const Mender& m) {
        return fmt::format("`{}`{} is in {}", m.name, m.place.empty() ? "" : " (" + m.place + ")",
                           m.unit_text);
    };
    const Mender& best = found.front();
    const std::string counted = best.inverse ? counted_thing(sheet, missing) : std::string();
    const std::string inner = factor_text(sources, node);
    if (!counted.empty() && !inner.empty()) {
        out.push_back(
            {fmt::format("if it is for each {}, write  {} / 1 {}", counted, inner, counted),
             std::nullopt});
        out.push_back({fmt::format("if it is for all of `{}` together, write  {} / {}", best.name,
                                   inner, best.name),
                       std::nullopt});
        return out;
    }
    if (!inner.empty()) {
        const std::string mended =
            fmt::format("{} {} {}", inner, best.inverse ? '/' : '*', best.name);
        // What is owned for a year and paid by the hour is divided by the hours of the year.
        const bool sure = found.size() == 1 && numbers.empty() && !best.other_file &&
                          (!best.inverse || is_year_against_hour(missing));
        out.push_back({fmt::format("{}: write  {}", known(best), mended),
                       sure ? std::optional(Edit{node.span, mended}) : std::nullopt});
    } else {
        out.push_back(
            {fmt::format("{}: {} by it", known(best), best.inverse ? "divide" : "multiply"),
             std::nullopt});
    }
    if (found.size() > 1) {
        std::string others = known(found[1]);
        if (found.size() > 2)
            others += ", " + known(found[2]);
        out.push_back({others + " too", std::nullopt});
    }
    return out;
}

bool is_year_against_hour(const Dim& missing) {
    return missing.exponent[Year] != 0 && missing.exponent[Time] != 0;
}

std::string apart_note(const Dim& missing) {
    if (is_year_against_hour(missing))
        return "a year (yr) counts seasons of ownership and an hour (h) counts work; neither is a "
               "fixed number of the other";
    if (missing.exponent[Day] != 0 && missing.exponent[Time] != 0)
        return "how many hours a day has is up to the model: a line in h/day";
    if (missing.exponent[Shift] != 0 && missing.exponent[Time] != 0)
        return "how many hours a shift has is up to the model: a line in h/shift";
    return {};
}

} // namespace acre::lang
