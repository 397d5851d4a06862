#include "engine/book/shape.h"

#include <cmath>
#include <initializer_list>
#include <string_view>

#include "engine/book/json.h"
#include "lang/syntax/signs.h"
#include "lang/units/money.h"

namespace acre::engine {
namespace {

enum class Kind { Text, Number, Cents, Counter, Object, List, Currency, Sign, Step };

struct Member {
    std::string_view name;
    Kind kind;
};

bool is_whole(const Json& value, double most) {
    return value.is_number_integer() && std::fabs(value.get<double>()) <= most;
}

bool is(const Json& value, Kind kind) {
    switch (kind) {
    case Kind::Text:
        return value.is_string();
    case Kind::Number:
        return value.is_number();
    case Kind::Cents:
        return is_whole(value, 9e15); // doubles count so far
    case Kind::Counter:
        return is_whole(value, 1e9);
    case Kind::Object:
        return value.is_object();
    case Kind::List:
        return value.is_array();
    case Kind::Currency:
        return value.is_string() && lang::is_money_code(value.get_ref<const std::string&>());
    case Kind::Sign:
        return value.is_string() && lang::may_be_sign_of_money(value.get_ref<const std::string&>());
    case Kind::Step:
        return is_whole(value, 1e8) && value.get<double>() >= 1;
    }
    return false;
}

std::string_view named(Kind kind) {
    switch (kind) {
    case Kind::Text:
        return "text";
    case Kind::Number:
        return "a number";
    case Kind::Cents:
        return "an amount in cents";
    case Kind::Counter:
        return "a count of quotes";
    case Kind::Object:
        return "an object";
    case Kind::List:
        return "a list";
    case Kind::Currency:
        return "a code of money";
    case Kind::Sign:
        return "a sign of money";
    case Kind::Step:
        return "a step of money";
    }
    return {};
}

// The first fault that was found stays.
class Shape {
  public:
    const std::string& fault() const { return fault_; }

    void members(const Json& object, std::string_view where, std::initializer_list<Member> known) {
        for (const Member& member : known)
            if (const auto it = object.find(member.name);
                it != object.end() && !is(*it, member.kind))
                fail(where, member.name, member.kind);
    }
    // The member of this name, if it is a set of members.
    void inside(const Json& object, std::string_view name, std::initializer_list<Member> known) {
        if (const auto it = object.find(name); it != object.end() && it->is_object())
            members(*it, name, known);
    }
    void each(const Json& object, std::string_view name, std::initializer_list<Member> known) {
        if (const auto it = object.find(name); it != object.end() && it->is_array())
            for (const Json& entry : *it) {
                if (!entry.is_object())
                    return fail(name, {}, Kind::Object);
                members(entry, name, known);
            }
    }
    void all(const Json& object, std::string_view name, Kind kind) {
        if (const auto it = object.find(name); it != object.end() && it->is_structured())
            for (const Json& entry : *it)
                if (!is(entry, kind))
                    return fail(name, {}, kind);
    }

    void lacks(std::string_view where, std::string_view name) {
        if (fault_.empty())
            fault_ = "`" + std::string(where) + "` has no `" + std::string(name) + "`";
    }

  private:
    void fail(std::string_view where, std::string_view name, Kind kind) {
        if (!fault_.empty())
            return;
        const std::string path =
            std::string(where) + (where.empty() || name.empty() ? "" : ".") + std::string(name);
        fault_ = (name.empty() ? "one of `" : "`") + path + "` is not " + std::string(named(kind));
    }

