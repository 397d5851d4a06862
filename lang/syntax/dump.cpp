#include "lang/syntax/dump.h"

#include <fmt/format.h>

#include <array>
#include <variant>

#include "lang/units/calendar.h"
#include "lang/units/catalog.h"

namespace acre::lang {

namespace {

constexpr auto operators = std::to_array<std::string_view>({
#define ACRE_PREFIX(...)
#define ACRE_BINARY(op, sign, ...) sign,
#define ACRE_FUNCTION(...)
#include "lang/syntax/operations.def"
});
constexpr auto shapes =
    std::to_array<std::string_view>({"", " triangular", " pert", " even", " whole"});
constexpr auto steps = std::to_array<std::string_view>(
    {"overhead", "contingency", "reserve", "markup", "margin", "at least", "round up", "round to"});
constexpr auto knowns =
    std::to_array<std::string_view>({"", "read", "recalled", "common_practice", "ours"});
constexpr auto kinds = std::to_array<std::string_view>(
    {"model", "library", "season", "values", "job", "firm", "command"});

template <typename... F> struct Visitor : F... { using F::operator()...; };
template <typename... F> Visitor(F...) -> Visitor<F...>;

class Dumper {
  public:
    explicit Dumper(const ast::Module& module) : m_(module) {}

    std::string run() {
        out_ = fmt::format("{} \"{}\"\n", kinds[static_cast<std::size_t>(m_.kind)], m_.title.text);
        for (const ast::Statement& statement : m_.statements) {
            indent_ = statement.part == ast::none ? 0 : 2;
            out_.append(indent_, ' ');
            std::visit([this](const auto& node) { write(node); }, statement.node);
            out_ += '\n';
        }
        return std::move(out_);
    }

    std::string expr(ast::ExprId id) const {
        return std::visit(
            Visitor{
                [&](const ast::Number& n) {
                    return n.unit ? fmt::format("{}{}", n.value, unit(*n.unit))
                                  : fmt::format("{}", n.value);
                },
                [&](const ast::Name& n) { return std::string(n.text); },
                [&](const ast::Negate& n) { return fmt::format("(- {})", expr(n.of)); },
                [&](const ast::Not& n) { return fmt::format("(not {})", expr(n.of)); },
                [&](const ast::Binary& b) {
                    return fmt::format("({} {} {})", expr(b.left),
                                       operators[static_cast<std::size_t>(b.op)], expr(b.right));
                },
                [&](const ast::Is& i) {
                    return fmt::format("({} is{} {})", expr(i.value), i.negated ? " not" : "",
                                       i.choice.text);
                },
                [&](const ast::When& w) {
                    return fmt::format("(when {} then {} otherwise {})", expr(w.condition),
                                       expr(w.then), expr(w.otherwise));
                },
                [&](const ast::Call& c) {
                    std::string args;
                    for (std::uint32_t i = 0; i < c.arg_count; ++i)
                        args += (i == 0 ? "" : ", ") + expr(m_.args[c.first_arg + i]);
                    if (c.each != ast::none)
                        args += (args.empty() ? "" : ", ") + each(m_.eaches[c.each]);
                    return fmt::format("{}({})", c.function.text, args);
                },
            },
            m_.exprs[id].node);
    }

