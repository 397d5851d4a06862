#include "lang/units/builtin_units.h"

#include <array>

#include "lang/units/unit_text.h"

namespace acre::lang {
namespace {

enum class Use { Shown, Read };

struct Row {
    std::string_view name, times, over, of;
    Use use;
    int base; // -1: defined by the others
};

constexpr auto rows = std::to_array<Row>({
#define ACRE_BASE(name, base) {name, "", "", "", Use::Shown, Base::base},
#define ACRE_UNIT(name, times, over, of, use) {name, times, over, of, Use::use, -1},
#include "lang/units/catalog.def"
#undef ACRE_BASE
#undef ACRE_UNIT
});

struct Table {
    std::vector<BuiltinUnit> list;
    std::unordered_map<std::string_view, Unit> by_name;

    // The table is ours and a test reads all of it, so every text in it is good.
    Table() {
        list.reserve(std::size(rows));
        for (const Row& row : rows) {
            const Unit unit =
                row.base >= 0 ? base_unit(static_cast<std::size_t>(row.base)) : defined(row);
            list.push_back({row.name, unit, row.use == Use::Shown});
            by_name.emplace(row.name, unit);
        }
    }

    Unit defined(const Row& row) const {
        UnitError error;
        const auto terms = read_terms(row.of, error);
        Unit unit{Dim{},
                  divide(read_ratio(row.times).value(), read_ratio(row.over).value()).value()};
        for (const UnitTerm& term : *terms)
            unit = multiply(unit, power(by_name.at(term.name), term.exponent).value()).value();
        return unit;
    }
};

const Table& table() {
    static const Table built;
    return built;
}

} // namespace

const std::vector<BuiltinUnit>& builtin_units() {
    return table().list;
}

const Unit* find_builtin_unit(std::string_view name) {
    const auto at = table().by_name.find(name);
    return at == table().by_name.end() ? nullptr : &at->second;
}

Unit base_unit(std::size_t base) {
    Unit unit;
    unit.dim.exponent[base] = 1;
    return unit;
}

} // namespace acre::lang
