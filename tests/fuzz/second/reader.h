// The second reader: from texts to values by walking the syntax tree, with nothing of the program
// below it. What it does not read (lists within lists, functions over lists, native functions,
// names of copies within used models) it does not know; it never guesses.
#pragma once

#include <map>
#include <memory>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "tests/fuzz/second/program.h"

namespace acre::fuzz::second {

class Reader {
  public:
    explicit Reader(const Program& program) : program_(program) {}

    // A line by the name that the program shows: "north.area", "crawler.own.amount",
    // "ripping.overhead", "price.total".
    Value line(std::string_view name);

    struct Billed { // what a customer is charged for one price
        std::string title;
        Value amount, quantity; // quantity: unknown for a lump
        Fraction unit = 1;      // one of the price's unit
        bool counted = false;   // by a noun
    };
    std::vector<Billed> billed();

  private:
    struct Frame { // of a define
        const Module* module = nullptr;
        const lang::ast::Define* define = nullptr;
        std::map<std::string, Value, std::less<>> values;
    };
    struct Place {
        const Module* module = nullptr;
        const Instance* instance = nullptr;
        std::string list, entry; // whose entry is at hand
        Frame* frame = nullptr;
        bool literal = false; // of a value that is set: names are options alone
    };

    Value of(ExprId id, const Place& place);
    Value of_number(const lang::ast::Expr& expr, const lang::ast::Number& n) const;
    Value of_name(std::string_view name, const Place& place);
    Value of_binary(const lang::ast::Binary& n, const Place& place);
    Value of_is(const lang::ast::Is& n, const Place& place);
    Value of_when(const lang::ast::When& n, const Place& place);
    Value of_call(const lang::ast::Call& n, const Place& place);
    Value built_in(std::string_view name, const lang::ast::Call& n, const Place& place);
    Value over_list(std::string_view name, ExprId what, const Place& place);
    Value of_table(const Program::Named& at, const Value& x);
    Value of_define(const Program::Named& at, const lang::ast::Call& n, const Place& place);
    bool outside(const lang::ast::Define& define, Frame& frame, bool& unsure);

    const Declared* find(std::string_view name, const Instance& instance, std::string& entry) const;
    Value declared(const Declared& what, const std::string& entry);
    Value compute(const Declared& what, const std::string& entry);
    Value given(const Declared& what, const lang::ast::Given& given, const std::string& entry,
                const Place& place);
    Value in_unit(const Value& value, const lang::ast::UnitText& unit) const;
    std::optional<Value> unit(const lang::ast::UnitText& unit) const;

    // prices.cpp
    struct Item {
        const lang::ast::Price* ast = nullptr;
        std::string name;
        Value cost, quantity, amount, rate;
        std::vector<std::pair<std::string, Value>> steps; // the sum after each
        Value overhead;
    };
    const std::vector<Item>& items();
    Item item(const lang::ast::Price& price, const std::vector<std::string>& named_elsewhere);
    void take_steps(Item& item);
    Value costs(const lang::ast::Price* price, const std::vector<std::string>& named_elsewhere);
    Value total(std::string_view name);

    const Program& program_;
    std::map<std::pair<const Declared*, std::string>, Value> known_;
    std::set<std::pair<const Declared*, std::string>> at_work_;
    std::vector<Item> items_;
    bool items_made_ = false;
    std::size_t steps_ = 0, depth_ = 0;
};

} // namespace acre::fuzz::second
