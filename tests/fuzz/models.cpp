// Bytes throw the dice of tests/property/random_model.h: models in which every formula is well
// typed, so that nothing stops at the parser. All readers of them must say the same: the naive one,
// value, block, adjoint; before and after tidy.
#include <bit>
#include <cmath>
#include <optional>

#include "engine/questions/what_if/break_even.h"
#include "engine/questions/what_if/grid.h"
#include "engine/questions/what_if/sensitivity.h"
#include "lang/syntax/tidy.h"
#include "tests/fuzz/properties.h"
#include "tests/fuzz/readers.h"
#include "tests/fuzz/target.h"
#include "tests/property/random_model.h"
#include "tests/support/memory_loader.h"

namespace models_fuzz {

using namespace acre;

namespace {

std::string tidied(const std::string& text, lang::FileKind kind) {
    lang::SourceMap sources;
    lang::Diagnostics diagnostics;
    const auto tidy = lang::tidy(sources, sources.add("f", text), kind, diagnostics);
    HOLDS_FOR(tidy.has_value(), text);
    return *tidy;
}

// What one input is looked at for: in the fuzzer one of these.
enum class Look : std::uint8_t { Texts, Second, Pages, Record, Readers, Questions };
bool looks_for(Look look, std::string_view bytes) {
    return fuzz::looks_at(static_cast<std::size_t>(look), 6, bytes);
}

lang::Outcome<engine::Job> made(const std::string& model, const std::string& job,
                                std::optional<fuzz::Looks> looks) {
    tests::MemoryLoader loader({{"m.rate", model}});
    lang::Request request;
    request.name = "f.job";
    request.text = job;
    return looks ? fuzz::hold_job(request, loader, *looks) : engine::make_job(request, loader);
}

// What may be asked of any job: nothing of it may fail but by saying so.
void ask(const engine::PricedJob& job, std::string_view line) {
    const std::string name(line);
    const auto moved = engine::ask(job, engine::SensitivityQuestion{name});
    if (moved)
        HOLDS(std::isfinite(moved->value));
    else
        HOLDS(moved.said.diagnostics.has_errors());
    const auto now = job.value(job.sheet().find(line));
    const engine::BreakEvenQuestion question{"g3", name, std::isfinite(now) ? now * 1.1 + 1 : 1,
                                             engine::Range{0.5, 45}};
    const auto found = engine::ask(job, question);
    if (found) {
        for (const engine::Crossing& crossing : found->crossings)
            HOLDS(found->range.contains(crossing.x) &&
                  crossing.x <= crossing.x_after +
                                    (crossing.kind == engine::CrossingKind::Root ? HUGE_VAL : 0));
    } else {
        HOLDS(found.said.diagnostics.has_errors());
    }
    const auto places = engine::places(engine::Range{1, 9}, std::size_t{5});
    engine::GridQuestion grid;
    grid.along = {{"g3", *places}, {"g6", *places}};
    grid.lines = {name};
    const auto made = engine::ask(job, grid);
    if (made)
        HOLDS(made->cells == 25 && made->columns.size() == 1 &&
              made->columns[0].value.size() == 25);
    else
        HOLDS(made.said.diagnostics.has_errors());
}

void hold_texts(const std::string& model, const std::string& job, const engine::PricedJob& one) {
    HOLDS_FOR(fuzz::hold_syntax(model, lang::FileKind::Model), model);
    HOLDS_FOR(fuzz::hold_syntax(job, lang::FileKind::Job), job);
    const lang::Outcome<engine::Job> again =
        made(tidied(model, lang::FileKind::Model), tidied(job, lang::FileKind::Job), std::nullopt);
    HOLDS(again && (*again)->plan().operations == one.plan().operations);
    for (std::size_t slot = 0; slot < one.values().slot.size(); ++slot)
        HOLDS(std::bit_cast<std::uint64_t>((*again)->values().slot[slot]) ==
              std::bit_cast<std::uint64_t>(one.values().slot[slot]));
}

} // namespace

ACREWRIGHT_TARGET(models, bytes) {
    tests::Dice dice(bytes);
    const int lines = 1 + static_cast<int>(dice.below(8));
    tests::RandomModel maker{tests::Dice(bytes.substr(std::min<std::size_t>(bytes.size(), 1)))};
    const std::string model = maker.priced_text(lines);
    const std::string job = maker.job("m");
    fuzz::show(model + job);
    const fuzz::Looks looks{looks_for(Look::Second, bytes), looks_for(Look::Pages, bytes),
                            looks_for(Look::Record, bytes)};
    const lang::Outcome<engine::Job> first = made(model, job, looks);
    HOLDS_FOR(first.value.has_value(), model + job); // well typed
    const engine::PricedJob& one = **first;
    if (looks_for(Look::Texts, bytes))
        hold_texts(model, job, one);
    if (looks_for(Look::Readers, bytes)) {
        tests::Dice lanes(bytes.substr(bytes.size() - std::min<std::size_t>(bytes.size(), 32)));
        fuzz::hold_lanes(one.plan(), lanes);
        std::vector<engine::Slot> targets;
        for (const lang::LineId line :
             {one.sheet().price_total, one.sheet().find("l0"), one.sheet().find("c0.amount")})
            if (line != lang::none && one.plan().line_slot[line] != engine::no_slot)
                targets.push_back(one.plan().line_slot[line]);
        fuzz::hold_slopes(one.plan(), targets);
    }
    if (looks_for(Look::Questions, bytes)) {
        ask(one, "price.total");
        ask(one, "l0");
    }
}

} // namespace models_fuzz
