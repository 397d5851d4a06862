#include "lang/check/check.h"

#include <string>
#include <string_view>
#include <utility>

#include <fmt/format.h>

#include "lang/check/order.h"
#include "lang/check/typing.h"

namespace acre::lang {
namespace {

constexpr Type plain{Type::Kind::Number, 0, {}};

Type base_type(Base base) {
    Type type;
    type.unit.dim.exponent[base] = 1;
    return type;
}

class Checker {
  public:
    Checker(Sheet& sheet, const SourceMap& sources, Diagnostics& diagnostics)
        : sheet_(sheet),
          typing_(sheet, sources, diagnostics),
          settled_(sheet.lines.size(), false) {}

    void run() {
        for (Function& function : sheet_.functions)
            check_function(function);
        for (const Cost& cost : sheet_.costs)
            check_cost(cost);
        for (Given& given : sheet_.givens)
            check_given(given);
        for (LineId id = 0; id < sheet_.lines.size(); ++id)
            if (!settled_[id] && sheet_.lines[id].value != none)
                sheet_.lines[id].value = check_formula(id);
        for (PriceItem& item : sheet_.prices)
            for (PriceStep& step : item.steps)
                check_step(step);
        for (std::vector<Condition>* list : {&sheet_.requires_, &sheet_.cautions})
            for (Condition& condition : *list)
                check_condition(condition);
        for (Correlation& correlation : sheet_.correlations) {
            typing_.shares().always(correlation.strength);
            correlation.strength = check_part({}, correlation.strength, plain,
                                              {"the strength of a correlation", {}}, "1");
        }
        for (Fleet& fleet : sheet_.fleets)
            check_fleet(fleet);
        for (Entry& entry : sheet_.entries)
            entry.field_heading =
                check_part({}, entry.field_heading, base_type(Angle), {"a heading", {}}, "deg");
        sheet_.job.field_heading =
            check_part({}, sheet_.job.field_heading, base_type(Angle), {"a heading", {}}, "deg");
    }

  private:
    // The text of a unit costs a search through the catalog: where nobody wrote it, it is made when
    // an error needs it.
    struct UnitName {
        const std::string* written = nullptr;
        const Unit* unit = nullptr;
    };
    // What a value is for, put into words by an error only: "the allowed range of `depth`".
    struct Purpose {
        std::string_view lead;
        std::string_view name;
    };
    static std::string text(const Purpose& subject) {
        return subject.name.empty() ? std::string(subject.lead)
                                    : fmt::format("{}`{}`", subject.lead, subject.name);
    }
    std::string text(const UnitName& unit) const {
        return unit.written != nullptr ? *unit.written : sheet_.units.text(*unit.unit);
    }

    // Types the value, and gives it in the unit that is declared.
    NodeId check_value(const Site& site, NodeId value, const Type& wanted, const Purpose& subject,
                       const UnitName& unit, Span declared) {
        const Mismatch mismatch = fit(typing_.type(site, value, &wanted), wanted);
        if (mismatch == Mismatch::None)
            return fitted(value, wanted);
        typing_.report().declared(site, value, mismatch, wanted, text(subject), text(unit),
                                  declared);
        return value;
    }

    NodeId fitted(NodeId value, const Type& wanted) {
        typing_.shares().in(value, wanted);
        return wanted.kind == Type::Kind::Number ? typing_.converted(value, wanted.unit) : value;
    }

    // The same for what has no declaration to point at. No value stays none.
    NodeId check_part(const Site& site, NodeId value, const Type& wanted, const Purpose& subject,
                      const std::string& unit_text) {
        return check_part(site, value, wanted, subject, UnitName{&unit_text, nullptr});
    }
    NodeId check_part(const Site& site, NodeId value, const Type& wanted, const Purpose& subject,
                      const UnitName& unit) {
        if (value == none)
            return none;
        const Mismatch mismatch = fit(typing_.type(site, value, &wanted), wanted);
        if (mismatch == Mismatch::None)
            return fitted(value, wanted);
        typing_.report().part(site, value, mismatch, wanted, text(subject), text(unit));
        return value;
    }

    void check_step(const PriceStep& step) {
        typing_.type({}, step.value);
        if (step.kind <= ast::StepKind::Margin)
            typing_.shares().step(step.value);
    }

    NodeId check_formula(LineId id) {
        const Line& line = sheet_.lines[id];
        if (line.type.kind == Type::Kind::Poison) {
            typing_.type({id, nullptr}, line.value); // its own errors are told all the same
            return line.value;
        }
        const Type wanted = line.type;
        const std::string_view lead = line.role == Role::EventCount ? "the count of " : "";
        return check_value({id, nullptr}, line.value, wanted, {lead, line.name},
                           UnitName{&line.unit_text, nullptr}, line.name_span);
    }

    void check_cost(const Cost& cost) {
        const Line& rate = sheet_.lines[cost.rate];
        const Line& quantity = sheet_.lines[cost.quantity];
        if (quantity.value == none || rate.type.kind != Type::Kind::Number)
            return;
        const Type over = typing_.type({cost.quantity, nullptr}, quantity.value);
        const Applied money = apply(Op::Multiply, rate.type, over);
        if (over.kind == Type::Kind::Poison ||
            (money.good() && money.type.unit.dim == base_type(Money).unit.dim))
            return;
        if (over.kind != Type::Kind::Number)
            typing_.report().declared({cost.quantity, nullptr}, quantity.value,
                                      Mismatch::WantsNumber, plain,
                                      fmt::format("`{}`", quantity.name), "1", quantity.name_span);
        else
            typing_.report().cost(cost);
        settled_[cost.amount] = true;
    }

