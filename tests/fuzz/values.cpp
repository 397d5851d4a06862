// Bytes throw the dice of tests/property/random_measures.h: jobs in which every unit is met, and
// values that a season has for some days. Every value and every price is held against a reader of
// the texts that has nothing of the program below the syntax tree, and a table of units of its own
// (second/).
#include "engine/driver.h"
#include "lang/diag/render.h"
#include "tests/fuzz/second/hold.h"
#include "tests/fuzz/target.h"
#include "tests/property/random_measures.h"
#include "tests/support/memory_loader.h"

namespace values_fuzz {

ACREWRIGHT_TARGET(values, bytes) {
    using namespace acre;
    tests::RandomMeasures maker{tests::Dice(bytes)};
    const std::string model = maker.model();
    const std::string season = maker.season();
    lang::Request request;
    request.name = "f.job";
    request.text = maker.job();
    fuzz::show(model + season + request.text);
    tests::MemoryLoader loader({{"m.rate", model}, {"s.season", season}});
    const lang::Outcome<engine::Job> made = engine::make_job(request, loader);
    if (!made) { // well typed, but a unit may be more than one can hold
        for (const lang::Diagnostic& said : made.said.diagnostics.all())
            HOLDS_FOR(said.code == lang::Code::U312 || said.severity() != lang::Severity::Error,
                      lang::render(made.said.diagnostics, *made.said.sources));
        return;
    }
    const fuzz::second::Held held = fuzz::second::hold(**made, request, loader);
    fuzz::show(std::to_string(held.lines) + " lines, " + std::to_string(held.unknown) +
               " not known, " + std::to_string(held.prices) + " prices");
}

} // namespace values_fuzz
