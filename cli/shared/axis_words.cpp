#include "cli/shared/axis_words.h"

#include <algorithm>
#include <utility>

#include "engine/questions/what_if/grid.h"
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

lang::Diagnostic unread(std::string_view where, std::string why) {
    return lang::placeless(lang::Code::C003, std::string(where) + std::move(why));
}

lang::Outcome<std::vector<double>> read_options(std::string_view text, const engine::Subject& given,
                                                std::string_view where) {
    std::vector<double> at;
    for (const std::string_view part : parts(text)) {
        const auto it = std::find(given.options.begin(), given.options.end(), part);
        if (it == given.options.end())
            return unread(where, "`" + given.name + "` has no choice `" + std::string(part) + "`");
        at.push_back(static_cast<double>(it - given.options.begin()));
    }
    return at;
}

// "4 ft..7 ft by 1 ft".
lang::Outcome<std::vector<double>> read_steps(std::string_view text, std::size_t dots,
                                              const engine::QuantityReader& quantities) {
    const std::size_t by = text.find(" by ", dots);
    if (by == std::string_view::npos)
        return unread(quantities.where(), "a range needs a step, as in \"4 ft..7 ft by 1 ft\"");
    lang::Outcome<double> low = quantities.read(trimmed(text.substr(0, dots)));
    if (!low)
        return std::move(low.said);
    lang::Outcome<double> high = quantities.read(trimmed(text.substr(dots + 2, by - dots - 2)));
    if (!high)
        return std::move(high.said);
    lang::Outcome<double> step = quantities.read(trimmed(text.substr(by + 4)));
    if (!step)
        return std::move(step.said);
    return engine::places(engine::Range{*low, *high}, *step);
}

lang::Outcome<std::vector<double>> read_numbers(std::string_view text,
                                                const engine::QuantityReader& quantities) {
    if (const std::size_t dots = text.find(".."); dots != std::string_view::npos)
        return read_steps(text, dots, quantities);
    std::vector<double> at;
    for (const std::string_view part : parts(text)) {
        lang::Outcome<double> value = quantities.read(part);
        if (!value)
            return std::move(value.said);
        at.push_back(*value);
    }
    return at;
}

} // namespace

lang::Outcome<engine::Range> read_range(std::string_view text,
                                        const engine::QuantityReader& quantities) {
    const std::size_t dots = text.find("..");
    if (dots == std::string_view::npos)
        return unread(quantities.where(),
                      "`" + std::string(text) + "` is not a range, as in \"300 ft..2,600 ft\"");
    lang::Outcome<double> low = quantities.read(trimmed(text.substr(0, dots)));
    if (!low)
        return std::move(low.said);
    lang::Outcome<double> high = quantities.read(trimmed(text.substr(dots + 2)));
    if (!high)
        return std::move(high.said);
    if (!(*low < *high))
        return unread(quantities.where(),
                      "the range `" + std::string(trimmed(text)) + "` is empty");
    return engine::Range{*low, *high};
}

lang::Outcome<AxisWords> read_axis(std::string_view text, const engine::PricedJob& job,
                                   std::string_view where) {
    const std::size_t equals = text.find('=');
    const std::string_view name = trimmed(text.substr(0, equals));
    if (equals == std::string_view::npos || name.empty())
        return unread(where, "`" + std::string(text) +
                                 "` is not GIVEN=VALUES, as in \"depth=4 ft,5 ft,6 ft\"");
    lang::Outcome<engine::Subject> given = engine::given_named(job, name);
    if (!given)
        return std::move(given.said);
    const std::string_view values = text.substr(equals + 1);
    lang::Outcome<std::vector<double>> at =
        given->is_choice()
            ? read_options(values, *given, where)
            : read_numbers(values, engine::QuantityReader(job, *given, std::string(where)));
    if (!at)
        return std::move(at.said);
    AxisWords axis{std::move(*given), std::move(*at), {}};
    for (const double value : axis.at)
        axis.shown.push_back(axis.given.is_choice() ? axis.given.option(value)
                                                    : lang::written_text(value, axis.given.unit));
    return axis;
}

} // namespace acre::cli
