#include <algorithm>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "lang/check/check.h"
#include "lang/check/lint_cases.h"
#include "lang/check/lint_numbers.h"
#include "lang/check/lint_shares.h"
#include "lang/check/lint_unused.h"
#include "lang/check/resolve/report.h"

namespace acre::lang {
namespace {

using resolving::problem;

// The value of a formula of nothing but numbers.
std::optional<double> constant(const Sheet& sheet, NodeId id) {
    if (id == none)
        return std::nullopt;
    const Node& node = sheet.nodes[id];
    if (node.op == Op::Number)
        return node.number;
    if (node.op != Op::Negate && node.op != Op::Convert)
        return std::nullopt;
    const auto a = constant(sheet, node.a);
    if (!a)
        return std::nullopt;
    return node.op == Op::Negate ? -*a : node.conversion.apply(*a);
}

class Lint {
  public:
    Lint(const Sheet& sheet, const SourceMap& sources, Diagnostics& diagnostics)
        : sheet_(sheet),
          sources_(sources),
          diagnostics_(diagnostics) {}

    void run() {
        // A model without a price is there for others to use: nothing in it is unused.
        if (!sheet_.prices.empty())
            lint_unused(sheet_, sources_, diagnostics_);
        for (const Given& given : sheet_.givens) {
            within(given);
            swing(given);
            boundary(given);
        }
        behind_the_boundary();
        lint_cases(sheet_, sources_, diagnostics_);
        lint_numbers(sheet_, sources_, diagnostics_);
        lint_shares(sheet_, sources_, diagnostics_);
    }

  private:
    // An error: no value could ever be lawful.
    void within(const Given& given) {
        const auto low = constant(sheet_, given.within_low);
        const auto high = constant(sheet_, given.within_high);
        if (!low || !high || *low <= *high)
            return;
        const auto text = [&](NodeId bound) { return sources_.text(sheet_.nodes[bound].span); };
        Diagnostic d = problem(
            Code::I611,
            fmt::format("the allowed range of `{}` is empty", sheet_.lines[given.line].name),
            given.within_span, "must rise");
        const std::string rising =
            fmt::format("{} .. {}", text(given.within_high), text(given.within_low));
        const Span low_span = sheet_.nodes[given.within_low].span;
        const Span high_span = sheet_.nodes[given.within_high].span;
        const bool alike =
            sheet_.nodes[given.within_low].op != Op::Convert && // both in the declared unit
            sheet_.nodes[given.within_high].op != Op::Convert;
        if (alike)
            d.helps.push_back({fmt::format("write the lower bound first:  within {}", rising),
                               Edit{{low_span.file, low_span.begin, high_span.end}, rising}});
        else
            d.helps.push_back({"look at the units of the two bounds, or write the lower bound "
                               "first",
                               std::nullopt});
        diagnostics_.add(std::move(d));
    }

    // What an entry, an option or the command line sets counts before what a boundary gives: acres
    // change, and the pulls that were laid out over others stay.
    void over_the_boundary(const Given& given, const Setting& boundary, const Setting& own) {
        Diagnostic d = problem(
            Code::L823,
            fmt::format("`{}` is set over what its boundary gives, and all else that the boundary "
                        "gives stays",
                        sheet_.lines[given.line].name),
            sheet_.nodes[own.value].span, "counts");
        d.notes.push_back(fmt::format("the boundary gives {}, with the pulls and their length",
                                      sources_.text(sheet_.nodes[boundary.value].span)));
        d.helps.push_back(
            {"take the line out, or the boundary: without it acres, spacing and the length of a "
             "pull go together",
             std::nullopt});
        diagnostics_.add(std::move(d));
    }

    // What a boundary gives counts before what the job sets, so the job's figure does nothing.
    void boundary(const Given& given) {
        const Setting* own = nullptr;
        for (const Setting& setting : given.settings) {
            if (setting.layer == Layer::Job)
                own = &setting;
            if (const Setting& last = given.settings.back();
                setting.layer == Layer::Field && last.layer > Layer::Field && last.value != none &&
                setting.value != none)
                return over_the_boundary(given, setting, last);
            if (setting.layer != Layer::Field || own == nullptr || own->value == none ||
                setting.value == none)
                continue;
            const Span span = sheet_.nodes[own->value].span;
            Diagnostic d =
                problem(Code::L823,
                        fmt::format("the job sets `{}`, but its boundary gives another figure, "
                                    "which counts",
                                    sheet_.lines[given.line].name),
                        span, "does not count");
            d.notes.push_back(fmt::format("the boundary gives {}",
                                          sources_.text(sheet_.nodes[setting.value].span)));
            d.helps.push_back(
                {"take the line out, or the boundary, whichever is not to count", std::nullopt});
            return diagnostics_.add(std::move(d));
        }
    }

    // A formula whose place a figure of the boundary takes, and in which entries it does.
    using Displaced = std::map<std::pair<FileId, std::uint32_t>, // where it begins
                               std::pair<std::uint32_t, std::map<std::uint32_t, const Given*>>>;
    Displaced displaced() const {
        Displaced formulas;
        for (const Given& given : sheet_.givens) {
            if (given.settings.size() < 2 || given.settings.back().layer != Layer::Field ||
                given.settings.front().value == none)
                continue;
            const Span span = sheet_.nodes[given.settings.front().value].span;
            auto& [end, entries] = formulas[{span.file, span.begin}];
            end = span.end;
            entries[sheet_.lines[given.line].entry] = &given;
        }
        return formulas;
    }

