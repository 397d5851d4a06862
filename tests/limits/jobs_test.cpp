// What a job comes to: files, instances, blocks, lines, steps.
#include "engine/plan/compile_plan.h"
#include "tests/limits/limits.h"
#include "tests/support/compile_text.h"

namespace acre::tests {
namespace {

std::string head(const std::string& title = "m") {
    return "model \"" + title + "\"\n";
}
std::string compiled(const std::string& text, const Files& files = {}) {
    Choices choices;
    choices.files = files;
    return compile_text(text, choices).rendered();
}
std::string model_of(std::uint64_t times, const std::string& before,
                     const std::string& after = "\n") {
    std::string text = head();
    for (std::uint64_t i = 0; i < times; ++i)
        text.append(before).append(std::to_string(i)).append(after);
    return text;
}
std::string job_with(const std::string& statements, const std::string& model) {
    return compiled("job \"j\"\nmodel \"m\"\n" + statements, {{"m.rate", model}});
}

std::string used_deep(std::uint64_t n) {
    Files files;
    for (std::uint64_t i = 1; i <= n; ++i)
        files["f" + std::to_string(i) + ".rate"] =
            head() + "given g = 1\n" + (i < n ? "use \"f" + std::to_string(i + 1) + "\"\n" : "");
    return compiled(head() + "use \"f1\"\n", files);
}

std::string many_files(std::uint64_t n) {
    Files files;
    std::string text = head();
    for (std::uint64_t i = 1; i < n; ++i) {
        files["f" + std::to_string(i) + ".rate"] = head();
        text += "use \"f" + std::to_string(i) + "\"\n";
    }
    return compiled(text, files);
}

std::string many_bytes(std::uint64_t n) {
    const std::string text = head() + "use \"a\"\nuse \"b\"\nuse \"c\"\n";
    const auto filled = [](std::uint64_t size) {
        return head() + "#" + std::string(size - head().size() - 1, 'x');
    };
    const std::uint64_t third = (n - text.size()) / 3;
    return compiled(text, {{"a.rate", filled(third)},
                           {"b.rate", filled(third)},
                           {"c.rate", filled(n - text.size() - 2 * third)}});
}

std::string many_instances(std::uint64_t n) { // one of them the model itself
    std::string text = head();
    for (std::uint64_t i = 1; i < n; ++i)
        text += "use \"f\" as u" + std::to_string(i) + " with g = 1\n";
    return compiled(text, {{"f.rate", head() + "given g = 2\n"}});
}

// A thousand steps a line.
std::string many_steps(std::uint64_t n) {
    std::string text = head();
    const std::string line = " : 1 = min(" + repeated("1, ", 998) + "1)\n";
    for (std::uint64_t i = 0; i < n / 1'000; ++i)
        text += "a" + std::to_string(i) + line;
    for (std::uint64_t i = 0; i < n % 1'000; ++i)
        text += "b" + std::to_string(i) + " : 1 = 1\n";
    return compiled(text);
}

// Names and labels of lines in a thousand blocks, and of one line outside them.
std::string many_name_bytes(std::uint64_t n) {
    std::string blocks;
    for (int i = 1'000; i < 2'000; ++i)
        blocks += "block b" + std::to_string(i) + "\n";
    const std::uint64_t name = std::string("b1000.g10").size();
    std::string model = head() + "given x = 1 \"" + std::string(n % 1'000 - 1, 'x') +
                        "\"\nlist block\npart \"p\" each block\n";
    std::uint64_t left = n / 1'000;
    for (int i = 10; left > 0; ++i) {
        const std::uint64_t label = std::min<std::uint64_t>(left - name, 3'900);
        model += "  given g" + std::to_string(i) + " = 1 \"" + std::string(label, 'x') + "\"\n";
        left -= label + name;
    }
    return job_with(blocks, model);
}

// Functions written out over and over: more operations than the sheet has steps.
std::size_t operations(std::uint64_t calls, std::string& said) {
    std::string text = head() + "define f (x : 1) : 1 = " + repeated("sqrt(", 100) + "x" +
                       repeated(" + 1)", 100) + "\ngiven g = 2\n";
    for (std::uint64_t i = 0; i < calls; ++i)
        text += "a" + std::to_string(i) + " : 1 = f(g + " + std::to_string(i) + ")\n";
    Compilation c = compile_ok(text);
    const auto plan = engine::compile_plan(*c.sheet, c.diagnostics);
    said = c.rendered();
    return plan ? plan->plan.size() : 0;
}
std::string many_operations(std::uint64_t n) {
    std::string said;
    const std::size_t one = operations(10, said);
    const std::size_t each = (operations(20, said) - one) / 10;
    const std::uint64_t calls =
        10 + (n - one) / each; // as many as fit into n operations, and one more past the limit
    operations(n > engine::max_plan_operations ? calls + 1 : calls, said);
    return said;
}

} // namespace

std::vector<LimitCase> cases_of_jobs() {
    const std::string each = head() + "list block\npart \"p\" each block\n  given g = 1\n";
    return {
        {"max_use_depth", used_deep},
        {"max_files", many_files},
        {"max_program_bytes", many_bytes},
        {"max_uses",
         [](auto n) {
             return compiled(model_of(n, "use \"f\" as a"), {{"f.rate", head()}});
         }},
        {"max_instances", many_instances},
        {"max_lists", [](auto n) { return compiled(model_of(n, "list l", "\n")); }},
        {"max_entries",
         [=](auto n) { return job_with("block " + counted("b", "\nblock ", n) + "\n", each); }},
        {"max_job_options",
         [=](auto n) {
             return job_with("option \"" + counted("b", "\"\noption \"", n) + "\"\n",
                             head() + "given g = 1\n");
         }},
        {"max_parts", [](auto n) { return compiled(model_of(n, "part \"p", "\"\n")); }},
        {"max_conditions", [](auto n) { return compiled(model_of(n, "caution \"c", "\"\n")); }},
        {"max_correlations",
         [](auto n) {
             return compiled(head() + "given a = 1\ngiven b = 1\n" +
                             repeated("correlate a, b 1 %\n", n));
         }},
        {"max_sheet_lines", [](auto n) { return compiled(model_of(n, "given a", " = 1\n")); }},
        {"max_sheet_nodes", many_steps},
        {"max_sheet_name_bytes", many_name_bytes},
        {"max_plan_operations", many_operations},
    };
}

} // namespace acre::tests
