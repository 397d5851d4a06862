#include "engine/learning/readings.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <string_view>

#include "engine/learning/draw_readings.h"
#include "engine/learning/moving_parts.h"
#include "engine/log/row_work.h"
#include "engine/words/words.h"

namespace acre::engine {
namespace {

class Readings {
  public:
    Readings(const PricedJob& job, const std::vector<CountedLine>& counted,
             const std::set<std::string>& spent)
        : job_(job),
          sheet_(job.sheet()),
          counted_(counted),
          spent_(spent) {}

    std::vector<Ratio> find(bool several) {
        for (const CountedLine& line : counted_)
            if (line.how == Counting::Meter)
                add_slot(meters_, line.name);
        if (!several && !meters_.empty()) {
            work_and_fuel();
            costs();
            events();
        }
        fuel_price();
        for (const CountedLine& line : counted_)
            if (line.how == Counting::Work && line.unit == "h")
                ratio({Tells::Hours, line.name, label_of(line.name), "h", 0, {}, 0, 0, {}, {}, {}},
                      slot_of(line.name), {});
        return std::move(found_);
    }

  private:
    const PricedJob& job_;
    const lang::Sheet& sheet_;
    const std::vector<CountedLine>& counted_;
    const std::set<std::string>& spent_;
    std::vector<Slot> meters_;
    std::vector<Ratio> found_;

    Slot slot_of(std::string_view name) const {
        const lang::LineId line = sheet_.find(name);
        return line == lang::none ? no_slot : job_.plan().line_slot[line];
    }
    void add_slot(std::vector<Slot>& to, std::string_view name) const {
        if (const Slot slot = slot_of(name); slot != no_slot)
            to.push_back(slot);
    }
    std::string label_of(std::string_view name) const {
        const lang::LineId line = sheet_.find(name);
        return line == lang::none || sheet_.lines[line].label.empty() ? std::string(name)
                                                                      : sheet_.lines[line].label;
    }
    // One that comes to nothing as the job stands tells nothing.
    void ratio(Reading reading, Slot over, const std::vector<Slot>& under) {
        if (over == no_slot)
            return;
        const std::vector<double>& value = job_.values().slot;
        double below = under.empty() ? 1 : 0;
        for (const Slot slot : under)
            below += value[slot];
        reading.at_season = value[over] / below;
        if (std::isfinite(reading.at_season) && reading.at_season > 0)
            found_.push_back({std::move(reading), {over}, under});
    }

    void work_and_fuel() {
        bool worked = false;
        for (const CountedLine& line : counted_) {
            const bool fuel = line.how == Counting::Fuel;
            if (line.name.find('.') != std::string::npos ||
                (!fuel && (line.how != Counting::Work || line.unit == "h" || worked)))
                continue;
            worked = worked || !fuel;
            ratio({fuel ? Tells::Burn : Tells::Pace,
                   line.name,
                   label_of(line.name) + " per machine hour",
                   line.unit + "/h",
                   0,
                   {},
                   0,
                   0,
                   {},
                   {},
                   {}},
                  slot_of(line.name), meters_);
        }
    }
    void costs() {
        for (const lang::Cost& cost : sheet_.costs) {
            const lang::Line& line = sheet_.lines[cost.rate];
            if (!spent_.contains(line.name))
                continue;
            ratio({Tells::Money,
                   line.name,
                   (line.label.empty() ? line.name : line.label) + ", money per machine hour",
                   std::string(lang::shown_money().word()) + "/h",
                   0,
                   {},
                   0,
                   0,
                   {},
                   {},
                   {}},
                  job_.plan().line_slot[cost.amount], meters_);
        }
    }
    void events() {
        for (const lang::Event& event : sheet_.events) {
            const lang::Line& line = sheet_.lines[event.count];
            ratio({Tells::Breaks,
                   line.name,
                   line.label.empty() ? line.name : line.label,
                   "1/h",
                   0,
                   {},
                   0,
                   0,
                   {},
                   {},
                   {}},
                  job_.plan().line_slot[event.count], meters_);
        }
    }
    void fuel_price() {
        for (const lang::Cost& cost : sheet_.costs) {
            const std::string unit = unit_text(sheet_, sheet_.lines[cost.quantity]);
            if (how_counted(unit, false) != Counting::Fuel)
                continue;
            ratio({Tells::FuelPrice,
                   "fuel_price",
                   "fuel, as delivered",
                   unit_text(sheet_, sheet_.lines[cost.rate]),
                   0,
                   {},
                   0,
                   0,
                   {},
                   {},
                   {}},
                  job_.plan().line_slot[cost.rate], {});
            return;
        }
    }
};

// The only figure that days tell of: what the library's models call it.
constexpr std::string_view fit_days = "crew.fit_days";

void add_days(const std::vector<MovingPart>& parts, const Assumptions& assumptions,
              std::vector<Reading>& readings) {
    const std::size_t at = assumptions.find(fit_days);
    if (at == no_assumption || assumptions.all()[at].unit != "%" ||
        std::none_of(parts.begin(), parts.end(),
                     [&](const MovingPart& part) { return part.assumption == at; }))
        return;
    Reading& reading = readings.emplace_back();
    reading.tells = Tells::Days;
    reading.name = "date";
    reading.label = "days worked, of the open days between the first and the last";
    reading.unit = "%";
    reading.rests_on = {at};
}

// Services of their own: work that used models count.
bool has_several(const std::vector<CountedLine>& counted) {
    return std::any_of(
        counted.begin(), counted.end(),
        [](const CountedLine& line) {
            return line.how == Counting::Work && line.unit != "h" &&
                   line.name.find('.') != std::string::npos;
        });
}

} // namespace

lang::Outcome<JobReadings> readings_of(const PricedJob& job,
                                       const std::vector<CountedLine>& counted,
                                       const std::set<std::string>& spent, Assumptions& assumptions,
                                       double& work) {
    JobReadings result;
    result.several = has_several(counted);
    if (counts_several_kinds(counted))
        for (const CountedLine& line : counted)
            if (line.how == Counting::Meter && line.quoted > 0)
                result.machines.push_back(line.machine);
    result.ground = ground_of(job);
    const std::vector<MovingPart> parts = moving_parts(job, assumptions);
    std::vector<Ratio> ratios = Readings(job, counted, spent).find(result.several);
    if (!ratios.empty() && !parts.empty()) {
        if (auto refusal = draw_readings(job, parts, assumptions, ratios, work))
            return std::move(*refusal);
    }
    for (Ratio& ratio : ratios)
        result.readings.push_back(std::move(ratio.reading));
    add_days(parts, assumptions, result.readings);
    return result;
}

} // namespace acre::engine
