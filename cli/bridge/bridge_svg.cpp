#include "cli/bridge/bridge_svg.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <iterator>

#include <fmt/format.h>

#include "cli/bridge/bridge_text.h"
#include "cli/shared/safe_text.h"
#include "cli/shared/text/wrap.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

constexpr double width = 760, left = 330, right = 110, row_height = 30, top = 46;

} // namespace

std::string bridge_svg(const engine::Bridge& bridge, const std::string& before,
                       const std::string& after) {
    // The line runs from the old price over every step to the new one; the frame holds all of it.
    double low = static_cast<double>(std::min(bridge.before_cents, bridge.after_cents));
    double high = static_cast<double>(std::max(bridge.before_cents, bridge.after_cents));
    auto at = static_cast<double>(bridge.before_cents);
    for (const engine::BridgeRow& row : bridge.rows) {
        at += static_cast<double>(row.cents);
        low = std::min(low, at);
        high = std::max(high, at);
    }
    const double room = std::max(1.0, (high - low) * 0.12);
    const auto x = [&](double cents) {
        return left + (width - left - right) * (cents - low + room) / (high - low + 2 * room);
    };
    std::string out;
    const auto put = [&]<class... Args>(fmt::format_string<Args...> format, Args&&... args) {
        fmt::format_to(std::back_inserter(out), format, std::forward<Args>(args)...);
    };
    const double height = top + row_height * static_cast<double>(bridge.rows.size() + 2) + 12;
    put("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {} {}\" font-family=\"Georgia, "
        "'Liberation Serif', serif\" "
        "font-size=\"13\" "
        "fill=\"#1d1b17\">\n<title>From one price to the other</title>\n<rect width=\"{}\" "
        "height=\"{}\" fill=\"#fffdf7\"/>\n",
        width, height, width, height);
    put("<text x=\"16\" y=\"26\" font-size=\"15\" font-weight=\"bold\">From one price to the "
        "other, in {}</text>\n",
        markup_text(bridge.unit));
    double y = top;
    const auto end = [&](const std::string& name, std::int64_t cents) {
        const double value = x(static_cast<double>(cents));
        put("<text x=\"{}\" y=\"{}\" text-anchor=\"end\" font-weight=\"bold\">{}</text>\n",
            left - 12, y + 15, markup_text(shortened(name, 44)));
        put("<rect x=\"{}\" y=\"{}\" width=\"{:.1f}\" height=\"16\" fill=\"#6b4f2a\"/>\n", left,
            y + 3, value - left);
        put("<text x=\"{:.1f}\" y=\"{}\" font-weight=\"bold\">{}</text>\n", value + 8, y + 16,
            markup_text(lang::cents_text(cents)));
        y += row_height;
    };
    end(before, bridge.before_cents);
    at = static_cast<double>(bridge.before_cents);
    for (const engine::BridgeRow& row : bridge.rows) {
        const double from = x(at);
        at += static_cast<double>(row.cents);
        const double to = x(at);
        put("<path d=\"M{0:.1f} {1}V{2}\" stroke=\"#8a7a55\" stroke-dasharray=\"3 3\"/>\n", from,
            y - row_height + 19, y + 3);
        put("<text x=\"{}\" y=\"{}\" text-anchor=\"end\">{}</text>\n", left - 12, y + 15,
            markup_text(shortened(bridge_row_text(row), 50)));
        // More is filled, less is hatched by its outline: told apart without colour.
        put("<rect x=\"{:.1f}\" y=\"{}\" width=\"{:.1f}\" height=\"16\" fill=\"{}\" "
            "stroke=\"#1d1b17\" stroke-width=\"0.8\"/>\n",
            std::min(from, to), y + 3, std::max(1.5, std::abs(to - from)),
            row.cents > 0 ? "#b2462c" : "#fffdf7");
        put("<text x=\"{:.1f}\" y=\"{}\">{}{}</text>\n", std::max(from, to) + 8, y + 16,
            row.cents > 0 ? "+" : "", markup_text(lang::cents_text(row.cents)));
        y += row_height;
    }
    end(after, bridge.after_cents);
    out += "</svg>\n";
    return out;
}

} // namespace acre::cli
