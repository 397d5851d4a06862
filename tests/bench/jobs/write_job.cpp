// Writes a job out as straight C++: what depends on the givens that swing, once for every lane, all
// else as numbers. It checks nothing, and the compiler may do with it what it likes: the anchor
// that the lane reader is measured by.
#include <algorithm>
#include <string>

#include <fmt/format.h>

#include "engine/native/native.h"
#include "tests/bench/jobs/job.h"

namespace {

using namespace acre;
using engine::OpCode;
using engine::lanes::Node;
using engine::lanes::Value;

class Writer {
  public:
    explicit Writer(const bench::ShippedJob& job)
        : plan_(job.job->plan()),
          graph_(job.graph(job.inputs)),
          searches_(bench::searches(graph_, search_of_)) {
        for (const Node& node : graph_.nodes)
            level_.push_back(level_of(node));
        search_level_.resize(searches_.size());
        for (std::size_t s = 0; s < searches_.size(); ++s)
            for (const Value v : searches_[s].args)
                search_level_[s] = std::max(search_level_[s], level(v));
    }

    void write() const {
        fmt::print("#include <cmath>\n#include <cstddef>\nusing Native = void (*)(const void*, "
                   "std::size_t, const double* const*, std::size_t, double* const*);\n"
                   "extern \"C\" void job(std::size_t lanes, const double* const* in, "
                   "double* const* out, Native native, const void* searches) {{\n");
        for (std::size_t s = 0; s < searches_.size(); ++s)
            fmt::print("    alignas(64) double r{}[{}][{}];\n", s, engine::native_results,
                       bench::most_compiled_lanes);
        for (std::size_t i = 0; i < graph_.nodes.size(); ++i)
            if (is_kept(i))
                fmt::print("    alignas(64) double t{}[{}];\n", i, bench::most_compiled_lanes);
        const std::size_t last = *std::max_element(level_.begin(), level_.end());
        for (std::size_t at = 0; at <= last; ++at) {
            write_loop(at);
            for (std::size_t s = 0; s < searches_.size(); ++s)
                if (search_level_[s] == at)
                    write_search(s);
        }
        fmt::print("}}\n");
    }

  private:
    std::size_t level(Value v) const { return v.invariant ? 0 : level_[v.index]; }
    std::size_t level_of(const Node& node) const {
        std::size_t most = 0;
        if (node.code == OpCode::Native) {
            for (const Value v : graph_.calls[node.extra])
                most = std::max(most, level(v));
            return most + 1;
        }
        for (std::uint32_t k = 0; k < node.in_count; ++k)
            most = std::max(most, level(node.in[k]));
        return most;
    }
    // Read by a search, or in a later loop.
    bool is_kept(std::size_t node) const {
        const auto is = [&](Value v) { return !v.invariant && v.index == node; };
        for (const bench::Search& search : searches_)
            if (std::any_of(search.args.begin(), search.args.end(), is))
                return true;
        for (std::size_t i = node + 1; i < graph_.nodes.size(); ++i)
            for (std::uint32_t k = 0; k < graph_.nodes[i].in_count; ++k)
                if (is(graph_.nodes[i].in[k]) && level_[i] != level_[node])
                    return true;
        return false;
    }
    std::string text(Value v, std::size_t at) const {
        if (v.invariant)
            return fmt::format("({:.17g})", graph_.invariants[v.index]);
        return level_[v.index] == at ? fmt::format("v{}", v.index) : fmt::format("t{}[i]", v.index);
    }

    void write_loop(std::size_t at) const {
        fmt::print("    for (std::size_t i = 0; i < lanes; ++i) {{\n");
        for (std::size_t i = 0; i < graph_.nodes.size(); ++i)
            if (level_[i] == at) {
                fmt::print("        const double v{} = {};\n", i, formula(graph_.nodes[i], at));
                if (is_kept(i))
                    fmt::print("        t{}[i] = v{};\n", i, i);
            }
        for (std::size_t k = 0; k < graph_.wanted.size(); ++k)
            if (const Value v = graph_.wanted[k]; level(v) == at)
                fmt::print("        out[{}][i] = {};\n", k, text(v, at));
        fmt::print("    }}\n");
    }

    void write_search(std::size_t s) const {
        fmt::print("    {{\n        const double* args[] = {{");
        for (const Value v : searches_[s].args)
            fmt::print("{}, ", v.invariant ? "nullptr"
                               : graph_.nodes[v.index].code == OpCode::Input
                                   ? fmt::format("in[{}]", graph_.nodes[v.index].extra)
                                   : fmt::format("t{}", v.index));
        fmt::print("}};\n        double* results[] = {{r{0}[0], r{0}[1], r{0}[2], r{0}[3]}};\n"
                   "        native(searches, {0}, args, lanes, results);\n    }}\n",
                   s);
    }

