// Values of the second reader: exact fractions of SI units (the dollar, the year, the day and the
// nouns of a model are bases of their own), each with the units that it is of. Nothing here is the
// program's own.
//
// The program works in doubles, so every value also carries a bound of what a double may be off by
// on the same way. What hangs on less than that (a comparison of all but equal values, a rounding
// all but on its edge) is not known here, and so is what the reader does not read.
#pragma once

#include <functional>
#include <map>
#include <string>
#include <string_view>

#include <boost/multiprecision/cpp_int.hpp>

namespace acre::fuzz::second {

using Fraction = boost::multiprecision::cpp_rational;
using Powers = std::map<std::string, int, std::less<>>; // of bases; none of them is 0

struct Value {
    enum class Kind { Unknown, NoAnswer, Misfit, Number, Truth, Option } kind = Kind::Unknown;
    Fraction is;
    Powers of;
    double error = 0;     // absolute, in base units
    bool rational = true; // no root and no function on the way: `is` is exact
    bool holds = false;   // of a Truth
    std::string option;   // of an Option

    bool is_number() const { return kind == Kind::Number; }
};

Value number(Fraction is, Powers of = {});
Value truth(bool holds);
Value option(std::string name);
Value unknown();
Value no_answer();
Value misfit();                    // units that cannot be taken: the program refuses such a text
bool passes_on(const Value& a);    // neither number, truth nor option
double to_double(const Fraction&); // the nearest double
Fraction decimal(std::string_view digits); // "1,850,000", "2.5e-3": as written, not as a double

Powers times(const Powers& a, const Powers& b, int sign = 1);

// Of two values the first that passes on decides. Each rounds as a double would.
Value add(const Value& a, const Value& b, int sign = 1);
Value multiply(const Value& a, const Value& b);
Value divide(const Value& a, const Value& b);
Value negate(Value a);
Value absolute(Value a);
Value larger(const Value& a, const Value& b);
Value smaller(const Value& a, const Value& b);
Value raise(const Value& a, const Value& exponent);
Value root(const Value& a);
Value function(std::string_view name, const Value& a); // exp, log, sin, cos, tan, atan

enum class Order { Less, LessEqual, Greater, GreaterEqual, Equal, NotEqual };
Value compare(Order order, const Value& a, const Value& b);

enum class To { Up, Down, Nearest };
Value whole_steps(To to, const Value& a, const Value& step); // half a step: away from zero

} // namespace acre::fuzz::second
