#include "cli/chart/curves.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>

#include <fmt/format.h>

#include "cli/safe_text.h"
#include "cli/text/wrap.h"
#include "lang/diag/safe_text.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

struct Span {
    double low = std::numeric_limits<double>::infinity(), high = -std::numeric_limits<double>::infinity();
    void take(double value) {
        if (std::isfinite(value)) {
            low = std::min(low, value);
            high = std::max(high, value);
        }
    }
    double share(double value) const { return high > low ? (value - low) / (high - low) : 0.5; }
};

Span y_span(const Curves& curves) {
    Span span;
    for (const Curve& curve : curves.curves)
        for (const double y : curve.y)
            span.take(y);
    if (!(span.low <= span.high))
        return {0, 1};
    const double room = span.high > span.low ? (span.high - span.low) * 0.04 : std::max(1.0, std::abs(span.high) * 0.05);
    return {span.low - room, span.high + room};
}

// y at any x, linear between the points; NaN outside or where a neighbour is missing.
double at(const std::vector<double>& x, const std::vector<double>& y, double where) {
    const auto right = std::lower_bound(x.begin(), x.end(), where);
    if (right == x.end())
        return std::numeric_limits<double>::quiet_NaN();
    const auto i = static_cast<std::size_t>(right - x.begin());
    if (i == 0 || *right == where)
        return *right == where ? y[i] : std::numeric_limits<double>::quiet_NaN();
    return y[i - 1] + (y[i] - y[i - 1]) * (where - x[i - 1]) / (x[i] - x[i - 1]);
}

} // namespace

std::vector<double> axis_places(double low, double high, std::size_t count) {
    std::vector<double> places;
    if (!(high > low) || count == 0)
        return {low};
    const double raw = (high - low) / static_cast<double>(count);
    const double power = std::pow(10, std::floor(std::log10(raw)));
    double step = power * 10;
    for (const double digit : {1.0, 2.0, 2.5, 5.0})
        if (digit * power >= raw * 0.999) {
            step = digit * power;
            break;
        }
    for (double k = std::ceil(low / step - 1e-9); k * step <= high + step * 1e-9; ++k)
        places.push_back(k * step);
    return places;
}

std::string curves_text(const Curves& curves) {
    constexpr std::size_t width = 60;
    constexpr std::size_t height = 18;
    const Span y = y_span(curves);
    const double x_low = curves.x.front();
    const double x_high = curves.x.back();
    std::vector<std::string> rows(height, std::string(width, ' '));
    for (std::size_t c = 0; c < curves.curves.size(); ++c)
        for (std::size_t column = 0; column < width; ++column) {
            const double where = x_low + (x_high - x_low) * static_cast<double>(column) / (width - 1);
            const double value = at(curves.x, curves.curves[c].y, where);
            if (!std::isfinite(value))
                continue;
            const auto row = static_cast<std::size_t>(std::lround((1 - y.share(value)) * (height - 1)));
            char& cell = rows[row][column];
            cell = cell == ' ' ? static_cast<char>('a' + c) : '*';
        }
    std::string out = "  " + lang::terminal_text(curves.title) + "\n";
    for (std::size_t row = 0; row < height; ++row) {
        const bool labelled = row % 4 == 0 || row == height - 1;
        const double value = y.high - (y.high - y.low) * static_cast<double>(row) / (height - 1);
        std::string line = fmt::format("{:>14} |{}", labelled ? lang::quantity_text(value, curves.y_unit) : "", rows[row]);
        while (line.back() == ' ')
            line.pop_back();
        out += line + "\n";
    }
    out += std::string(15, ' ') + "+" + std::string(width, '-') + "\n";
    const std::string low = lang::quantity_text(x_low, curves.x_unit);
    const std::string high = lang::quantity_text(x_high, curves.x_unit);
    const std::string name = lang::terminal_text(curves.x_name);
    const std::size_t rest = width > low.size() + name.size() + high.size() ? width - low.size() - name.size() - high.size() : 2;
    out += std::string(16, ' ') + low + std::string(rest / 2, ' ') + name + std::string(rest - rest / 2, ' ') + high + "\n";
    for (std::size_t c = 0; c < curves.curves.size(); ++c)
        out += fmt::format("{:>16} {}\n", static_cast<char>('a' + c), lang::terminal_text(curves.curves[c].name));
    if (curves.curves.size() > 1)
        out += fmt::format("{:>16} more than one\n", '*');
    for (const CurveMark& mark : curves.marks)
        out += "  " + wrap(lang::terminal_text(mark.text), page_width - 2, 2) + "\n";
    return out;
}

namespace {

// Told apart by dash and width as well as by ink, so a black-and-white print reads.
constexpr const char* inks[] = {"#6b4f2a", "#2f6b3a", "#b2462c", "#2b5a86", "#7a3b7a", "#8a7a1c", "#3b7a75", "#555555"};
constexpr const char* dashes[] = {"", "7 4", "2 3", "9 3 2 3", "1 4", "12 5", "5 2", "3 6"};

class Picture {
  public:
    explicit Picture(const Curves& curves) : curves_(curves), y_(y_span(curves)) {}