    std::string table(const engine::PlanTable& t, const std::string& x) const {
        std::string y = fmt::format("{:.17g}", t.y[0]);
        for (std::size_t k = 0; k + 1 < t.x.size(); ++k)
            y = t.staircase
                    ? fmt::format("({} < {:.17g} ? {} : {:.17g})", x, t.x[k + 1], y, t.y[k + 1])
                    : fmt::format("({0} < {1:.17g} ? {2} : {3:.17g} + ({0} - {1:.17g}) * "
                                  "{4:.17g})",
                                  x, t.x[k], y, t.y[k],
                                  (t.y[k + 1] - t.y[k]) / (t.x[k + 1] - t.x[k]));
        return t.staircase
                   ? y
                   : fmt::format("({} < {:.17g} ? {} : {:.17g})", x, t.x.back(), y, t.y.back());
    }

    std::string formula(const Node& n, std::size_t at) const {
        std::string a = n.in_count > 0 ? text(n.in[0], at) : "",
                    b = n.in_count > 1 ? text(n.in[1], at) : "",
                    c = n.in_count > 2 ? text(n.in[2], at) : "";
        const auto two = [&](const char* sign) { return fmt::format("{} {} {}", a, sign, b); };
        const auto call = [&](const char* name) { return fmt::format("std::{}({})", name, a); };
        const auto truth = [&](const char* sign) {
            return fmt::format("{} {} {} ? 1.0 : 0.0", a, sign, b);
        };
        constexpr const char* degree = "0.017453292519943295";
        switch (n.code) {
        case OpCode::Constant:
            return "0";
        case OpCode::Input:
            return fmt::format("in[{}][i]", n.extra);
        case OpCode::Add:
            return two("+");
        case OpCode::Subtract:
            return two("-");
        case OpCode::Multiply:
            return two("*");
        case OpCode::Divide:
            return two("/");
        case OpCode::Negate:
            return "-" + a;
        case OpCode::Power:
            return fmt::format("std::pow({}, {})", a, b);
        case OpCode::Sqrt:
            return call("sqrt");
        case OpCode::Exp:
            return call("exp");
        case OpCode::Log:
            return call("log");
        case OpCode::Sin:
            return fmt::format("std::sin({} * {})", a, degree);
        case OpCode::Cos:
            return fmt::format("std::cos({} * {})", a, degree);
        case OpCode::Tan:
            return fmt::format("std::tan({} * {})", a, degree);
        case OpCode::Atan:
            return fmt::format("std::atan({}) / {}", a, degree);
        case OpCode::Abs:
            return call("fabs");
        case OpCode::Min:
            return fmt::format("{1} < {0} ? {1} : {0}", a, b);
        case OpCode::Max:
            return fmt::format("{0} < {1} ? {1} : {0}", a, b);
        case OpCode::Ceil:
            return call("ceil");
        case OpCode::Floor:
            return call("floor");
        case OpCode::Round:
            return fmt::format("std::floor({} + 0.5)", a);
        case OpCode::Less:
            return truth("<");
        case OpCode::LessEqual:
            return truth("<=");
        case OpCode::Greater:
            return truth(">");
        case OpCode::GreaterEqual:
            return truth(">=");
        case OpCode::Equal:
            return truth("==");
        case OpCode::NotEqual:
            return truth("!=");
        case OpCode::And:
            return two("*");
        case OpCode::Or:
            return fmt::format("{} + {} > 0 ? 1.0 : 0.0", a, b);
        case OpCode::Not:
            return "1 - " + a;
        case OpCode::Select:
            return fmt::format("{} != 0 ? {} : {}", a, b, c);
        case OpCode::Guard:
            return b;
        case OpCode::Table:
            return table(plan_.tables[n.extra], a);
        case OpCode::Native:
            break;
        }
        return fmt::format("r{}[{}][i]", search_of_[n.extra],
                           engine::native_functions()[graph_.functions[n.extra]].result);
    }

    const engine::Plan& plan_;
    engine::lanes::Graph graph_;
    std::vector<std::size_t> search_of_; // by call
    std::vector<bench::Search> searches_;
    std::vector<std::size_t> level_,
        search_level_; // the loop that makes it; after which it is done
};

} // namespace

int main(int count, char** words) {
    if (count != 2)
        return 2;
    Writer(bench::open_job(words[1])).write();
}
