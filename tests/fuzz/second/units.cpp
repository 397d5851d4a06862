#include "tests/fuzz/second/units.h"

#include <utility>

namespace acre::fuzz::second {
namespace {

const Powers length{{"m", 1}}, area{{"m", 2}}, volume{{"m", 3}}, mass{{"kg", 1}}, moment{{"s", 1}};
const Powers force{{"kg", 1}, {"m", 1}, {"s", -2}}, power{{"kg", 1}, {"m", 2}, {"s", -3}},
    energy{{"kg", 1}, {"m", 2}, {"s", -2}}, pressure{{"kg", 1}, {"m", -1}, {"s", -2}};

struct Row {
    const char* name;
    const char* is; // in SI, as the decimal that the definition comes to; exact unless it says so
    const Powers& of;
};

// The yard is 0.9144 m and the pound 0.45359237 kg exactly (agreement of 1 July 1959, Federal
// Register 24 FR 5348); the mile 5,280 ft, the acre 43,560 ft^2 of the international foot, the
// gallon 231 in^3, the hundredweight 100 lb and the ton 2,000 lb (NIST Handbook 44, appendix C).
// Standard gravity is 9.80665 m/s^2 (3rd CGPM, 1901). A horsepower is 550 ft.lbf/s. The decimals
// below are these products, multiplied out by hand and not by a program's table; from memory of the
// documents.
const Row rows[] = {
    {"in", "0.0254", length},
    {"ft", "0.3048", length},
    {"yd", "0.9144", length},
    {"mi", "1609.344", length},
    {"m", "1", length},
    {"cm", "0.01", length},
    {"mm", "0.001", length},
    {"km", "1000", length},
    {"ac", "4046.8564224", area},
    {"ha", "10000", area},
    {"gal", "0.003785411784", volume},
    {"qt", "0.000946352946", volume},
    {"L", "0.001", volume},
    {"mL", "0.000001", volume},
    {"cy", "0.764554857984", volume},
    {"lb", "0.45359237", mass},
    {"oz", "0.028349523125", mass},
    {"cwt", "45.359237", mass},
    {"ton", "907.18474", mass},
    {"kg", "1", mass},
    {"g", "0.001", mass},
    {"t", "1000", mass},
    {"s", "1", moment},
    {"min", "60", moment},
    {"h", "3600", moment},
    {"lbf", "4.4482216152605", force},
    {"N", "1", force},
    {"kN", "1000", force},
    {"kgf", "9.80665", force},
    {"hp", "745.69987158227022", power},
    {"W", "1", power},
    {"kW", "1000", power},
    {"kWh", "3600000", energy},
    {"MJ", "1000000", energy},
    {"Pa", "1", pressure},
    {"kPa", "1000", pressure},
    {"MPa", "1000000", pressure},
};

// Words that mean one of the above.
constexpr std::pair<const char*, const char*> words[] = {
    {"acre", "ac"},    {"acres", "ac"},    {"feet", "ft"},   {"foot", "ft"},   {"inches", "in"},
    {"miles", "mi"},   {"gallons", "gal"}, {"pounds", "lb"}, {"tons", "ton"},  {"hours", "h"},
    {"hour", "h"},     {"hr", "h"},        {"days", "day"},  {"years", "yr"},  {"meters", "m"},
    {"liters", "L"},   {"minutes", "min"}, {"yards", "yd"},  {"months", "mo"}, {"hectares", "ha"},
    {"degrees", "deg"}};

const Fraction& degree() { // pi / 180, to more digits than a double has
    static const Fraction is = decimal("3.1415926535897932384626433832795028842") / 180;
    return is;
}

} // namespace

// A unit text: names with exponents, put together by `.` and `/`, in brackets or not.
class UnitText {
  public:
    UnitText(const Units& units, std::string_view text) : units_(units), rest_(text) {}

    std::optional<Value> read() {
        Value is = number(1);
        if (!rest_.empty() && (rest_.front() == '/' || take('$'))) {
            if (rest_.empty() || rest_.front() != '/')
                return rest_.empty() ? money() : std::nullopt;
            if (had_money_)
                is = *money();
        } else {
            const std::optional<Value> first = factor();
            if (!first)
                return std::nullopt;
            is = *first;
        }
        const std::optional<Value> all = chain(is);
        return rest_.empty() ? all : std::nullopt;
    }

