#include "engine/questions/season/roads.h"

#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "engine/log/csv_table.h"
#include "lang/source/source_map.h"
#include "lang/units/number_text.h"

namespace acre::engine {
namespace {

// "a" of fields/a.job, "2027-004" of a quote.
std::string name_of_job(const SeasonJob& job) {
    constexpr std::string_view quote = "quote ";
    if (job.file.starts_with(quote))
        return job.file.substr(quote.size());
    std::string name = job.file.substr(job.file.rfind('/') + 1);
    if (name.ends_with(".job"))
        name.resize(name.size() - 4);
    return name;
}

lang::Diagnostic bad_roads(const std::string& name, std::string why) {
    return lang::placeless(lang::Code::C003, "`" + name + "`: " + std::move(why), {},
                           {"its first row is  from,to,GIVEN,...  as in  from,to,site.miles"});
}

// What a job costs with both moves, and with its way in alone.
struct Legs {
    MoveMoney both, in;
};

class RoadPrices {
  public:
    RoadPrices(const std::vector<SeasonJob>& jobs, const std::string& moves, const Reprice& reprice)
        : jobs_(jobs),
          moves_(moves),
          reprice_(reprice) {}

    PricedRoad price(std::size_t from, std::size_t to, const GivenSets& road) {
        PricedRoad priced;
        priced.from = from;
        priced.to = to;
        const std::optional<Legs>& first = legs_of(from);
        const std::optional<Legs>& second = legs_of(to);
        if (!first || !second) {
            priced.why_not = fmt::format("one of them does not pay two moves by `{}`", moves_);
            return priced;
        }
        GivenSets way_in = road;
        way_in.emplace_back(moves_, "1");
        const std::optional<MoveMoney> over = reprice_(to, way_in);
        if (!over) {
            priced.why_not = "the second has no price with this road: a road listed by legs is "
                             "replaced by a file of values with its legs, in a column `with`";
            return priced;
        }
        priced.from_quoted = first->both;
        priced.to_quoted = second->both;
        priced.way_home = first->both - first->in;
        priced.way_in = second->in - *over;
        return priced;
    }

    // Whether any job asked so far pays two moves by that given.
    bool any_pays() const {
        return std::any_of(
            legs_.begin(), legs_.end(), [](const auto& legs) { return legs.second.has_value(); });
    }

  private:
    const std::vector<SeasonJob>& jobs_;
    const std::string& moves_;
    const Reprice& reprice_;
    std::map<std::size_t, std::optional<Legs>> legs_; // by job

