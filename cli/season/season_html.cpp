#include <algorithm>
#include <cmath>
#include <iterator>

#include <fmt/format.h>

#include "cli/season/report.h"
#include "cli/shared/clock.h"
#include "cli/shared/safe_text.h"
#include "lang/units/number_text.h"

namespace acre::cli {
namespace {

std::string whole(double dollars) {
    return markup_text(lang::quantity_text(std::round(dollars), "$"));
}

class Page {
  public:
    Page(const engine::Season& season, const SeasonNames& names) : s_(season), names_(names) {}

    std::string draw() {
        head();
        out_ += "<h2>Who works where, and when</h2>\n";
        calendar();
        out_ += "<h2>Machine hours by month</h2>\n";
        month_bars();
        out_ += "<h2>Money by month</h2>\n";
        money_bars();
        out_ += "<h2>Machines</h2>\n";
        machines();
        out_ += "<h2>Jobs, those that leave least for a day first</h2>\n";
        jobs();
        out_ += "</body>\n</html>\n";
        return std::move(out_);
    }

  private:
    static constexpr double width = 760, left = 110, right = 16;
    const engine::Season& s_;
    const SeasonNames& names_;
    std::string out_;

    template <class... Args> void put(fmt::format_string<Args...> format, Args&&... args) {
        fmt::format_to(std::back_inserter(out_), format, std::forward<Args>(args)...);
    }
    void head() {
        out_ += "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<meta "
                "name=\"viewport\" "
                "content=\"width=device-width\">\n"
                "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; "
                "style-src 'unsafe-inline'\">\n";
        put("<title>Season: {}</title>\n", markup_text(names_.title));
        out_ +=
            "<style>\nbody { font: 11pt/1.4 Georgia, 'Liberation Serif', serif; color: #1d1b17; "
            "max-width: 50em; margin: 1.5em auto; "
            "padding: 0 1em; }\n"
            "h1 { font-size: 18pt; margin: 0; border-bottom: 2.5pt solid #6b4f2a; }\nh2 { "
            "font-size: 12pt; color: #6b4f2a; margin: "
            "1.3em 0 .3em; }\n"
            "table { border-collapse: collapse; width: 100%; }\nth, td { text-align: right; "
            "padding: .2em .4em; border-bottom: .5pt "
            "solid #c9bfa8; "
            "font-variant-numeric: tabular-nums; }\nth { font-weight: normal; color: #57503f; "
            "}\ntd.t, th.t { text-align: left; }\nsvg "
            "{ width: 100%; "
            "height: auto; }\n@page { size: letter; margin: 14mm; }\n</style>\n</head>\n<body>\n";
        put("<h1>The season of {}</h1>\n<p>{} jobs, {} billed, {} left over; fixed cost of the "
            "machines {} a year</p>\n",
            markup_text(names_.title), s_.jobs.size(), whole(s_.price), whole(s_.price - s_.cost),
            whole(s_.fixed));
    }

    void open_svg(double height) {
        put("<svg viewBox=\"0 0 {} {:.0f}\" font-family=\"Georgia, 'Liberation Serif', serif\" "
            "font-size=\"12\" fill=\"#1d1b17\">\n",
            width, height);
    }

    void calendar() {
        long first = s_.jobs.front().start;
        long last = first;
        for (const engine::SeasonJob& job : s_.jobs)
            last = std::max(last,
                            job.start + std::max(0L, static_cast<long>(std::ceil(job.days)) - 1));
        const auto x = [&](double day) {
            return left + (width - left - right) * (day - static_cast<double>(first)) /
                              static_cast<double>(last - first + 1);
        };
        std::vector<const engine::MachineRow*> rows;
        for (const engine::MachineRow& row : s_.machines)
            if (row.booked > 0)
                rows.push_back(&row);
        open_svg(26 + 30 * static_cast<double>(rows.size()));
        for (const engine::MonthRow& month : s_.months) {
            const std::string begin = fmt::format("{:04}-{:02}-01", month.year, month.month);
            const double at = x(static_cast<double>(std::max(first, *day_number(begin))));
            if (at < width - right)
                put("<path d=\"M{0:.1f} 18V{1}\" stroke=\"#ddd3bb\"/><text x=\"{0:.1f}\" "
                    "y=\"13\">{2}-{3:02}</text>\n",
                    at, 24 + 30 * rows.size(), month.year, month.month);
        }
        double y = 26;
        for (const engine::MachineRow* row : rows) {
            put("<text x=\"{}\" y=\"{}\" text-anchor=\"end\">{}</text>\n", left - 8, y + 14,
                markup_text(row->machine.name));
            for (const engine::SeasonJob& job : s_.jobs) {
                const auto hours = job.hours.find(row->machine.name);
                if (hours == job.hours.end())
                    continue;
                const auto start = static_cast<double>(job.start);
                put("<rect x=\"{:.1f}\" y=\"{}\" width=\"{:.1f}\" height=\"18\" fill=\"#8a6a3a\" "
                    "fill-opacity=\"0.75\"><title>{}, {:.0f} "
                    "h</title></rect>\n",
                    x(start), y,
                    std::max(2.0, x(start + std::max(1.0, std::ceil(job.days))) - x(start)),
                    markup_text(job.title), hours->second);
            }
            for (const engine::Clash& clash : s_.clashes)
                if (clash.machine == row->machine.name)
                    put("<rect x=\"{:.1f}\" y=\"{}\" width=\"{:.1f}\" height=\"22\" fill=\"none\" "
                        "stroke=\"#b2462c\" "
                        "stroke-width=\"2.5\"/>\n",
                        x(static_cast<double>(clash.from)), y - 2,
                        std::max(3.0, x(static_cast<double>(clash.to + 1)) -
                                          x(static_cast<double>(clash.from))));
            y += 30;
        }
        out_ += "</svg>\n";
        if (!s_.clashes.empty())
            out_ += "<p>Framed: booked twice.</p>\n";
    }

