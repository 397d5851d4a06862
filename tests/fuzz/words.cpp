// One word of a command line, as a quantity, a range, a given and its places, a date, a unit, a
// value for --set, a name; and as a text to be shown.
#include <bit>
#include <cmath>

#include "cli/shared/axis_words.h"
#include "cli/shared/files/confined.h"
#include "cli/shared/safe_text.h"
#include "cli/shared/text/wrap.h"
#include "lang/diag/suggest.h"
#include "lang/units/calendar.h"
#include "lang/units/catalog.h"
#include "lang/units/number_text.h"
#include "lang/units/ratio.h"
#include "tests/fuzz/properties.h"
#include "tests/fuzz/small_files.h"
#include "tests/fuzz/target.h"
#include "tests/support/memory_loader.h"

namespace words_fuzz {

using namespace acre;

namespace {

const engine::PricedJob& small_job() {
    static const lang::Outcome<engine::Job> job = [] {
        tests::MemoryLoader files(fuzz::small_files());
        lang::Request request;
        request.name = "f.job";
        request.text = fuzz::small_job();
        return engine::make_job(request, files);
    }();
    HOLDS(job.value.has_value());
    return **job;
}

// A value, or errors that can be shown; never both, never neither.
template <class T> void hold_outcome(const lang::Outcome<T>& outcome) {
    HOLDS(outcome.value.has_value() == !outcome.said.diagnostics.has_errors());
    fuzz::hold_diagnostics(outcome.said.diagnostics, lang::SourceMap());
}

void hold_quantities(std::string_view word) {
    for (const char* unit : {"m", "m/s", "1", "%", "$/gal", "deg", "$/(ac.ft)"}) {
        const engine::QuantityReader quantities(unit);
        const lang::Outcome<double> value = quantities.read(word);
        hold_outcome(value);
        if (value && std::isfinite(*value)) {
            const std::string shown = lang::quantity_text(*value, unit);
            HOLDS_FOR(fuzz::is_safe(shown), shown);
        }
        const lang::Outcome<engine::Range> range = cli::read_range(word, quantities);
        hold_outcome(range);
        HOLDS(!range || range->low < range->high);
    }
}

void hold_axis(std::string_view word) {
    const std::string places = word.find('=') == std::string_view::npos
                                   ? "crawler.burn=" + std::string(word)
                                   : std::string(word);
    const lang::Outcome<cli::AxisWords> axis = cli::read_axis(places, small_job(), "");
    hold_outcome(axis);
    if (!axis)
        return;
    HOLDS(axis->at.size() == axis->shown.size() && !axis->at.empty());
    HOLDS(small_job().sheet().find(axis->given.name) != lang::none);
}

// A unit that can be read has a text, and reading that text gives the unit again, but where the
// text is a number of a usual unit.
void hold_unit(std::string_view word) {
    static const lang::UnitCatalog catalog;
    lang::UnitError error;
    const std::optional<lang::Unit> unit = lang::read_unit(word, catalog, error);
    if (!unit) {
        HOLDS(error.begin <= error.end && error.end <= word.size());
        return;
    }
    const std::string text = catalog.text(*unit);
    lang::UnitError none;
    const std::optional<lang::Unit> again = lang::read_unit(text, catalog, none);
    HOLDS_FOR(text.find(' ') != std::string::npos || (again && *again == *unit), text);
}

void hold_text(std::string_view word) {
    const std::string safe = lang::terminal_text(word);
    HOLDS(fuzz::is_safe(safe) && safe.find('\n') == std::string::npos);
    HOLDS(lang::terminal_text(safe) == safe);
    const std::string markup = cli::markup_text(word);
    HOLDS(markup.find_first_of("<>\"'") == std::string::npos);
    const std::string field = cli::csv_field(word);
    HOLDS(field.find('\n') == std::string::npos);
    if (field.starts_with('"')) {
        std::size_t quotes = 0;
        for (std::size_t i = 1; i + 1 < field.size(); ++i)
            quotes += field[i] == '"' ? 1U : 0U;
        HOLDS_FOR(field.size() >= 2 && field.ends_with('"') && quotes % 2 == 0, field);
    } else {
        HOLDS_FOR(field.find_first_of(",\"") == std::string::npos, field);
    }
    const std::string first = field.substr(field.starts_with('"') ? 1 : 0, 1);
    HOLDS_FOR(first.empty() || std::string_view("=@").find(first) == std::string_view::npos, field);
    HOLDS(!cli::is_confined(word) ||
          (word != ".." && !word.starts_with("../") && !word.ends_with("/..") &&
           !word.starts_with('/') && word.find("/../") == std::string_view::npos &&
           word.find('\\') == std::string_view::npos));
    HOLDS(fuzz::is_safe(cli::wrap(safe, 40)));
}

} // namespace

ACREWRIGHT_TARGET(words, text) {
    if (text.size() > 4096)
        return;
    hold_quantities(text);
    hold_axis(text);
    hold_unit(text);
    hold_text(text);
    if (const std::optional<long> day = lang::day_number(text))
        HOLDS_FOR(lang::date_text(*day) == text, lang::date_text(*day));
    if (text.size() >= sizeof(double)) {
        double number = 0;
        std::copy_n(text.data(), sizeof number, reinterpret_cast<char*>(&number));
        HOLDS(fuzz::is_safe(lang::number_text(number)));
        HOLDS(fuzz::is_safe(lang::quantity_text(number, "$/ac")));
        if (std::isfinite(number) && std::fabs(number) < 9e13)
            HOLDS(fuzz::is_safe(lang::money_text(number)));
    }
    std::vector<std::string_view> names;
    for (const lang::Line& line : small_job().sheet().lines)
        names.push_back(line.name);
    HOLDS(lang::near_names(text, names, 3).size() <= 3);
    fuzz::hold_syntax(text, lang::FileKind::CommandLine);
    lang::Request request;
    request.name = "f.job";
    request.text = fuzz::small_job();
    request.sets.emplace_back("load", std::string(text));
    request.sets.emplace_back(std::string(text), "1");
    tests::MemoryLoader files(fuzz::small_files());
    const lang::Outcome<engine::Job> job = engine::make_job(request, files);
    fuzz::hold_diagnostics(job.said.diagnostics, *job.said.sources);
}

} // namespace words_fuzz