    std::string draw() {
        put("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {} {}\" font-family=\"Georgia, 'Liberation Serif', serif\" "
            "font-size=\"13\" "
            "fill=\"#1d1b17\">\n<title>{}</title>\n<rect width=\"{}\" height=\"{}\" fill=\"#fffdf7\"/>\n",
            width, height(), markup_text(curves_.title), width, height());
        put("<text x=\"{}\" y=\"24\" font-size=\"15\" font-weight=\"bold\">{}</text>\n", left, markup_text(curves_.title));
        axes();
        for (std::size_t c = 0; c < curves_.curves.size(); ++c)
            curve(c);
        marks();
        key();
        out_ += "</svg>\n";
        return std::move(out_);
    }

  private:
    static constexpr double width = 720, left = 84, right = 24, top = 42, plot = 330;
    const Curves& curves_;
    Span y_;
    std::string out_;

    template <class... Args> void put(fmt::format_string<Args...> format, Args&&... args) {
        fmt::format_to(std::back_inserter(out_), format, std::forward<Args>(args)...);
    }
    double height() const { return top + plot + 62 + 20 * static_cast<double>(curves_.curves.size() + curves_.marks.size()); }
    double px(double x) const {
        const double low = curves_.x.front();
        const double high = curves_.x.back();
        return left + (width - left - right) * (high > low ? (x - low) / (high - low) : 0.5);
    }
    double py(double y) const { return top + plot * (1 - y_.share(y)); }

    void axes() {
        out_ += "<g stroke=\"#ddd3bb\">\n";
        for (const double y : axis_places(y_.low, y_.high, 6))
            put("<path d=\"M{} {:.1f}H{}\"/>\n", left, py(y), width - right);
        out_ += "</g>\n";
        for (const double y : axis_places(y_.low, y_.high, 6))
            put("<text x=\"{}\" y=\"{:.1f}\" text-anchor=\"end\">{}</text>\n", left - 8, py(y) + 4,
                markup_text(lang::quantity_text(y, curves_.y_unit)));
        put("<path d=\"M{0} {1}V{2}H{3}\" fill=\"none\" stroke=\"#1d1b17\"/>\n", left, top, top + plot, width - right);
        for (const double x : axis_places(curves_.x.front(), curves_.x.back(), 7)) {
            put("<path d=\"M{0:.1f} {1}v5\" stroke=\"#1d1b17\"/>\n", px(x), top + plot);
            put("<text x=\"{:.1f}\" y=\"{}\" text-anchor=\"middle\">{}</text>\n", px(x), top + plot + 19,
                markup_text(lang::quantity_text(x, curves_.x_unit)));
        }
        put("<text x=\"{:.1f}\" y=\"{}\" text-anchor=\"middle\" fill=\"#57503f\">{}</text>\n", (left + width - right) / 2, top + plot + 39,
            markup_text(curves_.x_name));
    }
    void curve(std::size_t c) {
        std::string d;
        bool down = false;
        const std::vector<double>& y = curves_.curves[c].y;
        for (std::size_t i = 0; i < y.size(); ++i) {
            if (std::isfinite(y[i]))
                fmt::format_to(std::back_inserter(d), "{}{:.1f} {:.1f}", down ? "L" : "M", px(curves_.x[i]), py(y[i]));
            down = std::isfinite(y[i]);
        }
        put("<path d=\"{}\" fill=\"none\" stroke=\"{}\" stroke-width=\"2\" stroke-dasharray=\"{}\" stroke-linejoin=\"round\"/>\n", d,
            inks[c % 8], dashes[c % 8]);
    }
    void marks() {
        for (const CurveMark& mark : curves_.marks)
            if (std::isfinite(mark.y))
                put("<circle cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"4.5\" fill=\"#fffdf7\" stroke=\"#1d1b17\" stroke-width=\"1.6\"/>\n",
                    px(mark.x), py(mark.y));
    }
    void key() {
        double y = top + plot + 62;
        for (std::size_t c = 0; c < curves_.curves.size(); ++c, y += 20) {
            put("<path d=\"M{} {:.1f}h34\" stroke=\"{}\" stroke-width=\"2\" stroke-dasharray=\"{}\"/>\n", left, y - 4, inks[c % 8],
                dashes[c % 8]);
            put("<text x=\"{}\" y=\"{:.1f}\">{}</text>\n", left + 44, y, markup_text(curves_.curves[c].name));
        }
        for (const CurveMark& mark : curves_.marks) {
            put("<circle cx=\"{}\" cy=\"{:.1f}\" r=\"4.5\" fill=\"#fffdf7\" stroke=\"#1d1b17\" stroke-width=\"1.6\"/>\n", left + 17, y - 4);
            put("<text x=\"{}\" y=\"{:.1f}\">{}</text>\n", left + 44, y, markup_text(mark.text));
            y += 20;
        }
    }
};

} // namespace

std::string curves_svg(const Curves& curves) {
    return Picture(curves).draw();
}

} // namespace acre::cli
