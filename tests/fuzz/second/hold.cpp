#include "tests/fuzz/second/hold.h"

#include <cmath>
#include <string>

#include "engine/questions/estimate.h"
#include "tests/fuzz/second/reader.h"
#include "tests/fuzz/target.h"

namespace acre::fuzz::second {
namespace {

using boost::multiprecision::cpp_int;
using boost::multiprecision::denominator;
using boost::multiprecision::numerator;

std::string shown(const Value& value) {
    std::string text = std::to_string(to_double(value.is));
    for (const auto& [base, power] : value.of)
        text += " " + base + "^" + std::to_string(power);
    return text + " within " + std::to_string(value.error);
}

// Half up; nothing where a double might fall on the other side of the half.
std::optional<cpp_int> rounded(const Fraction& amount, double error, int parts) {
    const Fraction scaled = amount * parts * 2 + 1;
    const cpp_int twice = numerator(scaled) / denominator(scaled);
    const double to_edge = std::fabs(to_double(scaled / 2 - Fraction(cpp_int((twice + 1) / 2))));
    const bool on_it = scaled / 2 == Fraction(cpp_int((twice + 1) / 2));
    if (!on_it && to_edge <= 2 * error * parts + 1e-9 * std::fmax(1, to_double(scaled)))
        return std::nullopt;
    return cpp_int(twice / 2);
}

void hold_line(const lang::Sheet& sheet, const lang::Line& line, double got, const Program& program,
               Reader& reader, Held& held) {
    const Value value = reader.line(line.name);
    const auto what = [&] { // most of the time would go into what nobody reads
        return line.name + " is " + std::to_string(got) + " " + line.unit_text +
               ", the second reader says " + shown(value);
    };
    switch (value.kind) {
    case Value::Kind::Unknown:
    case Value::Kind::Truth:
        ++held.unknown;
        return;
    case Value::Kind::Misfit:
        broken("its units fit", __FILE__, __LINE__, line.name);
    case Value::Kind::NoAnswer:
        HOLDS_FOR(std::isnan(got), what());
        return;
    case Value::Kind::Option:
        HOLDS_FOR(line.type.kind == lang::Type::Kind::Choice, what());
        HOLDS_FOR(sheet.choices[line.type.choice].options.at(static_cast<std::size_t>(got)) ==
                      value.option,
                  what() + value.option);
        ++held.lines;
        return;
    case Value::Kind::Number:
        break;
    }
    const std::optional<Value> unit = program.units.read(line.unit_text);
    if (!unit) {
        ++held.unknown;
        return;
    }
    HOLDS_FOR(unit->of == value.of, what());
    HOLDS_FOR(std::isfinite(got), what());
    const double apart = std::fabs(to_double(Fraction(got) * unit->is - value.is));
    HOLDS_FOR(apart <= 2 * value.error + 1e-15 * std::fabs(to_double(value.is)), what());
    ++held.lines;
}

// The amount to the cent; by the unit the rate times the quantity that can be written down, where
// that rate is one that somebody stated (four decimals of a dollar at most).
std::optional<cpp_int> cents_of(const Reader::Billed& price) {
    const Value& amount = price.amount;
    if (!amount.is_number())
        return std::nullopt;
    const std::optional<cpp_int> plain = rounded(amount.is, amount.error, 100);
    const Value& quantity = price.quantity;
    if (!quantity.is_number())
        return quantity.kind == Value::Kind::Unknown && price.unit == 1 ? plain : std::nullopt;
    const Fraction units = quantity.is / price.unit;
    if (units <= 0 || amount.is <= 0)
        return std::nullopt;
    const double share = quantity.error / to_double(quantity.is);
    const int parts = price.counted && units >= 100 ? 1 : 100;
    const std::optional<cpp_int> hundredths = rounded(units, share * to_double(units), parts);
    const Fraction rate = amount.is / units * 10'000;
    const bool stated = denominator(rate) == 1;
    const double to_stated = std::fabs(to_double(rate) - std::round(to_double(rate)));
    const double off = to_double(rate) * (1e-9 + share + amount.error / to_double(amount.is));
    const bool exact = amount.rational && quantity.rational;
    if (!hundredths || *hundredths == 0 || (stated ? !exact : to_stated <= off))
        return std::nullopt;
    return stated ? rounded(rate / 10'000 * Fraction(*hundredths) / parts, amount.error, 100)
                  : plain;
}

} // namespace

Held hold(const engine::PricedJob& job, const lang::Request& request, lang::Loader& loader) {
    Held held;
    Program program(request, loader);
    if (program.beyond())
        return held;
    Reader reader(program);
    const lang::Sheet& sheet = job.sheet();
    for (lang::LineId id = 0; id < sheet.lines.size(); ++id) {
        const engine::Slot slot = job.plan().line_slot[id];
        if (slot != engine::no_slot)
            hold_line(sheet, sheet.lines[id], job.values().slot[slot], program, reader, held);
    }
    if (sheet.firm.money.step != 1 || sheet.prices.empty())
        return held;
    const auto estimate = engine::estimate(job);
    const std::vector<Reader::Billed> billed = reader.billed();
    if (!estimate)
        return held;
    HOLDS(billed.size() == estimate->items.size());
    for (std::size_t i = 0; i < billed.size(); ++i)
        if (const auto cents = cents_of(billed[i])) {
            HOLDS_FOR(*cents == estimate->items[i].cents,
                      billed[i].title + " is " + std::to_string(estimate->items[i].cents) +
                          " cents, the second reader says " + cents->str());
            ++held.prices;
        }
    return held;
}

} // namespace acre::fuzz::second
