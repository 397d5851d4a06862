#include "lang/units/builtin_units.h"

#include <array>

#include "lang/units/unit_text.h"

namespace acre::lang {
namespace {

enum class Use { Shown, Read };

struct Row {
    std::string_view name, times, over, of;
    Use use;
    int base;                   // -1: defined by the others
    std::string_view kind = {}; // of a row that says what those below it measure
};

constexpr auto rows = std::to_array<Row>({
#define ACRE_KIND(kind) {"", "", "", "", Use::Read, -1, kind},
#define ACRE_BASE(name, base) {name, "", "", "", Use::Shown, Base::base},
#define ACRE_UNIT(name, times, over, of, use) {name, times, over, of, Use::use, -1},
#include "lang/units/catalog.def"
#undef ACRE_KIND
#undef ACRE_BASE
#undef ACRE_UNIT
});

struct Table {
    std::vector<BuiltinUnit> list;
    std::unordered_map<std::string_view, Unit> by_name;

    // The table is ours and a test reads all of it, so every text in it is good.
    Table() {
        list.reserve(std::size(rows));
        std::string_view kind;
        for (const Row& row : rows) {
            if (!row.kind.empty()) {
                kind = row.kind;
                continue;
            }
            const Unit unit =
                row.base >= 0 ? base_unit(static_cast<std::size_t>(row.base)) : defined(row);
            list.push_back({row.name, unit, row.use == Use::Shown, kind, row.of,
                            row.base >= 0 ? 1 : times(row)});
            by_name.emplace(row.name, unit);
        }
    }

    static Ratio ratio(const Row& row) {
        return divide(read_ratio(row.times).value(), read_ratio(row.over).value()).value();
    }
    static double times(const Row& row) { return conversion({Dim{}, ratio(row)}, one).apply(1); }

    Unit defined(const Row& row) const {
        UnitError error;
        const auto terms = read_terms(row.of, error);
        Unit unit{Dim{}, ratio(row)};
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