    void check_given(Given& given) {
        const LineId id = given.line;
        const Site site{id, nullptr};
        const Type wanted = sheet_.lines[id].type;
        const std::string& name = sheet_.lines[id].name;
        const std::string unit_text = sheet_.lines[id].unit_text;
        const Span declared = sheet_.lines[id].name_span;
        settled_[id] = true;
        for (Setting& setting : given.settings) {
            if (setting.value == none)
                continue;
            const bool in_force = setting.value == sheet_.lines[id].value;
            setting.value = check_value(site, setting.value, wanted, {"", name},
                                        UnitName{&unit_text, nullptr}, declared);
            if (in_force)
                sheet_.lines[id].value = setting.value;
        }
        for (Setting& setting : given.of_other_days)
            if (setting.value != none)
                setting.value = check_value(site, setting.value, wanted, {"", name},
                                            UnitName{&unit_text, nullptr}, declared);
        given.within_low =
            check_part(site, given.within_low, wanted, {"the allowed range of ", name}, unit_text);
        given.within_high =
            check_part(site, given.within_high, wanted, {"the allowed range of ", name}, unit_text);
        const std::string lead = fmt::format("the {} of ", given.swing_name());
        // Shares of it are in percent, whatever the unit of the given.
        const bool shares = given.of_it && wanted.kind == Type::Kind::Number;
        const Type range = shares ? Type{Type::Kind::Number, 0, *sheet_.units.find("%")} : wanted;
        const std::string range_unit = shares ? "%" : unit_text;
        given.swing_low = check_part(site, given.swing_low, range, {lead, name}, range_unit);
        given.swing_high = check_part(site, given.swing_high, range, {lead, name}, range_unit);
    }

    void check_condition(Condition& condition) {
        if (condition.costs != none)
            check_refusal(condition);
        if (condition.condition == none)
            return;
        const Type type = typing_.type({}, condition.condition);
        if (type.kind != Type::Kind::Truth && type.kind != Type::Kind::Poison)
            typing_.report().condition({}, condition.condition);
    }

    void check_refusal(Condition& require) {
        const Type money = base_type(Money);
        const Type is = typing_.type({}, require.costs, &money);
        if (fit(is, money) == Mismatch::None)
            require.costs = typing_.converted(require.costs, money.unit);
        else if (is.kind != Type::Kind::Poison)
            typing_.report().refusal({}, require.costs);
    }

    void check_fleet(Fleet& fleet) {
        Type year;
        year.unit = *sheet_.units.find("yr");
        const auto per_year = [&](const char* unit) {
            return apply(Op::Divide, {Type::Kind::Number, 0, *sheet_.units.find(unit)}, year).type;
        };
        fleet.costs = check_part({}, fleet.costs, per_year("$"),
                                 {"what the machine costs in a year", {}}, "$/yr");
        fleet.over = check_part({}, fleet.over, per_year("h"),
                                {"what the machine works in a year", {}}, "h/yr");
    }

    void check_function(Function& function) {
        const Site site{none, &function};
        for (Local& local : function.locals)
            if (local.value != none)
                local.value = check_value(site, local.value, local.type, {"", local.name},
                                          UnitName{nullptr, &local.type.unit}, local.span);
        if (function.value != none)
            function.value =
                check_value(site, function.value, function.type, {"", function.name},
                            UnitName{&function.type_text, nullptr}, function.name_span);
        for (std::vector<FunctionRange>* ranges : {&function.tested, &function.limits})
            for (FunctionRange& range : *ranges) {
                const Purpose subject{ranges == &function.limits ? "the limits of "
                                                                 : "the tested range of ",
                                      function.parameters[range.parameter]};
                const Type& wanted = function.parameter_types[range.parameter];
                range.low = check_part(site, range.low, wanted, subject,
                                       function.parameter_texts[range.parameter]);
                range.high = check_part(site, range.high, wanted, subject,
                                        function.parameter_texts[range.parameter]);
            }
        for (FunctionExample& example : function.examples) {
            if (example.call == none)
                continue;
            // Any formula may stand there, say the result times a wage: what is expected is of its
            // kind.
            const Type shown = typing_.type({}, example.call);
            example.expected = check_part({}, example.expected, shown, {"the example", {}},
                                          UnitName{nullptr, &shown.unit});
            example.tolerance = check_part({}, example.tolerance, shown, {"the example", {}},
                                           UnitName{nullptr, &shown.unit});
        }
    }

    Sheet& sheet_;
    Typing typing_;
    std::vector<bool> settled_; // by line: done already, or reported
};

} // namespace

std::optional<CheckedSheet> check(Sheet sheet, const SourceMap& sources, Diagnostics& diagnostics) {
    Checker(sheet, sources, diagnostics).run();
    report_loops(sheet, diagnostics);
    if (diagnostics.has_errors())
        return std::nullopt;
    return CheckedSheet(std::move(sheet));
}

} // namespace acre::lang