    // What only such a formula would have read does nothing: a net share, say, of acres that are
    // laid out.
    void behind_the_boundary() {
        const Displaced formulas = displaced();
        if (formulas.empty())
            return;
        std::map<LineId, const Given*> taker;        // the given whose formula reads it
        std::vector<bool> read(sheet_.lines.size()); // by another formula
        for (const Node& node : sheet_.nodes) {
            if (node.op != Op::Line)
                continue;
            auto formula = formulas.upper_bound({node.span.file, node.span.begin});
            const Given* given = nullptr;
            if (formula != formulas.begin() && (--formula)->first.first == node.span.file &&
                node.span.end <= formula->second.first)
                if (const auto at = formula->second.second.find(sheet_.lines[node.index].entry);
                    at != formula->second.second.end())
                    given = at->second;
            if (given != nullptr)
                taker[node.index] = given;
            else
                read[node.index] = true;
        }
        for (const Given& given : sheet_.givens) {
            const auto by = taker.find(given.line);
            if (by == taker.end() || read[given.line] || given.settings.empty() ||
                given.settings.back().layer != Layer::Job || given.settings.back().value == none)
                continue;
            Diagnostic d = problem(
                Code::L823,
                fmt::format("the job sets `{}`, which does nothing: `{}` comes from the boundary",
                            sheet_.lines[given.line].name, sheet_.lines[by->second->line].name),
                sheet_.nodes[given.settings.back().value].span, "does not count");
            d.helps.push_back({"take the line out; draw what is left out as a hole of the boundary",
                               std::nullopt});
            diagnostics_.add(std::move(d));
        }
    }

    void swing(const Given& given) {
        const auto low = constant(sheet_, given.swing_low);
        const auto high = constant(sheet_, given.swing_high);
        if (!low || !high)
            return;
        const Line& line = sheet_.lines[given.line];
        const auto range = [&](NodeId from, NodeId to) {
            return fmt::format("{} .. {}", sources_.text(sheet_.nodes[from].span),
                               sources_.text(sheet_.nodes[to].span));
        };
        if (*low >= *high) {
            diagnostics_.add(problem(
                Code::L806, fmt::format("the {} of `{}` is empty", given.swing_name(), line.name),
                given.swing_span, "must rise", {"write the lower bound first"}));
            return;
        }
        if (given.of_it) {
            if (*low > 100 || *high < 100)
                without_itself(given, line);
            return;
        }
        const auto least = constant(sheet_, given.within_low);
        const auto most = constant(sheet_, given.within_high);
        if ((least && *low < *least) || (most && *high > *most)) {
            Diagnostic d = problem(Code::L806,
                                   fmt::format("the {} of `{}` goes outside its allowed range",
                                               given.swing_name(), line.name),
                                   given.swing_span, range(given.swing_low, given.swing_high));
            d.others.push_back({given.within_span, range(given.within_low, given.within_high)});
            d.notes.emplace_back(
                given.chosen
                    ? "a value outside the allowed range is an error, in sensitivity too"
                    : "a value outside the allowed range is an error, in sensitivity and risk too");
            diagnostics_.add(std::move(d));
        }
        const NodeId value = given.settings.empty() ? none : given.settings.back().value;
        const auto set = constant(sheet_, value);
        if (!set || (*set >= *low && *set <= *high))
            return;
        Diagnostic d =
            problem(Code::L802,
                    fmt::format("`{}` is {}, outside its {} {}", line.name,
                                sources_.text(sheet_.nodes[value].span), given.swing_name(),
                                range(given.swing_low, given.swing_high)),
                    sheet_.nodes[value].span, "outside");
        d.others.push_back({given.swing_span, fmt::format("the {}", given.swing_name())});
        d.notes.emplace_back(
            given.chosen ? "sensitivity varies the value over this range, so it should include "
                           "the value"
                         : "sensitivity and risk vary the value over its swing, so the swing "
                           "should include the value");
        diagnostics_.add(std::move(d));
    }

    void without_itself(const Given& given, const Line& line) {
        Diagnostic d =
            problem(Code::L802,
                    fmt::format("`{}` is 100 % of it, outside its swing {} .. {} of it", line.name,
                                sources_.text(sheet_.nodes[given.swing_low].span),
                                sources_.text(sheet_.nodes[given.swing_high].span)),
                    given.swing_span, "does not enclose 100 %");
        d.notes.emplace_back("shares of it are shares of the value in force, so 100 % is this job");
        diagnostics_.add(std::move(d));
    }

    const Sheet& sheet_;
    const SourceMap& sources_;
    Diagnostics& diagnostics_;
};

} // namespace

void lint(const CheckedSheet& sheet, const SourceMap& sources, Diagnostics& diagnostics) {
    Lint(*sheet, sources, diagnostics).run();
}

} // namespace acre::lang
