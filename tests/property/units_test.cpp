// The unit that the check gives to a formula is the one that an interpreter with units computes.
#include <doctest/doctest.h>

#include <cmath>
#include <string>
#include <vector>

#include "tests/property/random_units.h"
#include "tests/support/priced.h"

namespace units_test {

using namespace acre;
using tests::Exponents;
using tests::Quantity;
using tests::RandomUnits;

namespace {

constexpr std::array<lang::Base, 6> bases = {lang::Length, lang::Mass, lang::Time,
                                             lang::Money,  lang::Year, lang::Angle};

bool same(const lang::Dim& dim, const Exponents& of) {
    lang::Dim wanted;
    for (std::size_t i = 0; i < bases.size(); ++i)
        wanted.exponent[bases[i]] = static_cast<std::int8_t>(of[i]);
    wanted.exponent[lang::first_noun] = static_cast<std::int8_t>(of.back());
    return dim == wanted;
}

// Costs over formulas, in any order, some over the quantities of others. A cost declares money for
// each unit of its quantity, or (a slip) for each unit of something else.
struct Program {
    struct Cost {
        std::string name, text;
        Quantity quantity;
        Exponents declared;
        bool slip() const { return declared != quantity.of; }
    };
    std::vector<Cost> costs;
    std::string text = "model \"m\"\nnoun tree\n";

    explicit Program(std::uint64_t seed) {
        RandomUnits random{tests::Dice(seed)};
        for (int i = 0; i < 3; ++i) {
            const tests::UnitsFormula over = random.formula(3);
            Cost cost{"c" + std::to_string(i), {}, over.is, over.is.of};
            if (random.below(8) == 0)
                ++cost.declared[random.below(tests::measured)];
            const std::string unit = RandomUnits::money_per(cost.declared);
            cost.text = "cost " + cost.name + " : " + unit + " = $2" + unit.substr(1) + " over " +
                        over.text + "\n";
            const std::string own = RandomUnits::unit_text(over.is.of);
            cost.text += "v" + std::to_string(i) + " : " + (own.empty() ? "1" : own) + " = " +
                         cost.name + ".quantity\n";
            random.know(cost.name + ".quantity", over.is);
            costs.push_back(cost);
        }
        for (std::size_t left = costs.size(); left > 0; --left) // any order
            std::swap(costs[left - 1], costs[random.below(left)]);
        for (const Cost& cost : costs)
            text += cost.text;
        // A step may be money, or money for each unit of the price.
        const Cost& last = costs.back();
        text += "price \"P\" per tree of 3 tree\n  at least " + last.name + ".quantity * 5 " +
                RandomUnits::money_per(last.quantity.of) + "\n";
    }

    bool fits() const {
        for (const Cost& cost : costs)
            if (!cost.quantity.fits)
                return false;
        return true;
    }
    bool slips() const {
        for (const Cost& cost : costs)
            if (cost.slip())
                return true;
        return false;
    }
};

bool has_unknown(const lang::Sheet& sheet, lang::NodeId id) {
    if (id == lang::none)
        return false;
    const lang::Node& node = sheet.nodes[id];
    bool unknown = node.type.kind == lang::Type::Kind::Poison;
    for (const lang::NodeId part : {node.a, node.b, node.c})
        unknown = unknown || has_unknown(sheet, part);
    for (std::uint32_t i = 0; i < node.arg_count; ++i)
        unknown = unknown || has_unknown(sheet, sheet.args[node.first_arg + i]);
    return unknown;
}

bool has_unknown(const lang::Sheet& sheet) {
    for (const lang::Line& line : sheet.lines)
        if (line.type.kind == lang::Type::Kind::Poison || has_unknown(sheet, line.value))
            return true;
    for (const lang::PriceItem& item : sheet.prices)
        for (const lang::PriceStep& step : item.steps)
            if (has_unknown(sheet, step.value))
                return true;
    return false;
}

} // namespace

TEST_CASE("what the check lets through has the units and the values of an interpreter with units, "
          "and what it refuses does not fit") {
    int fitting = 0, refused = 0, slips = 0, values = 0, too_large = 0, bare = 0;
    for (std::uint64_t seed = 1; seed <= 3000; ++seed) {
        const Program program(seed);
        CAPTURE(program.text);
        const tests::Priced priced = tests::priced(program.text);
        CAPTURE(priced.rendered());
        if (priced.find(lang::Code::U312) != nullptr) { // more than a unit can hold
            ++too_large;
            continue;
        }
        if (priced.find(lang::Code::S124) != nullptr) { // units fit; a bare number is no share
            ++bare;
            continue;
        }
        REQUIRE(priced.made.value.has_value() == (program.fits() && !program.slips()));
        if (!priced.made.value) {
            REQUIRE(priced.made.said.diagnostics.error_count() > 0);
            ++refused;
            if (program.fits() && program.slips()) {
                ++slips;
                REQUIRE(priced.find(lang::Code::U310) != nullptr);
            }
            continue;
        }
        ++fitting;
        REQUIRE_FALSE(has_unknown(priced.sheet()));
        for (const Program::Cost& cost : program.costs) {
            CAPTURE(cost.name);
            const lang::Type& type =
                priced.sheet().lines[priced.line(cost.name + ".quantity")].type;
            REQUIRE(type.kind == lang::Type::Kind::Number);
            REQUIRE(same(type.unit.dim, cost.quantity.of));
            const double value = priced.value("v" + cost.name.substr(1));
            const double wanted = cost.quantity.value;
            if (!cost.quantity.sure || !std::isfinite(wanted) || std::isnan(value))
                continue;
            ++values;
            REQUIRE(value == doctest::Approx(wanted).epsilon(1e-6));
        }
    }
    // Every kind must be met, or this proves little.
    CHECK(fitting > 700);
    CHECK(refused > 600);
    CHECK(slips > 200);
    CHECK(values > 1500);
    CHECK(too_large < 100);
    CHECK(bare > 0);
}

TEST_CASE("a quantity in degrees is no hours, wherever it comes from") {
    for (const char* costs : {
             "cost x : $/h = $9/h over atan(1)\n",
             "cost x : $/h = $9/h over y.quantity\ncost y : $/deg = $1/deg over atan(1)\n",
             "cost y : $/deg = $1/deg over atan(1)\ncost x : $/h = $9/h over y.quantity\n",
             "cost x : $/h = $9/h over y.quantity\ncost y : $/ft = $1/ft over sqrt(1 ac)\n",
             "cost x : $/h = $9/h over y.quantity\ncost y : $ = $1 over round(7 ft, 1 in) / 1 ft\n",
         }) {
        CAPTURE(std::string(costs));
        const std::string text = std::string("model \"m\"\n") + costs;
        tests::expect_diag(text, lang::Code::U310);
    }
}

} // namespace units_test
