// The plainest reader there could be: walks the checked formulas of a sheet one by one, with the C
// library's functions and no plan. What the plan says must be what this says, up to the error that
// both may have: each value carries a bound of it, and is unsure where a decision hangs on less
// than that (a comparison of all but equal values, a root of all but nothing).
#pragma once

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <string_view>
#include <vector>

#include "lang/check/sheet.h"
#include "tests/support/naive_arithmetic.h"

namespace acre::tests {

class NaiveValue : private NaiveArithmetic {
  public:
    explicit NaiveValue(const lang::Sheet& sheet) : sheet_(sheet), known_(sheet.lines.size()) {}

    Naive line(lang::LineId id) {
        if (!known_[id]) {
            const Naive made = sheet_.lines[id].value == lang::none
                                   ? poison()
                                   : of(sheet_.lines[id].value, {}, nullptr);
            known_[id] = made;
        }
        return *known_[id];
    }
    Naive line(std::string_view name) { return line(sheet_.find(name)); }

  private:
    using Args = std::vector<Naive>;
    static constexpr std::size_t most_nodes =
        300'000; // functions of functions: their tree may be larger than any plan
    static constexpr std::size_t deepest = 1'500;
    Naive of(lang::NodeId id, const Args& args, const lang::Function* in) {
        if (++nodes_ > most_nodes || depth_ >= deepest)
            return unsure();
        ++depth_;
        const Naive made = raw(sheet_.nodes[id], args, in);
        --depth_;
        return made;
    }

    Naive raw(const lang::Node& n, const Args& args, const lang::Function* in) {
        using lang::Op;
        const auto value = [&](lang::NodeId id) { return of(id, args, in); };
        switch (n.op) {
        case Op::Number:
            return {n.number, 0, true};
        case Op::Choice:
            return {static_cast<double>(n.index), 0, true};
        case Op::Line:
            return line(n.index);
        case Op::Parameter:
            return args[n.index];
        case Op::Local:
            return value(in->locals[n.index].value);
        case Op::And:
        case Op::Or:
            return both(n, args, in);
        case Op::When: {
            const Naive a = value(n.a);
            if (a.no_answer())
                return a;
            const Naive taken = value(a.value != 0 ? n.b : n.c);
            return {taken.value, taken.error, a.sure && taken.sure};
        }
        case Op::Min:
        case Op::Least:
        case Op::Max:
        case Op::Most:
        case Op::Sum:
            return over_args(n, args, in);
        case Op::Define:
            return call(n, args, in);
        case Op::Table: {
            const Naive x = value(n.a);
            return x.no_answer() ? x : table(sheet_.tables[n.index], x);
        }
        case Op::Ceil:
        case Op::Floor:
        case Op::Round: {
            const Naive a = value(n.a);
            const Naive step = n.b == lang::none ? Naive{1, 0, true} : value(n.b);
            return whole(n.op, a, step);
        }
        case Op::Missing:
            return poison();
        default:
            break;
        }
        const Naive a = value(n.a);
        if (n.b == lang::none)
            return a.no_answer() ? a : one(n, a);
        const Naive b = value(n.b);
        if (a.no_answer() || b.no_answer())
            return {std::numeric_limits<double>::quiet_NaN(), 0, a.sure && b.sure};
        return two(n.op, a, b, a.sure && b.sure);
    }

    // The second condition is not looked at where the first decides.
    Naive both(const lang::Node& n, const Args& args, const lang::Function* in) {
        const bool is_and = n.op == lang::Op::And;
        const Naive a = of(n.a, args, in);
        if (a.no_answer())
            return a;
        if ((a.value == 0) == is_and)
            return {is_and ? 0.0 : 1.0, 0, a.sure};
        const Naive b = of(n.b, args, in);
        return {b.value, b.error, a.sure && b.sure};
    }

    Naive over_args(const lang::Node& n, const Args& args, const lang::Function* in) {
        using lang::Op;
        Naive all = of(sheet_.args[n.first_arg], args, in);
        for (std::uint32_t i = 1; i < n.arg_count; ++i) {
            const Naive next = of(sheet_.args[n.first_arg + i], args, in);
            const bool sure = all.sure && next.sure;
            if (all.no_answer() || next.no_answer())
                all = {std::numeric_limits<double>::quiet_NaN(), 0, sure};
            else if (n.op == Op::Sum)
                all = rounded(all.value + next.value, all.error + next.error, sure);
            else if (n.op == Op::Min || n.op == Op::Least)
                all = {std::fmin(all.value, next.value), std::fmax(all.error, next.error), sure};
            else
                all = {std::fmax(all.value, next.value), std::fmax(all.error, next.error), sure};
        }
        return all;
    }

    Naive call(const lang::Node& n, const Args& args, const lang::Function* in) {
        const lang::Function& function = sheet_.functions[n.index];
        if (function.native)
            return unsure();
        Args inner;
        for (std::uint32_t i = 0; i < n.arg_count; ++i)
            inner.push_back(of(sheet_.args[n.first_arg + i], args, in));
        bool sure = true;
        for (const lang::FunctionRange& limit : function.limits) {
            const Naive x = inner[limit.parameter];
            for (const lang::NodeId end : {limit.low, limit.high}) {
                const Naive bound = of(end, inner, &function);
                const bool open =
                    !x.no_answer() && !bound.no_answer() &&
                    (end == limit.low ? x.value >= bound.value : x.value <= bound.value);
                const double error = x.error + bound.error;
                sure = sure && x.sure && bound.sure;
                if (error > 0 && std::fabs(x.value - bound.value) <= error)
                    return unsure();
                if (!open)
                    return {std::numeric_limits<double>::quiet_NaN(), 0, sure};
            }
        }
        const Naive result = of(function.value, inner, &function);
        return {result.value, result.error, result.sure && sure};
    }

    const lang::Sheet& sheet_;
    std::vector<std::optional<Naive>> known_;
    std::size_t nodes_ = 0, depth_ = 0;
};

} // namespace acre::tests
