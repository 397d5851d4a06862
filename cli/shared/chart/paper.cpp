#include "cli/shared/chart/paper.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>

#include <fmt/format.h>

#include "cli/shared/safe_text.h"
#include "cli/shared/text/wrap.h"
#include "lang/diag/glyph.h"
#include "lang/diag/safe_text.h"

namespace acre::cli {
namespace {

constexpr std::size_t most_lines = 4;
constexpr double bold_is_wider = 1.08;

struct Dye {
    std::string_view name, light, dark;
};
// By Ink.
constexpr std::array<Dye, 10> dyes = {{{"ink", "#1d1b17", "#f0e8d7"},
                                       {"soft", "#57503f", "#bcb09a"},
                                       {"paper", "#fffdf7", "#191613"},
                                       {"rule", "#ddd3bb", "#3b342a"},
                                       {"tint", "#efe3c8", "#3d3222"},
                                       {"ground", "#6b4f2a", "#d6b07a"},
                                       {"fault", "#a83f26", "#f0957a"},
                                       {"fit", "#2f6b3a", "#8fc69b"},
                                       {"water", "#2b5a86", "#9cc3e6"},
                                       {"plum", "#7a3b7a", "#d3a0d3"}}};

std::string_view name_of(Ink ink) {
    return dyes[static_cast<std::size_t>(ink)].name;
}

using Rgb = std::array<double, 3>;
// From next to the paper to its contrary; lightness goes one way all along, and past the shades of
// the middle, on which no words can be read, in one step.
using Ramp = std::array<Rgb, 4>;
constexpr std::array<double, 4> ramp_places = {0, shade_turns - 1, shade_turns, shade_count - 1};
constexpr Ramp light_ramp = {{{252, 243, 219}, {192, 127, 63}, {164, 100, 46}, {74, 40, 20}}};
constexpr Ramp dark_ramp = {{{44, 36, 26}, {138, 90, 36}, {170, 120, 60}, {250, 232, 190}}};

std::string mixed(const Ramp& ramp, std::size_t shade) {
    const auto at = static_cast<double>(shade);
    std::size_t i = 0;
    while (i + 2 < ramp.size() && ramp_places[i + 1] <= at)
        ++i;
    const double share = (at - ramp_places[i]) / (ramp_places[i + 1] - ramp_places[i]);
    const auto part = [&](std::size_t c) {
        return static_cast<int>(std::lround(ramp[i][c] + (ramp[i + 1][c] - ramp[i][c]) * share));
    };
    return fmt::format("#{:02x}{:02x}{:02x}", part(0), part(1), part(2));
}

// Only what the picture uses.
std::string inks(std::string_view body, bool dark) {
    std::string out;
    const auto rule = [&](const std::string& name, std::string_view what, std::string_view color) {
        if (body.find("\"" + name + "\"") != std::string_view::npos ||
            body.find("\"" + name + " ") != std::string_view::npos ||
            body.find(" " + name + "\"") != std::string_view::npos)
            fmt::format_to(std::back_inserter(out), ".acre .{}{{{}:{}}}\n", name, what, color);
    };
    for (const Dye& dye : dyes) {
        rule(fmt::format("f-{}", dye.name), "fill", dark ? dye.dark : dye.light);
        rule(fmt::format("s-{}", dye.name), "stroke", dark ? dye.dark : dye.light);
    }
    for (std::size_t i = 0; i < shade_count; ++i)
        rule(fmt::format("shade-{}", i), "fill", mixed(dark ? dark_ramp : light_ramp, i));
    return out;
}

// In parts of the type's size, for the usual faces without serifs.
double width_of(char c) {
    constexpr std::string_view narrow = "ijl.,:;'|!/()[] ftrI-";
    constexpr std::string_view wide = "mwMW%@";
    if (narrow.find(c) != std::string_view::npos)
        return 0.33;
    if (wide.find(c) != std::string_view::npos)
        return 0.89;
    return c >= 'A' && c <= 'Z' ? 0.7 : 0.556;
}

} // namespace

Series series(std::size_t i) {
    constexpr std::array<Series, 8> all = {{{Ink::Ground, ""},
                                            {Ink::Fit, "7 4"},
                                            {Ink::Water, "2 3"},
                                            {Ink::Plum, "9 3 2 3"},
                                            {Ink::Ground, "1 4"},
                                            {Ink::Fit, "12 5"},
                                            {Ink::Water, "5 2"},
                                            {Ink::Plum, "3 6"}}};
    return all[i % all.size()];
}

std::size_t shade_of(double share) {
    return static_cast<std::size_t>(std::lround(std::clamp(share, 0.0, 1.0) * (shade_count - 1)));
}

double drawn_width(std::string_view words, Weight weight) {
    const std::string shown = lang::terminal_text(words);
    double em = 0;
    std::size_t plain = 0;
    for (const char c : shown)
        if (c >= ' ' && c <= '~') {
            em += width_of(c);
            ++plain;
        }
    em += 0.65 * static_cast<double>(lang::text_columns(shown) - plain);
    return em * type_size * (weight == Weight::Bold ? bold_is_wider : 1);
}

std::string fitting(std::string_view words, double width, Weight weight) {
    if (drawn_width(words, weight) <= width)
        return std::string(words);
    std::size_t columns = static_cast<std::size_t>(std::max(4.0, width / (0.33 * type_size)));
    std::string cut = shortened(words, columns);
    while (columns > 4 && drawn_width(cut, weight) > width)
        cut = shortened(words, --columns);
    return cut;
}

std::vector<std::string> drawn_lines(std::string_view words, double width, Weight weight) {
    std::vector<std::string> lines = {""};
    while (!words.empty()) {
        const std::size_t end = std::min(words.find(' '), words.size());
        const std::string word(words.substr(0, end));
        std::string& line = lines.back();
        const std::string longer = line.empty() ? word : line + ' ' + word;
        if (line.empty() || drawn_width(longer, weight) <= width) {
            line = longer;
        } else if (lines.size() == most_lines) {
            line += " ...";
            break;
        } else {
            lines.push_back(word);
        }
        words.remove_prefix(std::min(end + 1, words.size()));
    }
    for (std::string& line : lines)
        line = fitting(line, width, weight);
    return lines;
}

Paper::Paper(std::string_view title) : title_(title) {
    below_title_ =
        lines(paper_edge, 26, paper_width - 2 * paper_edge, title, Ink::Ink, Weight::Bold);
}

void Paper::text(double x, double y, std::string_view words, Anchor anchor, Ink ink,
                 Weight weight) {
    constexpr std::array<std::string_view, 3> anchors = {"", " text-anchor=\"middle\"",
                                                         " text-anchor=\"end\""};
    if (words.empty())
        return;
    fmt::format_to(std::back_inserter(body_),
                   "<text x=\"{:.1f}\" y=\"{:.1f}\" class=\"f-{}\"{}{}>{}</text>\n", x, y,
                   name_of(ink), anchors[static_cast<std::size_t>(anchor)],
                   weight == Weight::Bold ? " font-weight=\"bold\"" : "", markup_text(words));
}

double Paper::lines(double x, double y, double width, std::string_view words, Ink ink,
                    Weight weight) {
    for (const std::string& line : drawn_lines(words, width, weight)) {
        text(x, y, line, Anchor::Start, ink, weight);
        y += line_height;
    }
    return y;
}

void Paper::box(double x, double y, double width, double height, Ink fill,
                std::optional<Ink> edge) {
    fmt::format_to(std::back_inserter(body_),
                   "<rect x=\"{:.2f}\" y=\"{:.2f}\" width=\"{:.2f}\" height=\"{:.2f}\" "
                   "class=\"f-{}{}{}\"/>\n",
                   x, y, width, height, name_of(fill), edge ? " s-" : "",
                   edge ? name_of(*edge) : "");
}

void Paper::shade(double x, double y, double width, double height, std::size_t shade) {
    fmt::format_to(std::back_inserter(body_),
                   "<rect x=\"{:.2f}\" y=\"{:.2f}\" width=\"{:.2f}\" height=\"{:.2f}\" "
                   "class=\"shade-{}\"/>\n",
                   x, y, width, height, shade);
}

void Paper::path(std::string_view d, Ink ink, double width, std::string_view dashes) {
    fmt::format_to(std::back_inserter(body_),
                   "<path d=\"{}\" fill=\"none\" class=\"s-{}\" stroke-width=\"{}\"{}{}{} "
                   "stroke-linejoin=\"round\"/>\n",
                   d, name_of(ink), width, dashes.empty() ? "" : " stroke-dasharray=\"", dashes,
                   dashes.empty() ? "" : "\"");
}

void Paper::area(std::string_view d, Ink fill) {
    fmt::format_to(std::back_inserter(body_),
                   "<path d=\"{}\" fill-rule=\"evenodd\" class=\"f-{}\"/>\n", d, name_of(fill));
}

void Paper::ring(double x, double y) {
    fmt::format_to(std::back_inserter(body_),
                   "<circle cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"5\" class=\"f-paper s-ink\" "
                   "stroke-width=\"1.6\"/>\n",
                   x, y);
}

double Paper::key(double y, Series of, std::string_view words, double width) {
    path(fmt::format("M{:.1f} {:.1f}h34", paper_edge, y - 5), of.ink, width, of.dashes);
    return lines(paper_edge + 42, y, paper_width - 2 * paper_edge - 42, words);
}

std::string Paper::finish(double height) && {
    body_ = fmt::format("<rect width=\"{}\" height=\"{:.0f}\" class=\"f-paper\"/>\n", paper_width,
                        height) +
            body_;
    return fmt::format(
               "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {} {:.0f}\" class=\"acre\" "
               "style=\"max-width:760px\" font-family=\"'Segoe UI', Roboto, 'Noto Sans', "
               "'Liberation Sans', sans-serif\" font-size=\"{}\">\n<title>{}</title>\n<style>\n",
               paper_width, height, type_size, markup_text(title_)) +
           inks(body_, false) + "@media screen and (prefers-color-scheme:dark){\n" +
           inks(body_, true) + "}\n</style>\n" + body_ + "</svg>\n";
}

} // namespace acre::cli