    const std::optional<Legs>& legs_of(std::size_t job) {
        const auto [at, added] = legs_.try_emplace(job);
        if (added) {
            const auto both = reprice_(job, {{moves_, "2"}});
            const auto in = reprice_(job, {{moves_, "1"}});
            // A job whose moves are set otherwise is chained already, by whoever set them.
            if (both && in && both->price == jobs_[job].price)
                at->second = Legs{*both, *in};
        }
        return at->second;
    }
};

// Jobs that follow each other on one unit of a machine.
std::vector<std::pair<std::size_t, std::size_t>> followers(const std::vector<SeasonJob>& jobs,
                                                           const std::vector<JobPlace>& places,
                                                           const UnitsOfJobs& units) {
    std::map<std::pair<std::string, std::size_t>, std::vector<std::size_t>> by_unit;
    for (std::size_t i = 0; i < jobs.size(); ++i)
        for (const UnitStay& stay : units[i])
            for (const std::size_t unit : stay.units) {
                auto& of = by_unit[{jobs[i].uses[stay.use].machine, unit}];
                if (std::find(of.begin(), of.end(), i) == of.end())
                    of.push_back(i);
            }
    std::vector<std::pair<std::size_t, std::size_t>> pairs;
    for (auto& [unit, on_it] : by_unit) {
        std::stable_sort(on_it.begin(), on_it.end(), [&](std::size_t a, std::size_t b) {
            return places[a].start < places[b].start;
        });
        for (std::size_t k = 1; k < on_it.size(); ++k)
            if (std::find(pairs.begin(), pairs.end(), std::pair(on_it[k - 1], on_it[k])) ==
                pairs.end())
                pairs.emplace_back(on_it[k - 1], on_it[k]);
    }
    return pairs;
}

} // namespace

lang::Outcome<std::vector<Road>> read_roads(std::string_view text, const std::string& name) {
    lang::SourceMap sources;
    const CsvTable table =
        read_csv(text, sources.add(name, std::string(text)), max_roads, max_road_givens + 2);
    if (!table.well_formed)
        return bad_roads(name, "not a table of CSV");
    if (table.too_many_rows)
        return bad_roads(name, "more than " + lang::number_text(max_roads) + " roads");
    if (table.rows.empty() || table.rows[0].size() < 3 || table.rows[0][0].text != "from" ||
        table.rows[0][1].text != "to" || table.rows[0].size() > max_road_givens + 2)
        return bad_roads(name, "no road: the first row names no columns `from`, `to` and a given");
    const CsvRow& heads = table.rows[0];
    std::vector<Road> roads;
    for (std::size_t r = 1; r < table.rows.size(); ++r) {
        const CsvRow& row = table.rows[r];
        if (row.size() != heads.size())
            return bad_roads(name, fmt::format("row {} has {} cells, and the first has {}", r + 1,
                                               row.size(), heads.size()));
        Road road{row[0].text, row[1].text, {}};
        for (std::size_t c = 2; c < row.size(); ++c)
            if (!row[c].text.empty())
                road.way_in.emplace_back(heads[c].text, row[c].text);
        if (road.from.empty() || road.to.empty() || road.way_in.empty())
            return bad_roads(name,
                             fmt::format("row {} says no road: from, to, and how far", r + 1));
        roads.push_back(std::move(road));
    }
    return roads;
}

lang::Outcome<std::vector<PricedRoad>> price_roads(const std::vector<SeasonJob>& jobs,
                                                   const std::vector<Road>& roads,
                                                   const std::string& moves,
                                                   const Reprice& reprice) {
    std::multimap<std::string, std::size_t> by_name;
    for (std::size_t i = 0; i < jobs.size(); ++i)
        by_name.emplace(name_of_job(jobs[i]), i);
    RoadPrices prices(jobs, moves, reprice);
    std::vector<PricedRoad> priced;
    for (const Road& road : roads) {
        const auto from = by_name.find(road.from), to = by_name.find(road.to);
        if (from == by_name.end() || to == by_name.end() || from->second == to->second)
            continue;
        // The first row counts where two say the same road.
        if (std::none_of(priced.begin(), priced.end(), [&](const PricedRoad& other) {
                return other.from == from->second && other.to == to->second;
            }))
            priced.push_back(prices.price(from->second, to->second, road.way_in));
    }
    if (!priced.empty() && !prices.any_pays())
        return lang::placeless(
            lang::Code::C003, "no job on these roads pays two moves by `" + moves + "`", {},
            {"`--moves` names the given that says how many moves a job pays, in and out: "
             "haul.moves where a model moves by haul"});
    return priced;
}

std::vector<std::size_t> taken_roads(const std::vector<SeasonJob>& jobs,
                                     const std::vector<JobPlace>& places, const UnitsOfJobs& units,
                                     const std::vector<PricedRoad>& roads,
                                     std::vector<std::size_t>* too_late) {
    std::vector<bool> left(jobs.size()), come(jobs.size());
    std::vector<std::size_t> taken;
    for (const auto& [a, b] : followers(jobs, places, units))
        for (std::size_t i = 0; i < roads.size(); ++i) {
            if (roads[i].from != a || roads[i].to != b || left[a] || come[b])
                continue;
            if (places[b].start - places[a].finish - 1 > longest_stay) {
                if (too_late != nullptr)
                    too_late->push_back(i);
                continue;
            }
            taken.push_back(i);
            left[a] = left[a] || roads[i].why_not.empty();
            come[b] = come[b] || roads[i].why_not.empty();
        }
    return taken;
}

} // namespace acre::engine