    // Groups of bars, one for each month; `values` by month, then series.
    void bars(const std::vector<std::string>& series,
              const std::vector<std::vector<double>>& values, bool money) {
        static constexpr const char* fills[] = {"#6b4f2a", "#b8a878", "#2f6b3a", "#b2462c"};
        double most = 1e-9;
        for (const auto& month : values)
            for (const double value : month)
                most = std::max(most, value);
        constexpr double plot = 150;
        open_svg(plot + 62);
        const double group = (width - left - right) / static_cast<double>(values.size());
        const double bar = std::min(40.0, group * 0.8 / static_cast<double>(series.size()));
        for (std::size_t m = 0; m < values.size(); ++m) {
            for (std::size_t k = 0; k < series.size(); ++k) {
                const double height = plot * values[m][k] / most;
                const double x = left + group * static_cast<double>(m) +
                                 (group - bar * static_cast<double>(series.size())) / 2 +
                                 bar * static_cast<double>(k);
                put("<rect x=\"{:.1f}\" y=\"{:.1f}\" width=\"{:.1f}\" height=\"{:.1f}\" "
                    "fill=\"{}\"/>\n",
                    x, 14 + plot - height, bar - 2, height, fills[k % 4]);
            }
            put("<text x=\"{:.1f}\" y=\"{}\" text-anchor=\"middle\">{}-{:02}</text>\n",
                left + group * (static_cast<double>(m) + 0.5), plot + 30, s_.months[m].year,
                s_.months[m].month);
        }
        put("<path d=\"M{0} 14V{1}H{2}\" fill=\"none\" stroke=\"#1d1b17\"/>\n", left, 14 + plot,
            width - right);
        put("<text x=\"{}\" y=\"22\" text-anchor=\"end\">{}</text>\n", left - 8,
            money ? whole(most) : fmt::format("{:.0f} h", most));
        double x = left;
        for (std::size_t k = 0; k < series.size(); ++k) {
            put("<rect x=\"{:.0f}\" y=\"{}\" width=\"14\" height=\"11\" fill=\"{}\"/><text "
                "x=\"{:.0f}\" y=\"{}\">{}</text>\n",
                x, plot + 43, fills[k % 4], x + 19, plot + 53, markup_text(series[k]));
            x += 30 + 8 * static_cast<double>(series[k].size());
        }
        out_ += "</svg>\n";
    }
    void month_bars() {
        std::vector<std::string> series;
        for (const engine::MachineRow& row : s_.machines)
            if (row.booked > 0 && series.size() < 4)
                series.push_back(row.machine.name);
        std::vector<std::vector<double>> values;
        for (const engine::MonthRow& month : s_.months) {
            values.emplace_back();
            for (const std::string& name : series) {
                const auto it = month.hours.find(name);
                values.back().push_back(it == month.hours.end() ? 0 : it->second);
            }
        }
        if (!series.empty())
            bars(series, values, false);
    }
    void money_bars() {
        std::vector<std::vector<double>> values;
        for (const engine::MonthRow& month : s_.months)
            values.push_back({month.spent, month.billed});
        bars({"spent", "billed"}, values, true);
    }
    void machines() {
        out_ += "<table>\n<tr><th class=\"t\">machine</th><th>h booked</th><th>h "
                "assumed</th><th>own, assumed</th><th>own, "
                "booked</th><th>not earned</th></tr>\n";
        for (const engine::MachineRow& row : s_.machines)
            put("<tr><td "
                "class=\"t\">{}</td><td>{:.0f}</td><td>{:.0f}</td><td>${:.2f}/h</td><td>{}</"
                "td><td>{}</td></tr>\n",
                markup_text(row.machine.name), row.booked, row.machine.hours_per_year,
                row.machine.own_per_hour,
                row.booked > 0 ? fmt::format("${:.2f}/h", row.own_at_booked) : "-",
                whole(row.not_earned));
        out_ += "</table>\n";
    }
    void jobs() {
        out_ += "<table>\n<tr><th class=\"t\">start</th><th "
                "class=\"t\">job</th><th>days</th><th>price</th><th>left over</th><th>a "
                "day</th></tr>\n";
        for (const std::size_t i : s_.by_day_pay) {
            const engine::SeasonJob& job = s_.jobs[i];
            put("<tr><td class=\"t\">{}</td><td "
                "class=\"t\">{}</td><td>{:.0f}</td><td>{}</td><td>{}</td><td>{}</td></tr>\n",
                date_text(job.start), markup_text(job.title), job.days, whole(job.price),
                whole(job.price - job.cost),
                whole((job.price - job.cost) / std::max(1.0, job.days)));
        }
        out_ += "</table>\n";
    }
};

} // namespace

std::string season_html(const engine::Season& season, const SeasonNames& names) {
    return Page(season, names).draw();
}

} // namespace acre::cli
