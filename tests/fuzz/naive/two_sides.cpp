#include "tests/fuzz/naive/two_sides.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <utility>

namespace acre::fuzz::naive {

namespace {

constexpr std::array<const char*, givens> before_number{"", "", "", "", "$", "$", "", "", ""};
constexpr std::array<const char*, givens> after_number{" ac",  " ac/h",  " ac/h", "", "/h",
                                                       "/gal", " gal/h", " %",    ""};
constexpr double eased[] = {1, 1.1, 1.25};

std::string number_with_unit(Given given, int value) {
    return given == Method ? value == 1 ? "both" : "one"
                           : before_number[given] + std::to_string(value) + after_number[given];
}

bool has_price(const Side& side, bool total) {
    return std::isfinite(worth(side).price(total));
}

Parts joined(const Parts& a, const Parts& b) {
    Parts all = a;
    all.insert(b.begin(), b.end());
    return all;
}

// Some of the groups, by bit.
Parts some(const std::vector<Parts>& groups, std::size_t taken) {
    Parts parts;
    for (std::size_t i = 0; i < groups.size(); ++i)
        if ((taken >> i & 1U) != 0)
            parts = joined(parts, groups[i]);
    return parts;
}

bool takes_extra(const Side& side) {
    return side.value[Method] == 1 && side.value[Drag] > 1;
}

bool uses(const Side& side, Given given) {
    return given == Extra  ? takes_extra(side) || side.burn_from != BurnFrom::Value
           : given == Drag ? side.hours != 3 || side.value[Method] == 1
                           : true;
}

// What is nothing to one side while the other uses it goes with the first change by which this
// one would.
std::vector<Parts> used_by_others(const Side& before, const Side& after, const Parts& parts) {
    std::vector<Parts> pairs;
    for (const auto& [here, there] : {std::pair(before, after), std::pair(after, before)})
        for (const Given given : {Drag, Extra}) {
            if (!parts.contains(given) || uses(here, given) || !uses(there, given))
                continue;
            for (const Given first : {Drag, Method}) { // in the order of their names
                Side changed = here;
                changed.value[first] = there.value[first];
                if (parts.contains(first) && first != given && uses(changed, given)) {
                    pairs.push_back({given, first});
                    break;
                }
            }
        }
    return pairs;
}

} // namespace

bool same_model(const Side& a, const Side& b) {
    return a.hours == b.hours && a.steps == b.steps && a.eases == b.eases;
}

std::string label_of(Given given, const Side& side) {
    return given == Share ? "" : "the " + std::to_string(side.steps) + given_names[given];
}

namespace {

int burn_of(const Side& side) {
    return side.burn_from == BurnFrom::Model ? 10 * side.value[Extra]
           : side.burn_from == BurnFrom::Job ? 12 * side.value[Extra]
                                             : side.value[Burn];
}

} // namespace

std::string model_of(const Side& side) {
    static constexpr const char* rounded[] = {"", "", "ceil(", ""};
    static constexpr const char* pace[] = {"(pace - drag)", "(pace - drag)", "(pace - drag)",
                                           "pace"};
    static constexpr const char* ends[] = {"", " + 2 h", ", 1 h)", ""};
    static constexpr const char* steps[] = {"  margin share\n", "  overhead 9 %\n  margin share\n",
                                            "  margin share\n  round up to $1/ac\n",
                                            "  markup share\n  at least $4,000\n", ""};
    static constexpr const char* defaults[] = {"80 ac",  "3 ac/h", "0 ac/h", "2",         "$300/h",
                                               "$4/gal", "",       "12 %",   "one | both"};
    std::string text =
        tests::in_order({"model \"m\"\n", side.eases ? "use \"library/own\"\n" : ""});
    for (const Given given : {Area, Pace, Drag, Extra, Rate, Diesel, Burn, Share, Method}) {
        const std::string label = label_of(given, side);
        text +=
            tests::in_order({"given ", given_names[given], given == Burn ? " : gal/h = " : " = ",
                             given == Burn ? "10 gal/h * extra" : defaults[given],
                             label.empty() ? "" : "  \"" + label + "\"", "\n"});
    }
    return tests::in_order(
        {text, "hours : h = ", rounded[side.hours], side.eases ? "eased" : "", "(area / ",
         pace[side.hours], " * (when method is both and drag > 1 ac/h then extra otherwise 1))",
         ends[side.hours],
         "\ncost machine : $/h = rate over hours\ncost fuel : $/gal = diesel over burn * hours\n"
         "price \"Ripping\" per ac of area\n",
         steps[side.steps]});
}

std::string library_of(const Side& side) {
    static constexpr const char* factors[] = {"1", "1.1", "1.25"};
    return tests::in_order({"library \"Own\"\ndefine eased (run : h) : h = run * ",
                            factors[side.ease], "\n  source \"our own days\"\n  known ours\n"});
}

std::string job_of(const Side& side, const std::string& because) {
    std::string text = "job \"j\"\nmodel \"m\"\n";
    for (const Given given : {Area, Pace, Drag, Extra, Rate, Diesel, Burn, Share, Method})
        if (given != Burn || side.burn_from != BurnFrom::Model)
            text += tests::in_order({"set ", given_names[given], " = ",
                                     given == Burn && side.burn_from == BurnFrom::Job
                                         ? "12 gal/h * extra"
                                         : number_with_unit(given, side.value[given]),
                                     "  because \"", because, " ", given_names[given], "\"\n"});
    return text;
}

std::string shown(Given given, const Side& side) {
    const int value = given == Burn ? burn_of(side) : side.value[given];
    if (before_number[given][0] == '$')
        return "$" + std::to_string(value) + ".00" + after_number[given];
    std::string text = number_with_unit(given, value);
    if (value >= 1'000)
        text.insert(text.find_first_not_of("0123456789") - 3, ",");
    return text;
}

Parts changed(const Side& before, const Side& after) {
    Parts parts;
    for (std::size_t i = 0; i < givens; ++i) {
        const bool same = before.value[i] == after.value[i];
        const bool valued = i != Burn || before.burn_from == BurnFrom::Value;
        if ((i == Burn && before.burn_from != after.burn_from) || (valued && !same))
            parts.insert(static_cast<int>(i));
    }
    if (!same_model(before, after))
        parts.insert(model_part);
    if (before.eases != after.eases || (before.eases && before.ease != after.ease))
        parts.insert(library_part);
    return parts;
}

// A side without the library has none to give: the other one's is read.
Side mixed(const Side& before, const Side& after, const Parts& taken) {
    Side side = before;
    side.ease = before.eases ? before.ease : after.ease;
    for (const int part : taken)
        if (part == model_part) {
            side.hours = after.hours;
            side.steps = after.steps;
            side.eases = after.eases;
        } else if (part == library_part)
            side.ease = after.eases ? after.ease : before.ease;
        else {
            side.value[static_cast<std::size_t>(part)] =
                after.value[static_cast<std::size_t>(part)];
            side.burn_from = part == Burn ? after.burn_from : side.burn_from;
        }
    return side;
}

Worth worth(const Side& side) {
    const auto of = [&](Given given) { return static_cast<double>(side.value[given]); };
    Worth result;
    const auto up = [&](double x) {
        result.doubtful |= std::fabs(x - std::round(x)) < 1e-9 * (1 + std::fabs(x));
        return std::ceil(x);
    };
    const double pace = side.hours == 3 ? of(Pace) : of(Pace) - of(Drag);
    double hours =
        of(Area) / pace * (takes_extra(side) ? of(Extra) : 1) * (side.eases ? eased[side.ease] : 1);
    hours = side.hours == 1 ? hours + 2 : side.hours == 2 ? up(hours) : hours;
    result.cost = pace == 0 ? std::numeric_limits<double>::quiet_NaN()
                            : hours * (of(Rate) + of(Diesel) * burn_of(side));
    result.total = result.cost;
    const double share = of(Share) / 100;
    if (side.steps < 3)
        result.total *= (side.steps == 1 ? 1.09 : 1) / (1 - share);
    if (side.steps == 2)
        result.total = up(result.total / of(Area)) * of(Area);
    if (side.steps == 3 && std::isfinite(result.total))
        result.total = std::max(result.total * (1 + share), 4000.0);
    result.per_acre = result.total / of(Area);
    return result;
}

std::vector<Parts> groups(const Side& before, const Side& after, bool total) {
    std::vector<Parts> all;
    const Parts parts = changed(before, after);
    for (const int part : parts)
        all.push_back({part});
    for (const Parts& pair : used_by_others(before, after, parts)) {
        std::vector<Parts> rest(1);
        for (const Parts& group : all)
            if (std::any_of(pair.begin(), pair.end(), [&](int p) { return group.contains(p); }))
                rest[0] = joined(rest[0], group);
            else
                rest.push_back(group);
        all = rest;
    }
    for (;;) {
        // Those by which a price comes to be, or is lost, are one; a single one goes with all.
        std::set<std::size_t> stuck;
        for (std::size_t taken = 0; taken < std::size_t{1} << all.size(); ++taken)
            for (std::size_t i = 0; i < all.size(); ++i) {
                const Parts without = some(all, taken);
                if (has_price(mixed(before, after, without), total) !=
                    has_price(mixed(before, after, joined(without, all[i])), total))
                    stuck.insert(i);
            }
        if (stuck.empty())
            return all;
        std::vector<Parts> rest(1);
        for (std::size_t i = 0; i < all.size(); ++i)
            if (stuck.size() == 1 || stuck.contains(i))
                rest[0] = joined(rest[0], all[i]);
            else
                rest.push_back(all[i]);
        all = rest;
    }
}

std::vector<double> by_every_order(const Side& before, const Side& after,
                                   const std::vector<Parts>& groups, bool total) {
    std::vector<double> prices;
    for (std::size_t taken = 0; taken < std::size_t{1} << groups.size(); ++taken) {
        const Worth one = worth(mixed(before, after, some(groups, taken)));
        if (one.doubtful)
            return {};
        prices.push_back(one.price(total));
    }
    std::vector<std::size_t> order(groups.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::vector<double> shares(groups.size(), 0.0);
    double orders = 0;
    do {
        std::size_t taken = 0;
        for (const std::size_t group : order) {
            const std::size_t next = taken | std::size_t{1} << group;
            shares[group] += prices[next] - prices[taken];
            taken = next;
        }
        ++orders;
    } while (std::next_permutation(order.begin(), order.end()));
    for (double& share : shares)
        share /= orders;
    return shares;
}

Side draw_side(tests::Dice& dice) {
    Side side;
    for (std::size_t i = 0; i < givens; ++i)
        side.value[i] = static_cast<int>(i == Method ? dice.below(2) : 1 + dice.below(90));
    side.value[Area] = static_cast<int>(1 + dice.below(900));
    side.value[Drag] = static_cast<int>(dice.below(3));
    side.burn_from = dice.below(2) == 1 ? static_cast<BurnFrom>(dice.below(3)) : BurnFrom::Value;
    side.hours = dice.below(4);
    side.steps = dice.below(5);
    side.eases = dice.below(4) != 1;
    side.ease = dice.below(3);
    return side;
}

Side draw_changes(Side side, tests::Dice& dice) {
    for (std::size_t changes = 1 + dice.below(4); changes > 0; --changes) {
        const std::size_t i = dice.below(givens);
        const bool little = dice.below(3) == 1;
        side.value[i] = i == Method ? static_cast<int>(dice.below(2))
                        : little    ? side.value[i] + 1
                                    : static_cast<int>(dice.below(90));
    }
    if (dice.below(4) == 1)
        side.burn_from = static_cast<BurnFrom>(dice.below(3));
    if (dice.below(3) == 1) {
        side.hours = dice.below(4);
        side.steps = dice.below(5);
        side.eases = dice.below(3) == 1 ? !side.eases : side.eases;
    }
    if (dice.below(3) == 1)
        side.ease = dice.below(3);
    if (dice.below(4) == 1) // to where nothing is done, or nearly
        side.value[Pace] = side.value[Drag] + static_cast<int>(dice.below(3));
    return side;
}

} // namespace acre::fuzz::naive
