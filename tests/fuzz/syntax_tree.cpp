// Bytes throw the dice of tests/property/random_program.h: whole models in odd spacing, and a
// formula whose tree is known.
#include "lang/syntax/dump.h"
#include "lang/syntax/parse.h"
#include "tests/fuzz/properties.h"
#include "tests/fuzz/target.h"
#include "tests/property/random_program.h"

namespace syntax_tree_fuzz {

ACREWRIGHT_TARGET(syntax_tree, bytes) {
    using namespace acre;
    tests::RandomProgram program{tests::Dice(bytes)};
    const tests::RandomFormula formula = program.formula(7);
    const std::string text = "model \"m\"\nx : 1 = " + formula.text + "\n";
    fuzz::show(text);
    lang::SourceMap sources;
    lang::Diagnostics diagnostics;
    const lang::ast::Module module =
        lang::parse(sources, sources.add("f", text), lang::FileKind::Model, diagnostics);
    HOLDS_FOR(!diagnostics.has_errors(), text);
    const std::string dump = lang::dump(module);
    HOLDS_FOR(dump.substr(dump.find('\n') + 1) == "x : [1] = " + formula.tree + "\n",
              text + dump + formula.tree);
    HOLDS(fuzz::hold_syntax(text, lang::FileKind::Model));
    const std::string model = program.model();
    fuzz::show(model);
    HOLDS_FOR(fuzz::hold_syntax(model, lang::FileKind::Model), model);
}

} // namespace syntax_tree_fuzz
