// Every formula of the library computes its own worked figures, and says where it comes from and
// how sure we are.
#include <doctest/doctest.h>

#include <algorithm>
#include <fstream>
#include <set>
#include <string>

#include "engine/native/native.h"
#include "lang/syntax/tidy.h"
#include "tests/published/formulas.h"

namespace library_test {

using namespace acre;
using namespace acre::tests;

namespace {

Compilation library() {
    return compile_ok(library_user());
}

std::string text_of(const Compilation& c, lang::NodeId node) {
    return std::string(c.sources->text((*c.sheet)->nodes[node].span));
}

bool is_numeric(const lang::Function& f) {
    return f.type.kind == lang::Type::Kind::Number;
}

} // namespace

TEST_CASE("every file of the library compiles by itself") {
    for (const models::LibraryText& l : models::library_texts()) {
        CAPTURE(l.reference);
        lang::SourceMap sources;
        lang::Diagnostics diagnostics;
        MemoryLoader loader({});
        lang::Request request;
        request.name = std::string(l.reference) + ".rate";
        request.text = std::string(l.text);
        request.kind = lang::FileKind::Model;
        const auto sheet = lang::compile(request, loader, sources, diagnostics);
        CHECK_MESSAGE(sheet.has_value(), lang::render(diagnostics, sources));
        CHECK_MESSAGE(diagnostics.all().empty(), lang::render(diagnostics, sources));
        const lang::FileId file = sources.add("again.rate", std::string(l.text));
        CHECK(lang::tidy(sources, file, lang::FileKind::Model, diagnostics) ==
              std::string(l.text)); // in canonical layout
    }
}

TEST_CASE("every formula gives the figures of its own examples") {
    const Compilation c = library();
    std::vector<Formula> conditions;
    std::vector<std::string> names;
    for (const lang::Function& f : (*c.sheet)->functions) {
        for (const lang::FunctionExample& e : f.examples) {
            const std::string call = text_of(c, e.call), expected = text_of(c, e.expected);
            std::string condition = "(" + call + ") is " + expected;
            if (is_numeric(f)) {
                const std::string allowed = e.tolerance == lang::none
                                                ? "1e-12 * abs(" + expected + ")"
                                                : text_of(c, e.tolerance) + " * (1 + 1e-9)";
                condition = "abs(" + call + " - (" + expected + ")) <= " + allowed;
            }
            conditions.push_back({"when " + condition + " then 1 otherwise 0", "1"});
            names.push_back(call + " = " + expected);
        }
    }
    CHECK(conditions.size() > 200);
    const std::vector<double> met = values_of(conditions);
    for (std::size_t i = 0; i < met.size(); ++i)
        CHECK_MESSAGE(met[i] == 1, names[i]);
}

TEST_CASE("every formula names its source, how sure we are, and a worked figure") {
    const Compilation c = library();
    for (const lang::Function& f : (*c.sheet)->functions) {
        CAPTURE(f.name);
        CHECK(!f.label.empty());
        CHECK(!f.sources.empty());
        CHECK(f.known != lang::ast::Known::Unstated);
        CHECK((!f.examples.empty() || f.rows > 1)); // a copy for more rows has none of its own
        if (f.known == lang::ast::Known::CommonPractice) {
            const auto says = [&](const std::string& t) {
                return t.find("common practice") != std::string::npos ||
                       t.find("trade usage") != std::string::npos ||
                       t.find("margin and markup") != std::string::npos;
            };
            CHECK((std::any_of(f.notes.begin(), f.notes.end(), says) ||
                   std::any_of(f.sources.begin(), f.sources.end(), says)));
        }
        if (f.native)
            CHECK(engine::find_native(
                      f.name,
                      static_cast<std::uint32_t>(f.parameters.size() - f.columns.size() * f.rows),
                      static_cast<std::uint32_t>(f.columns.size()))
                      .has_value());
    }
}

TEST_CASE("the table of the library's README has every formula, with how sure we are") {
    std::ifstream in(std::string(ACREWRIGHT_ROOT) + "/models/library/README.md");
    REQUIRE(in.good());
    std::set<std::string> rows; // "name status"
    for (std::string line; std::getline(in, line);) {
        if (line.compare(0, 3, "| `") != 0)
            continue;
        const auto name_end = line.find('`', 3),
                   status = line.find(" | ", line.find(" | ", name_end) + 3) + 3;
        rows.insert(line.substr(3, name_end - 3) + " " +
                    line.substr(status, line.find(" | ", status) - status));
    }
    const Compilation c = library();
    for (const lang::Function& f : (*c.sheet)->functions) {
        CAPTURE(f.name);
        const auto stands = [&](const char* status) {
            return rows.count(f.name + " " + status) != 0;
        };
        switch (f.known) {
        case lang::ast::Known::Read:
            CHECK((stands("verified") || stands("seen")));
            break;
        case lang::ast::Known::Recalled:
            CHECK(stands("recalled"));
            break;
        case lang::ast::Known::CommonPractice:
            CHECK(stands("practice"));
            break;
        case lang::ast::Known::Ours:
            CHECK(stands("ours"));
            break;
        case lang::ast::Known::Unstated:
            CHECK(false);
            break;
        }
    }
}

TEST_CASE("every native function is declared by the library with its arguments") {
    const Compilation c = library();
    for (const engine::NativeFunction& n : engine::native_functions()) {
        CAPTURE(n.name);
        if (n.columns == 0)
            continue; // of texts of earlier versions
        const auto& all = (*c.sheet)->functions;
        const auto f = std::find_if(all.begin(), all.end(),
                                    [&](const lang::Function& x) { return x.name == n.name; });
        REQUIRE(f != all.end());
        CHECK(f->native);
        CHECK(f->columns.size() == n.columns);
        CHECK(f->parameters.size() == n.arity(f->rows));
    }
}

} // namespace library_test