    std::string fault_;
};

void shape_of_figures(Shape& shape, const Json& record) {
    shape.each(record, "lines",
               {{"name", Kind::Text},
                {"value", Kind::Number},
                {"unit", Kind::Text},
                {"choice", Kind::Text}});
    shape.each(record, "givens",
               {{"name", Kind::Text},
                {"value", Kind::Number},
                {"unit", Kind::Text},
                {"choice", Kind::Text}});
    shape.each(record, "costs",
               {{"name", Kind::Text},
                {"label", Kind::Text},
                {"part", Kind::Text},
                {"rate", Kind::Number},
                {"rate_unit", Kind::Text},
                {"quantity", Kind::Number},
                {"quantity_unit", Kind::Text},
                {"amount", Kind::Number}});
    shape.each(record, "counted",
               {{"name", Kind::Text},
                {"unit", Kind::Text},
                {"machine", Kind::Text},
                {"costs", Kind::List},
                {"value", Kind::Number}});
    shape.each(record, "items",
               {{"title", Kind::Text},
                {"name", Kind::Text},
                {"per", Kind::Text},
                {"quantity", Kind::Number},
                {"rate", Kind::Number},
                {"cost", Kind::Number},
                {"cents", Kind::Cents}});
}

void shape_of_firm(Shape& shape, const Json& record) {
    shape.inside(record, "firm", {{"name", Kind::Text}, {"words", Kind::List}});
    if (const auto firm = record.find("firm"); firm != record.end() && firm->is_object())
        shape.each(*firm, "words", {{"name", Kind::Text}, {"text", Kind::Text}});
    shape.inside(record, "money",
                 {{"code", Kind::Currency}, {"sign", Kind::Sign}, {"step", Kind::Step}});
    if (const auto money = record.find("money"); money != record.end() && money->is_object())
        for (const char* name : {"code", "sign", "step"})
            if (!money->contains(name))
                shape.lacks("money", name);
}

} // namespace

std::string shape_fault(const Json& record) {
    if (!record.is_object())
        return "it is not an object";
    Shape shape;
    shape.members(
        record, {},
        {{"kind", Kind::Text},        {"quote", Kind::Text},    {"issued", Kind::Text},
         {"valid_until", Kind::Text}, {"by", Kind::Text},       {"replaces", Kind::Text},
         {"state", Kind::Text},       {"date", Kind::Text},     {"note", Kind::Text},
         {"counter", Kind::Object},   {"job", Kind::Object},    {"price", Kind::Object},
         {"request", Kind::Object},   {"texts", Kind::Object},  {"lines", Kind::List},
         {"costs", Kind::List},       {"items", Kind::List},    {"inner", Kind::List},
         {"shown", Kind::List},       {"counted", Kind::List},  {"cautions", Kind::List},
         {"givens", Kind::List},      {"pictures", Kind::List}, {"references", Kind::List},
         {"program", Kind::Text},     {"schema", Kind::Text},   {"accepted", Kind::List},
         {"firm", Kind::Object},      {"money", Kind::Object},  {"blocks", Kind::List}});
    shape.inside(record, "job",
                 {{"title", Kind::Text},
                  {"for", Kind::Text},
                  {"option", Kind::Text},
                  {"model", Kind::Text},
                  {"season", Kind::Text},
                  {"date", Kind::Text},
                  {"start", Kind::Text},
                  {"finish", Kind::Text}});
    shape.inside(record, "price",
                 {{"cents", Kind::Cents},
                  {"per", Kind::Text},
                  {"quantity", Kind::Number},
                  {"per_unit", Kind::Number},
                  {"cost", Kind::Number}});
    shape_of_firm(shape, record);
    shape_of_figures(shape, record);
    shape.each(record, "pictures", {{"block", Kind::Text}, {"svg", Kind::Text}});
    shape.each(record, "blocks",
               {{"label", Kind::Text},
                {"acres", Kind::Text},
                {"depth", Kind::Text},
                {"soil", Kind::Text},
                {"cents", Kind::Cents}});
    shape.all(record, "counter", Kind::Counter);
    shape.all(record, "texts", Kind::Text);
    shape.all(record, "inner", Kind::Text);
    shape.all(record, "shown", Kind::Text);
    shape.all(record, "cautions", Kind::Text);
    shape.all(record, "accepted", Kind::Text);
    return shape.fault();
}

} // namespace acre::engine
