#include "lang/check/factors.h"

#include <algorithm>
#include <iterator>
#include <string_view>

#include "lang/units/money.h"

namespace acre::lang {
namespace {

void collect_factors(const Sheet& sheet, NodeId id, bool under, std::vector<Factor>& out) {
    const Node& node = sheet.nodes[id];
    if (node.op == Op::Multiply || node.op == Op::Divide) {
        collect_factors(sheet, node.a, under, out);
        collect_factors(sheet, node.b, under != (node.op == Op::Divide), out);
    } else {
        out.push_back({id, under});
    }
}

// "yr" where it is missing once, and by itself, and the number is not in it; a length or a weight
// is as likely to stand in another unit.
std::string counted_once(const Sheet& sheet, const Dim& missing, const Dim& has, bool under) {
    constexpr std::size_t bases[] = {Year, Time, Day, Shift};
    std::string found;
    for (std::size_t i = 0; i < missing.exponent.size(); ++i) {
        if (missing.exponent[i] == 0)
            continue;
        const bool counts =
            i >= first_noun || std::find(std::begin(bases), std::end(bases), i) != std::end(bases);
        if (!counts || !found.empty() || has.exponent[i] != 0 ||
            missing.exponent[i] != (under ? 1 : -1))
            return {};
        Unit one_of_it;
        one_of_it.dim.exponent[i] = 1;
        found = i == Time ? "h" : sheet.units.text(one_of_it);
    }
    return found;
}

// A unit of one word, or money: what is behind its number may have a `/` of its own.
bool has_simple_unit(std::string_view text) {
    return text.find_first_of("/.^(", text.find_first_of(" %")) == std::string_view::npos &&
           (text.back() < '0' || text.back() > '9' || money_sign_size(text) > 0);
}

} // namespace

std::vector<Factor> factors_of(const Sheet& sheet, NodeId formula) {
    std::vector<Factor> out;
    collect_factors(sheet, formula, false, out);
    return out;
}

std::vector<ShortNumber> short_number(const Sheet& sheet, const SourceMap& sources,
                                      const std::vector<Factor>& factors, const Dim& missing) {
    std::vector<ShortNumber> out;
    for (const Factor& factor : factors) {
        const Node& node = sheet.nodes[factor.node];
        const std::string_view text = sources.text(node.span);
        if (node.op != Op::Number || text.empty() || !has_simple_unit(text))
            continue;
        const std::string per = counted_once(sheet, missing, node.type.unit.dim, factor.under);
        if (per.empty() || !out.empty())
            return {};
        out.push_back({node.span, std::string(text), std::string(text) + "/" + per, per});
    }
    return out;
}

} // namespace acre::lang
