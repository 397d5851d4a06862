#include "engine/questions/season/doubles.h"

#include <cmath>
#include <map>
#include <string>

namespace acre::engine {
namespace {

bool same_acres(double a, double b) {
    return a > 0 && std::fabs(a - b) <= 1e-6 * a;
}

} // namespace

Doubles find_doubles(const std::vector<SeasonJob>& jobs) {
    std::map<std::string, std::vector<std::size_t>> by_customer;
    for (std::size_t i = 0; i < jobs.size(); ++i)
        if (!jobs[i].who.empty())
            by_customer[jobs[i].who].push_back(i);
    Doubles found;
    for (const auto& [who, of] : by_customer)
        for (std::size_t a = 0; a < of.size(); ++a)
            for (std::size_t b = a + 1; b < of.size(); ++b) {
                const SeasonJob& first = jobs[of[a]];
                const SeasonJob& second = jobs[of[b]];
                Double pair{of[a], of[b], false, false, false};
                pair.boundary = !first.boundary.empty() && first.boundary == second.boundary;
                pair.acres = same_acres(first.acres, second.acres);
                pair.dates = first.dated.start <= second.dated.finish &&
                             second.dated.start <= first.dated.finish;
                if (!pair.boundary && !pair.acres && !pair.dates)
                    continue;
                if (found.listed.size() == max_doubles) {
                    found.all = false;
                    return found;
                }
                found.listed.push_back(pair);
            }
    return found;
}

} // namespace acre::engine
