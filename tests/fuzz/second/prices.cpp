// What a job costs and what is charged: the lines that prices make, and the totals.
#include <algorithm>
#include <cctype>
#include <variant>

#include "tests/fuzz/second/reader.h"

namespace acre::fuzz::second {

namespace ast = lang::ast;

namespace {

Value dollars(int n) {
    return number(n, {{"$", 1}});
}

// "Tree rows" is tree_rows. Other signs than blanks: not named here.
std::string named(std::string_view title) {
    std::string name;
    for (const char c : title) {
        const auto letter = static_cast<unsigned char>(c);
        if (c != ' ' && std::isalnum(letter) == 0)
            return "";
        name += c == ' ' ? '_' : static_cast<char>(std::tolower(letter));
    }
    return name.find("__") == std::string::npos ? name : "";
}

const char* word(ast::StepKind kind) {
    switch (kind) {
    case ast::StepKind::Overhead:
        return "overhead";
    case ast::StepKind::Contingency:
        return "contingency";
    case ast::StepKind::Reserve:
        return "reserve";
    case ast::StepKind::Markup:
        return "markup";
    case ast::StepKind::Margin:
        return "margin";
    case ast::StepKind::AtLeast:
        return "at_least";
    case ast::StepKind::RoundUp:
        return "round_up";
    case ast::StepKind::RoundTo:
        return "round_to";
    }
    return "";
}

bool has(const std::vector<std::string>& list, std::string_view what) {
    return std::find(list.begin(), list.end(), what) != list.end();
}

} // namespace

// Of the parts that a price names, or of those that no other does; of all of them without a price.
Value Reader::costs(const ast::Price* price, const std::vector<std::string>& named_elsewhere) {
    Value all = dollars(0);
    std::vector<std::string> covered;
    if (price != nullptr)
        for (const ast::Text& title : price->covers)
            covered.emplace_back(title.text);
    for (const Instance& instance : program_.instances())
        for (const auto& [name, what] : instance.names) {
            if (what.what != Declared::What::Amount)
                continue;
            std::string part = instance.part;
            bool has_part = !part.empty();
            const bool own = &instance == &program_.own();
            if (own && what.statement->part != ast::none) {
                part = std::get<ast::Part>(instance.module->statements[what.statement->part].node)
                           .title.text;
                has_part = true;
            } else if (!own && !has_part)
                return unknown(); // used by a used model, or by nobody
            const bool taken =
                price == nullptr || (covered.empty() ? !has_part || !has(named_elsewhere, part)
                                                     : has_part && has(covered, part));
            if (!taken)
                continue;
            if (what.each.empty())
                all = add(all, declared(what, ""));
            else
                for (const std::string& entry : program_.entries(what.each))
                    all = add(all, declared(what, entry));
        }
    return all;
}

Reader::Item Reader::item(const ast::Price& price,
                          const std::vector<std::string>& named_elsewhere) {
    Item made;
    made.ast = &price;
    made.name = named(price.title.text);
    made.cost = costs(&price, named_elsewhere);
    made.overhead = dollars(0);
    if (!price.lump && price.per) {
        const Place place{program_.own().module, &program_.own(), "", "", nullptr, false};
        made.quantity = in_unit(of(price.quantity, place), *price.per);
    }
    take_steps(made);
    made.rate = price.lump ? unknown() : divide(made.amount, made.quantity);
    return made;
}

void Reader::take_steps(Item& item) {
    const Place place{program_.own().module, &program_.own(), "", "", nullptr, false};
    Value sum = item.cost;
    for (const ast::Step& step : item.ast->steps) {
        const Value before = sum;
        Value by = of(step.value, place);
        const bool is_money = by.of == Powers{{"$", 1}};
        switch (step.kind) {
        case ast::StepKind::Overhead:
        case ast::StepKind::Contingency:
        case ast::StepKind::Reserve:
        case ast::StepKind::Markup:
            sum = multiply(sum, add(number(1), by));
            break;
        case ast::StepKind::Margin:
            sum = divide(sum, add(number(1), by, -1));
            break;
        case ast::StepKind::AtLeast:
            sum = larger(sum, is_money ? by : multiply(by, item.quantity));
            break;
        case ast::StepKind::RoundUp:
        case ast::StepKind::RoundTo: {
            const To to = step.kind == ast::StepKind::RoundUp ? To::Up : To::Nearest;
            if (is_money || passes_on(by) || !item.quantity.is_number())
                sum = whole_steps(to, sum, is_money ? by : unknown());
            else if (item.quantity.is != 0)
                sum = multiply(whole_steps(to, divide(sum, item.quantity), by), item.quantity);
            break;
        }
        }
        if (sum.is_number() && sum.of != Powers{{"$", 1}})
            sum = misfit();
        if (step.kind == ast::StepKind::Overhead)
            item.overhead = add(item.overhead, add(sum, before, -1));
        std::string name = word(step.kind);
        const auto count =
            std::count_if(item.ast->steps.data(), &step,
                          [&](const ast::Step& other) { return other.kind == step.kind; });
        item.steps.emplace_back(count == 0 ? name : name + "_" + std::to_string(count + 1), sum);
    }
    item.amount = sum;
}

const std::vector<Reader::Item>& Reader::items() {
    if (items_made_)
        return items_;
    items_made_ = true; // a price that reads a price finds none: not known
    std::vector<const ast::Price*> prices;
    std::vector<std::string> covered;
    for (const ast::Statement& statement : program_.own().module->statements)
        if (const auto* price = std::get_if<ast::Price>(&statement.node)) {
            prices.push_back(price);
            for (const ast::Text& title : price->covers)
                covered.emplace_back(title.text);
        }
    std::vector<Item> made;
    for (const ast::Price* price : prices)
        made.push_back(item(*price, covered));
    return items_ = std::move(made);
}

Value Reader::total(std::string_view name) {
    if (name == "cost.total")
        return costs(nullptr, {});
    if (!items_made_)
        static_cast<void>(items());
    Value price = dollars(0), overhead = dollars(0);
    const Item* by_the_unit = nullptr;
    for (const Item& item : items_) {
        price = add(price, item.amount);
        overhead = add(overhead, item.overhead);
        if (by_the_unit == nullptr && !item.ast->lump)
            by_the_unit = &item;
        const std::size_t size = item.name.size();
        if (item.name.empty() || !name.starts_with(item.name) || name.size() <= size ||
            name[size] != '.')
            continue;
        if (std::count_if(items_.begin(), items_.end(),
                          [&](const Item& other) { return other.name == item.name; }) > 1)
            return unknown();
        const std::string_view what = name.substr(size + 1);
        for (const auto& [step, sum] : item.steps)
            if (step == what)
                return sum;
        return what == "cost"       ? item.cost
               : what == "quantity" ? item.quantity
               : what == "amount"   ? item.amount
               : what == "rate"     ? item.rate
                                    : unknown();
    }
    if (items_.empty())
        return unknown();
    const Value contribution = add(price, costs(nullptr, {}), -1);
    const Value profit = add(contribution, overhead, -1);
    return name == "price.total" ? price
           : name == "price.per_unit"
               ? (by_the_unit ? divide(price, by_the_unit->quantity) : unknown())
           : name == "overhead.total"     ? overhead
           : name == "contribution.total" ? contribution
           : name == "profit.total"       ? profit
           : name == "contribution.share" ? divide(contribution, price)
           : name == "profit.share"       ? divide(profit, price)
                                          : unknown();
}

std::vector<Reader::Billed> Reader::billed() {
    std::vector<Billed> out;
    for (const Item& item : items()) {
        Billed made{std::string(item.ast->title.text), item.amount, item.quantity, 1, false};
        if (!item.ast->lump && item.ast->per) {
            const std::optional<Value> one = unit(*item.ast->per);
            made.unit = one ? one->is : Fraction(1);
            made.counted =
                one && one->is == 1 && one->of.size() == 1 && one->of.begin()->second == 1;
            for (const char* base :
                 {"m", "kg", "s", "$", "yr", "day", "shift", "rad", "bcy", "lcy"})
                made.counted = made.counted && one->of.begin()->first != base;
            if (!one)
                made.quantity = unknown();
        }
        out.push_back(made);
    }
    return out;
}

} // namespace acre::fuzz::second