  private:
    bool take(char c) {
        if (rest_.empty() || rest_.front() != c)
            return false;
        rest_.remove_prefix(1);
        had_money_ = had_money_ || c == '$';
        return true;
    }
    static std::optional<Value> money() { return number(1, {{"$", 1}}); }

    std::optional<Value> chain(Value is) {
        while (!rest_.empty() && (rest_.front() == '.' || rest_.front() == '/')) {
            const bool over = rest_.front() == '/';
            rest_.remove_prefix(1);
            const std::optional<Value> next = factor();
            if (!next)
                return std::nullopt;
            is = over ? divide(is, *next) : multiply(is, *next);
        }
        return is;
    }

    std::optional<Value> factor() {
        std::optional<Value> one;
        if (take('(')) {
            const std::optional<Value> first = factor();
            one = first ? chain(*first) : std::nullopt;
            if (!one || !take(')'))
                return std::nullopt;
        } else {
            std::size_t size = 0;
            while (size < rest_.size() &&
                   std::string_view("./^()").find(rest_[size]) == std::string_view::npos)
                ++size;
            one = units_.named(rest_.substr(0, size));
            rest_.remove_prefix(size);
        }
        if (!one || !take('^'))
            return one;
        const bool below = take('-');
        int exponent = 0;
        while (!rest_.empty() && rest_.front() >= '0' && rest_.front() <= '9' && exponent < 100) {
            exponent = exponent * 10 + (rest_.front() - '0');
            rest_.remove_prefix(1);
        }
        return exponent > 12 ? std::nullopt
                             : std::optional(raise(*one, number(below ? -exponent : exponent)));
    }

    const Units& units_;
    std::string_view rest_;
    bool had_money_ = false;
};

namespace {

using Catalog = std::map<std::string_view, Value>;

Catalog make_catalog() {
    Catalog all;
    for (const Row& row : rows)
        all.emplace(row.name, number(decimal(row.is), row.of));
    all.emplace("psi", divide(all.at("lbf"), number(decimal("0.00064516"), area)));
    all.emplace("psf", divide(all.at("lbf"), number(decimal("0.09290304"), area)));
    all.emplace("clock", all.at("h"));
    all.emplace("deg", number(degree(), {{"rad", 1}}));
    all.emplace("rad", number(1, {{"rad", 1}}));
    all.emplace("%", number(Fraction(1, 100)));
    all.emplace("1", number(1));
    all.emplace("$", number(1, {{"$", 1}}));
    all.emplace("cent", number(Fraction(1, 100), {{"$", 1}}));
    all.emplace("mo", number(Fraction(1, 12), {{"yr", 1}})); // of the calendar: no number of hours
    for (const char* base : {"yr", "day", "shift", "bcy", "lcy"})
        all.emplace(base, number(1, {{base, 1}}));
    for (const auto& [word, unit] : words)
        all.emplace(word, all.at(unit));
    return all;
}

} // namespace

std::optional<Value> Units::named(std::string_view name) const {
    static const Catalog catalog = make_catalog();
    if (const auto own = own_.find(name); own != own_.end())
        return own->second;
    const auto known = catalog.find(name);
    return known == catalog.end() ? std::nullopt : std::optional(known->second);
}

void Units::add_noun(std::string_view name) {
    const Value one = number(1, {{std::string(name), 1}});
    own_.insert_or_assign(std::string(name), one);
    own_.insert_or_assign(std::string(name) + "s", one);
    read_.clear();
}
void Units::add(std::string_view name, const Value& one) {
    own_.insert_or_assign(std::string(name), one);
    read_.clear();
}

std::optional<Value> Units::read(std::string_view text) const {
    if (text.empty())
        return number(1);
    if (const auto before = read_.find(text); before != read_.end())
        return before->second;
    std::optional<Value> one = UnitText(*this, text).read();
    if (one && !one->is_number())
        one.reset();
    return read_.emplace(text, std::move(one)).first->second;
}

} // namespace acre::fuzz::second