  private:
    std::string each(const ast::Each& e) const {
        std::string text = fmt::format("each {}", e.list.text);
        for (const ast::Row& row : e.rows) {
            text += &row == e.rows.data() ? " (" : ", (";
            for (std::uint32_t i = 0; i < row.arg_count; ++i)
                text += (i == 0 ? "" : ", ") + expr(m_.args[row.first_arg + i]);
            text += ')';
        }
        return text;
    }
    static std::string unit(const ast::UnitText& u) {
        return fmt::format("[{}{}]", u.sign, with_usual_spelling(u.text));
    }
    template <typename... Args> void put(fmt::format_string<Args...> format, Args&&... args) {
        out_ += fmt::format(format, std::forward<Args>(args)...);
    }
    template <typename... Args> void inner(fmt::format_string<Args...> format, Args&&... args) {
        out_ += '\n';
        out_.append(indent_ + 2, ' ');
        put(format, std::forward<Args>(args)...);
    }
    void clause(std::string_view word, const std::optional<ast::Text>& text) {
        if (text)
            put("{} \"{}\"", word, text->text);
    }
    void value(std::string_view word, ast::ExprId id) {
        if (id != ast::none)
            put(" {} {}", word, expr(id));
    }
    std::string range(const ast::Range& r) const {
        return fmt::format("{} .. {}", expr(r.low), expr(r.high));
    }
    static std::string parameters(const std::vector<ast::Parameter>& list) {
        std::string s;
        for (const ast::Parameter& p : list)
            s += fmt::format("{}{} : {}", s.empty() ? "" : ", ", p.name.text, unit(p.type));
        return s;
    }
    static std::string options(const std::vector<ast::Word>& list) {
        std::string s;
        for (const ast::Word& w : list)
            s += fmt::format("{}{}", s.empty() ? "" : " | ", w.text);
        return s;
    }
    void sign(bool may_be_negative) {
        if (may_be_negative)
            put(" may be negative");
    }
    void write_set(const ast::Set& s) {
        put("set {} = {}", s.name.text, expr(s.value));
        if (s.swing)
            write_swing("swing", s.shape, *s.swing, s.of_it);
        put("{}", s.within ? " within " + days(*s.within) : "");
        clause(" because", s.because);
    }
    static std::string days(const ast::Dates& d) {
        return date(d.first) + (d.last ? " .. " + date(*d.last) : "");
    }
    void write_swing(const char* word, ast::SwingShape shape, const ast::Range& bounds,
                     bool of_it) {
        put(" {}{} {}{}", word, shapes[static_cast<std::size_t>(shape)], range(bounds),
            of_it ? " of it" : "");
    }
    void write_line(const ast::Line& l) {
        put("{} : {} = {}", l.name.text, unit(l.unit), expr(l.value));
        clause("", l.label);
        clause(" because", l.because);
        sign(l.may_be_negative);
    }

