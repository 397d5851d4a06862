#include "cli/shared/axis_words.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "cli/shared/quantity.h"
#include "engine/questions/what_if/grid.h"
#include "lang/diag/safe_text.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

std::string_view trimmed(std::string_view text) {
    while (!text.empty() && text.front() == ' ')
        text.remove_prefix(1);
    while (!text.empty() && text.back() == ' ')
        text.remove_suffix(1);
    return text;
}

// A comma that groups digits ("1,320 ft") does not part places.
std::vector<std::string_view> parts(std::string_view text) {
    std::vector<std::string_view> result;
    std::size_t begin = 0;
    const auto digit = [&](std::size_t i) {
        return i < text.size() && text[i] >= '0' && text[i] <= '9';
    };
    for (std::size_t i = 0; i <= text.size(); ++i) {
        const bool groups = i < text.size() && i > 0 && digit(i - 1) && digit(i + 1) &&
                            digit(i + 2) && digit(i + 3) && !digit(i + 4);
        if (i == text.size() || (text[i] == ',' && !groups)) {
            result.push_back(trimmed(text.substr(begin, i - begin)));
            begin = i + 1;
        }
    }
    return result;
}

bool read_options(std::string_view text, const std::vector<std::string>& options, AxisWords& axis,
                  std::string& reason) {
    for (const std::string_view part : parts(text)) {
        const auto it = std::find(options.begin(), options.end(), part);
        if (it == options.end()) {
            reason = "`" + axis.given + "` has no choice `" + lang::terminal_text(part) + "`";
            return false;
        }
        axis.at.push_back(static_cast<double>(it - options.begin()));
        axis.shown.push_back(*it);
    }
    return true;
}

bool read_numbers(std::string_view text, const std::string& unit, AxisWords& axis,
                  std::string& reason) {
    const std::size_t dots = text.find("..");
    if (dots != std::string_view::npos) {
        const std::size_t by = text.find(" by ", dots);
        if (by == std::string_view::npos) {
            reason = "a range needs its step, as in \"4 ft..7 ft by 1 ft\"";
            return false;
        }
        const auto low = read_quantity(trimmed(text.substr(0, dots)), unit, reason);
        const auto high =
            low ? read_quantity(trimmed(text.substr(dots + 2, by - dots - 2)), unit, reason)
                : std::nullopt;
        const auto step =
            high ? read_quantity(trimmed(text.substr(by + 4)), unit, reason) : std::nullopt;
        if (!step)
            return false;
        engine::Refusal refusal;
        const auto places = engine::places(engine::Range{*low, *high}, *step, refusal);
        if (!places) {
            reason = refusal.what;
            return false;
        }
        axis.at = *places;
    } else {
        for (const std::string_view part : parts(text)) {
            const auto value = read_quantity(part, unit, reason);
            if (!value)
                return false;
            axis.at.push_back(*value);
        }
    }
    for (const double value : axis.at)
        axis.shown.push_back(lang::quantity_text(value, unit));
    return true;
}

} // namespace

std::optional<engine::Range> read_range(std::string_view text, std::string_view unit,
                                        std::string& reason) {
    const std::string_view in = unit.empty() ? "1" : unit;
    const std::size_t dots = text.find("..");
    if (dots == std::string_view::npos) {
        reason = "`" + lang::terminal_text(text) + "` is not a range, as in \"300 ft..2,600 ft\"";
        return std::nullopt;
    }
    const auto low = read_quantity(trimmed(text.substr(0, dots)), in, reason);
    const auto high =
        low ? read_quantity(trimmed(text.substr(dots + 2)), in, reason) : std::nullopt;
    if (!high)
        return std::nullopt;
    if (!(*low < *high)) {
        reason = "the range `" + lang::terminal_text(trimmed(text)) + "` is empty";
        return std::nullopt;
    }
    return engine::Range{*low, *high};
}

bool read_axis(std::string_view text, const lang::Sheet& sheet, AxisWords& axis,
               std::string& reason) {
    const std::size_t equals = text.find('=');
    axis.given = std::string(trimmed(text.substr(0, equals)));
    if (equals == std::string_view::npos || axis.given.empty()) {
        reason = "`" + lang::terminal_text(text) +
                 "` is not GIVEN=PLACES, as in \"depth=4 ft,5 ft,6 ft\"";
        return false;
    }
    const lang::LineId id = sheet.find(axis.given);
    if (id == lang::none || sheet.lines[id].given == lang::none) {
        reason = "the job has no given named `" + lang::terminal_text(axis.given) + "`";
        return false;
    }
    const lang::Line& line = sheet.lines[id];
    const std::string_view places = text.substr(equals + 1);
    return line.type.kind == lang::Type::Kind::Choice
               ? read_options(places, sheet.choices[line.type.choice].options, axis, reason)
               : read_numbers(places, line.unit_text.empty() ? "1" : line.unit_text, axis, reason);
}

} // namespace acre::cli
