// The sheet of givens of a workbook, as somebody saved it as CSV: what it gives back are lines that
// a job takes, and a job that took them has nothing left to change.
#include <algorithm>

#include "engine/workbook/changed_givens.h"
#include "tests/fuzz/properties.h"
#include "tests/fuzz/small_files.h"
#include "tests/fuzz/target.h"
#include "tests/support/memory_loader.h"

namespace saved_givens_fuzz {

namespace {

using namespace acre;

lang::Outcome<engine::Job> job_with(std::vector<std::pair<std::string, std::string>> sets) {
    lang::Request request;
    request.name = "f.job";
    request.text = fuzz::small_job();
    request.kind = lang::FileKind::Job;
    request.sets = std::move(sets);
    tests::MemoryLoader loader(fuzz::small_files());
    return engine::make_job(request, loader);
}

bool can_be_quoted(const std::string& text) {
    return std::none_of(
        text.begin(), text.end(),
        [](char c) { return c == '"' || static_cast<unsigned char>(c) < 0x20 || c == 0x7F; });
}

} // namespace

ACREWRIGHT_TARGET(saved_givens, text) {
    static const lang::Outcome<engine::Job> job = job_with({});
    HOLDS(job.value.has_value());
    const auto changes = engine::changed_givens(**job, {}, "f.csv", std::string(text));
    if (changes.said.sources)
        fuzz::hold_diagnostics(changes.said.diagnostics, *changes.said.sources);
    HOLDS(changes.value.has_value() == !changes.said.diagnostics.has_errors());
    if (!changes)
        return;
    std::vector<std::pair<std::string, std::string>> sets;
    for (const engine::ChangedGiven& change : *changes) {
        const lang::LineId line = (*job)->sheet().find(change.name);
        HOLDS(line != lang::none && (*job)->sheet().lines[line].given != lang::none);
        HOLDS(!change.value.empty() && change.option.empty());
        HOLDS_FOR(can_be_quoted(change.because), change.because);
        sets.emplace_back(change.name, change.value);
    }
    const std::string lines = "job \"f\"\nmodel \"rip\"\n" + engine::set_lines(*changes);
    fuzz::show(lines);
    HOLDS_FOR(fuzz::hold_syntax(lines, lang::FileKind::Job), lines);
    const lang::Outcome<engine::Job> again = job_with(sets);
    if (!again) // a figure beyond what the notation counts
        return;
    const auto left = engine::changed_givens(**again, {}, "f.csv", std::string(text));
    HOLDS_FOR(left && left->empty(), lines);
}

} // namespace saved_givens_fuzz