    void write(const ast::Use& u) {
        put("use \"{}\"", u.path.text);
        if (u.alias)
            put(" as {}", u.alias->text);
        for (const ast::Binding& b : u.bindings)
            put(" with {} = {}", b.name.text, expr(b.value));
    }
    void write(const ast::Noun& n) { put("noun {}", n.name.text); }
    void write(const ast::UnitDefinition& u) {
        put("unit {} = {}{}", u.name.text, u.number, unit(u.unit));
    }
    void write(const ast::Choice& c) { put("choice {} = {}", c.name.text, options(c.options)); }
    void write(const ast::Part& p) {
        put("part \"{}\"", p.title.text);
        if (p.each)
            put(" each {}", p.each->text);
        if (p.of)
            put(" of {}", p.of->text);
    }
    void write(const ast::Given& g) {
        put("given {}", g.name.text);
        if (g.unit)
            put(" : {}", unit(*g.unit));
        if (!g.options.empty())
            put(" = {}", options(g.options));
        value("=", g.value);
        clause("", g.label);
        if (g.within)
            put(" within {}", range(*g.within));
        if (g.swing)
            write_swing(g.chosen ? "choose" : "swing", g.shape, *g.swing, g.of_it);
        clause(" because", g.because);
        sign(g.may_be_negative);
    }
    void write(const ast::Line& l) { write_line(l); }
    void write(const ast::Cost& c) {
        put("cost {} : {} = {} over {}", c.name.text, unit(c.unit), expr(c.rate), expr(c.quantity));
        clause("", c.label);
        clause(" because", c.because);
        sign(c.may_be_negative);
    }
    void write(const ast::Event& e) {
        put("event {} = {} over {} costs {}", e.name.text, expr(e.rate), expr(e.quantity),
            expr(e.money));
        clause("", e.label);
    }
    void write(const ast::Correlate& c) {
        put("correlate {}, {} {}", c.first.text, c.second.text, expr(c.strength));
    }
    void write(const ast::Require& r) {
        put("require {} \"{}\"", expr(r.condition), r.message.text);
        value("costs", r.costs);
    }
    void write(const ast::Caution& c) {
        put("caution");
        value("when", c.condition);
        put(" \"{}\"", c.message.text);
    }
    void write(const ast::Price& p) {
        put("price \"{}\"", p.title.text);
        if (p.lump)
            put(" lump");
        if (p.per)
            put(" per {}", unit(*p.per));
        value("of", p.quantity);
        for (const ast::Text& part : p.covers)
            put(" covers \"{}\"", part.text);
        for (const ast::Step& s : p.steps)
            inner("{} {}", steps[static_cast<std::size_t>(s.kind)], expr(s.value));
    }
    void write(const ast::Table& t) {
        put("table {} ({} : {}) :{} {}", t.name.text, t.parameter.name.text, unit(t.parameter.type),
            t.staircase ? " step" : "", unit(t.unit));
        clause("", t.label);
        clause(" because", t.because);
        put(" below {}", t.below == ast::TableEnd::Hold ? "hold" : "error");
        put(" above {}", t.above == ast::TableEnd::Hold ? "hold" : "error");
        for (const ast::TableRow& r : t.rows)
            inner("{}  {}", expr(r.x), expr(r.y));
    }
    void write(const ast::Define& d) {
        put("define {} ({})", d.name.text, parameters(d.parameters));
        if (d.each)
            put(" each {} ({})", d.each->text, parameters(d.columns));
        put(" : {}", unit(d.type));
        if (d.native)
            put(" native");
        value("=", d.value);
        clause("", d.label);
        for (const ast::Line& l : d.locals) {
            inner("");
            write_line(l);
        }
        for (const ast::Text& s : d.sources)
            inner("source \"{}\"", s.text);
        if (d.known != ast::Known::Unstated)
            inner("known {}", knowns[static_cast<std::size_t>(d.known)]);
        for (const ast::ParameterRange& r : d.tested) {
            inner("tested {} {}", r.name.text, range(r.range));
            clause("", r.reason);
        }
        for (const ast::ParameterRange& r : d.limits) {
            inner("limit {} {}", r.name.text, range(r.range));
            clause("", r.reason);
        }
        for (const ast::Example& e : d.examples) {
            inner("example {} = {}", expr(e.call), expr(e.expected));
            value("within", e.tolerance);
        }
        for (const ast::Text& n : d.notes)
            inner("note \"{}\"", n.text);
    }
    void write(const ast::Set& s) { write_set(s); }
    void write(const ast::Option& o) {
        put("option \"{}\"", o.title.text);
        for (const ast::Set& s : o.sets) {
            inner("");
            write_set(s);
        }
    }
    void write(const ast::List& l) {
        put("list {}", l.name.text);
        if (!l.entries.empty())
            put(" = {}", options(l.entries));
        clause("", l.label);
    }
    void write(const ast::Show& s) {
        put("show");
        for (const ast::Word& name : s.names)
            put("{} {}", &name == s.names.data() ? "" : ",", name.text);
    }
    void write(const ast::Count& c) {
        put("count");
        for (const ast::Counted& counted : c.lines) {
            put("{} {}", &counted == c.lines.data() ? "" : ",", counted.line.text);
            if (counted.of)
                put(" of {}{}", counted.many ? std::string(counted.many->text) + " " : "",
                    counted.of->text);
        }
    }
    void write(const ast::Fleet& f) { put("fleet costs {} over {}", expr(f.costs), expr(f.over)); }
    void write(const ast::Entry& e) {
        put("{} {}", e.list.text, e.name.text);
        clause("", e.label);
        for (const ast::Set& s : e.sets) {
            inner("");
            write_set(s);
        }
        if (e.field)
            inner("field \"{}\"", e.field->text);
        clause(" within", e.within);
        value("heading", e.heading);
    }
    void write(const ast::ModelReference& r) { put("model \"{}\"", r.path.text); }
    void write(const ast::SeasonReference& r) { put("season \"{}\"", r.path.text); }
    void write(const ast::FirmReference& r) { put("firm \"{}\"", r.path.text); }
    void write(const ast::Money& m) {
        put("money {}", m.code.text);
        if (!m.sign.empty())
            put(" \"{}\" to {}", m.sign, m.step);
    }
    void write(const ast::PageWord& w) { put(": {} = \"{}\"", w.name.text, w.text.text); }
    void write(const ast::ValuesReference& r) { put("with \"{}\"", r.path.text); }
    void write(const ast::Note& n) { put("note \"{}\"", n.text.text); }
    void write(const ast::For& f) { put("for \"{}\"", f.who.text); }
    static std::string date(const ast::Date& d) {
        return fmt::format("{:04}-{:02}-{:02}", d.year, d.month, d.day);
    }
    void write(const ast::Dates& d) { put("date {}", days(d)); }
    void write(const ast::Closed& c) {
        if (c.weekday)
            put("closed {}", weekday_name(*c.weekday));
        else
            put("closed {} .. {}", date(c.first), date(c.last));
        if (c.label)
            put(" \"{}\"", c.label->text);
    }
    void write(const ast::Field& f) {
        put("field \"{}\"", f.path.text);
        clause(" within", f.within);
        value("heading", f.heading);
    }

    const ast::Module& m_;
    std::string out_;
    std::size_t indent_ = 0;
};

} // namespace

std::string dump(const ast::Module& module) {
    return Dumper(module).run();
}
std::string dump(const ast::Module& module, ast::ExprId expr) {
    return Dumper(module).expr(expr);
}

} // namespace acre::lang
