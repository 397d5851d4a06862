#include "tests/fuzz/second/reader.h"

#include <cctype>
#include <variant>

namespace acre::fuzz::second {

namespace ast = lang::ast;

namespace {

constexpr std::size_t most_steps = 100'000, deepest = 400;

Value joined(const Value& a, const Value& b, bool is_and) {
    if (a.kind == Value::Kind::Truth && a.holds != is_and)
        return a;
    return passes_on(a) ? a : b;
}

} // namespace

Value Reader::of(ExprId id, const Place& place) {
    if (id == ast::none || ++steps_ > most_steps || depth_ > deepest)
        return unknown();
    ++depth_;
    const ast::Expr& expr = place.module->exprs[id];
    Value made;
    if (const auto* n = std::get_if<ast::Number>(&expr.node))
        made = of_number(expr, *n);
    else if (const auto* name = std::get_if<ast::Name>(&expr.node))
        made = of_name(name->text, place);
    else if (const auto* minus = std::get_if<ast::Negate>(&expr.node))
        made = negate(of(minus->of, place));
    else if (const auto* no = std::get_if<ast::Not>(&expr.node)) {
        made = of(no->of, place);
        if (made.kind == Value::Kind::Truth)
            made.holds = !made.holds;
        else if (!passes_on(made))
            made = misfit();
    } else if (const auto* two = std::get_if<ast::Binary>(&expr.node))
        made = of_binary(*two, place);
    else if (const auto* is = std::get_if<ast::Is>(&expr.node))
        made = of_is(*is, place);
    else if (const auto* when = std::get_if<ast::When>(&expr.node))
        made = of_when(*when, place);
    else if (const auto* call = std::get_if<ast::Call>(&expr.node))
        made = of_call(*call, place);
    --depth_;
    return made;
}

// From its own text: the digits as they stand there, and the unit.
Value Reader::of_number(const ast::Expr& expr, const ast::Number& n) const {
    std::string_view text = program_.text(expr.span);
    while (!text.empty() && std::isdigit(static_cast<unsigned char>(text.front())) == 0)
        text.remove_prefix(1); // the sign of money
    std::size_t size = 0;
    const auto digit = [&](std::size_t at) {
        return at < text.size() && std::isdigit(static_cast<unsigned char>(text[at])) != 0;
    };
    while (digit(size) ||
           (size < text.size() && (text[size] == '.' || text[size] == ',') && digit(size + 1)))
        ++size;
    if (size < text.size() && text[size] == ':')
        return unknown(); // a time of day
    if (size < text.size() && (text[size] == 'e' || text[size] == 'E')) {
        const std::size_t sign =
            size + 1 < text.size() && (text[size + 1] == '-' || text[size + 1] == '+');
        if (digit(size + 1 + sign))
            for (size += 1 + sign; digit(size);)
                ++size;
    }
    const Value plain = number(decimal(text.substr(0, size)));
    if (plain.is_number() && std::abs(to_double(plain.is) - n.value) > 1e-15 * std::abs(n.value))
        return misfit(); // the digits were read as another number
    if (!n.unit)
        return plain;
    const std::optional<Value> one = unit(*n.unit);
    return one ? multiply(plain, *one) : unknown();
}

std::optional<Value> Reader::unit(const ast::UnitText& unit) const {
    if (unit.dollar && unit.sign != "$")
        return std::nullopt;
    return program_.units.read(std::string(unit.dollar ? "$" : "") + std::string(unit.text));
}

Value Reader::in_unit(const Value& value, const ast::UnitText& unit_text) const {
    const std::optional<Value> one = unit(unit_text);
    if (!one || !value.is_number())
        return value;
    return value.of == one->of ? value : misfit();
}

Value Reader::of_binary(const ast::Binary& n, const Place& place) {
    using Op = ast::BinaryOp;
    const Value a = of(n.left, place);
    if (n.op == Op::And || n.op == Op::Or) {
        const bool decided = a.kind == Value::Kind::Truth && a.holds != (n.op == Op::And);
        return decided || passes_on(a) ? a : joined(a, of(n.right, place), n.op == Op::And);
    }
    const Value b = of(n.right, place);
    switch (n.op) {
    case Op::Add:
        return add(a, b);
    case Op::Subtract:
        return add(a, b, -1);
    case Op::Multiply:
        return multiply(a, b);
    case Op::Divide:
        return divide(a, b);
    case Op::Power:
        return raise(a, b);
    case Op::Less:
        return compare(Order::Less, a, b);
    case Op::LessEqual:
        return compare(Order::LessEqual, a, b);
    case Op::Greater:
        return compare(Order::Greater, a, b);
    case Op::GreaterEqual:
        return compare(Order::GreaterEqual, a, b);
    case Op::Equal:
        return compare(Order::Equal, a, b);
    case Op::NotEqual:
        return compare(Order::NotEqual, a, b);
    case Op::And:
    case Op::Or:
        break;
    }
    return unknown();
}

Value Reader::of_is(const ast::Is& n, const Place& place) {
    Value asked;
    const auto* name = std::get_if<ast::Name>(&place.module->exprs[n.value].node);
    if (name != nullptr && program_.is_list(name->text)) {
        if (place.list != name->text || place.entry.empty())
            return unknown();
        asked = option(place.entry);
    } else
        asked = of(n.value, place);
    if (asked.kind != Value::Kind::Option)
        return passes_on(asked) ? asked : misfit();
    return truth((asked.option == n.choice.text) != n.negated);
}

Value Reader::of_when(const ast::When& n, const Place& place) {
    const Value condition = of(n.condition, place);
    if (condition.kind != Value::Kind::Truth)
        return passes_on(condition) ? condition : misfit();
    return of(condition.holds ? n.then : n.otherwise, place);
}

Value Reader::of_name(std::string_view name, const Place& place) {
    if (place.frame != nullptr) {
        Frame& frame = *place.frame;
        if (const auto known = frame.values.find(name); known != frame.values.end())
            return known->second;
        for (const ast::Line& local : frame.define->locals)
            if (local.name.text == name) {
                const Value made = in_unit(of(local.value, place), local.unit);
                frame.values[std::string(name)] = made;
                return made;
            }
        return option(std::string(name));
    }
    if (place.literal)
        return name.find('.') == std::string_view::npos ? option(std::string(name)) : unknown();
    std::string entry = place.entry;
    if (const Declared* there = find(name, *place.instance, entry)) {
        if (!there->each.empty() && entry == place.entry && there->each != place.list)
            return unknown();
        return declared(*there, entry);
    }
    if (place.instance == &program_.own() && name.find('.') != std::string_view::npos)
        return line(name);
    return name.find('.') == std::string_view::npos ? option(std::string(name)) : unknown();
}

const Declared* Reader::find(std::string_view name, const Instance& instance,
                             std::string& entry) const {
    if (const auto own = instance.names.find(name); own != instance.names.end())
        return &own->second;
    const std::size_t dot = name.find('.');
    if (dot == std::string_view::npos)
        return nullptr;
    const std::string_view first = name.substr(0, dot);
    if (const auto used = instance.used.find(first); used != instance.used.end())
        return find(name.substr(dot + 1), *used->second, entry);
    const auto own = instance.names.find(name.substr(dot + 1));
    if (own == instance.names.end() || own->second.each.empty())
        return nullptr;
    for (const std::string& other : program_.entries(own->second.each))
        if (other == first) {
            entry = other;
            return &own->second;
        }
    return nullptr;
}

Value Reader::declared(const Declared& what, const std::string& entry) {
    const std::string of_entry = what.each.empty() ? "" : entry;
    const auto key = std::make_pair(&what, of_entry);
    if (const auto known = known_.find(key); known != known_.end())
        return known->second;
    if (what.beyond || !at_work_.insert(key).second)
        return unknown(); // in a circle: the program refuses such a text
    const Value made = compute(what, of_entry);
    at_work_.erase(key);
    known_[key] = made;
    return made;
}

Value Reader::compute(const Declared& what, const std::string& entry) {
    const Place place{what.in->module, what.in, what.each, entry, nullptr, false};
    using What = Declared::What;
    const auto sibling = [&](std::string_view ending) {
        const std::string base = what.name.substr(0, what.name.find('.'));
        return declared(what.in->names.at(base + std::string(ending)), entry);
    };
    if (const auto* line = std::get_if<ast::Line>(&what.statement->node))
        return in_unit(of(line->value, place), line->unit);
    if (const auto* cost = std::get_if<ast::Cost>(&what.statement->node)) {
        if (what.what == What::Rate)
            return in_unit(of(cost->rate, place), cost->unit);
        return what.what == What::Quantity ? of(cost->quantity, place)
                                           : multiply(sibling(""), sibling(".quantity"));
    }
    if (const auto* event = std::get_if<ast::Event>(&what.statement->node)) {
        if (what.what == What::Count)
            return multiply(of(event->rate, place), of(event->quantity, place));
        return what.what == What::EventMoney ? of(event->money, place)
                                             : multiply(sibling(""), sibling(".money"));
    }
    return given(what, std::get<ast::Given>(what.statement->node), entry, place);
}

// The last that is set is in force; of a copy, before its own formula, what its `use` says and what
// is set for the shared one.
Value Reader::given(const Declared& what, const ast::Given& given, const std::string& entry,
                    const Place& place) {
    const std::string every = what.in->prefix + what.name;
    const std::string own = entry.empty() ? every : what.in->prefix + entry + "." + what.name;
    const auto set_to = [&](const Formula& formula) {
        return of(formula.at, {formula.module, &program_.own(), "", "", nullptr, true});
    };
    Value made;
    const Setting* set = program_.last_setting(own, every);
    if (set == nullptr && what.in->shared != nullptr && what.in->with.count(what.name) == 0) {
        const std::string of_shared = what.in->shared->prefix + what.name;
        set = program_.last_setting(of_shared, of_shared);
    }
    if (set != nullptr)
        made = set_to(set->value);
    else if (const auto with = what.in->with.find(what.name); with != what.in->with.end())
        made = of(with->second.at, {with->second.module, what.in->user, "", "", nullptr, false});
    else if (!given.options.empty())
        made = option(std::string(given.options.front().text));
    else
        made = of(given.value, place);
    return given.unit && made.is_number() ? in_unit(made, *given.unit) : made;
}

Value Reader::line(std::string_view name) {
    std::string entry;
    for (const Instance& instance : program_.instances()) {
        if (!name.starts_with(instance.prefix))
            continue;
        entry.clear();
        const std::string_view rest = name.substr(instance.prefix.size());
        const auto there = instance.names.find(rest);
        const Declared* what = there != instance.names.end() ? &there->second : nullptr;
        if (what == nullptr && &instance == &program_.own())
            what = find(rest, instance, entry);
        if (what != nullptr &&
            !(what->each.size() > 0 && entry.empty() && program_.entries(what->each).front() != ""))
            return declared(*what, entry);
    }
    return total(name);
}

} // namespace acre::fuzz::second
