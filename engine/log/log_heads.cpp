#include "engine/log/log_heads.h"

#include <algorithm>

#include "engine/log/log_cells.h"

namespace acre::engine {
namespace {

constexpr std::string_view amount_head = "amount.";

} // namespace

std::vector<std::string_view> known_columns(const std::vector<CountedLine>& counted) {
    std::vector<std::string_view> known = {
        "date",       "machine",    "operator",   "meter_start", "meter_stop",
        "fuel_price", "down_hours", "down_cause", "crew_waited", "hourly_hours",
        "refused_at", "permit",     "invoice",    "note"};
    for (const CountedLine& line : counted)
        if (line.how == Counting::Fuel || line.how == Counting::Work)
            known.emplace_back(line.name);
    return known;
}

std::string head_name(std::string_view written, const std::vector<std::string_view>& known) {
    if (std::find(known.begin(), known.end(), written) != known.end())
        return std::string(written);
    const std::string word = plain_word(written);
    if (word.starts_with(amount_head))
        return std::string(amount_head) + std::string(written.substr(amount_head.size()));
    std::string_view ending; // of a service: `yards` for `leveling.yards`
    std::size_t endings = 0;
    for (const std::string_view name : known) {
        if (plain_word(name) == word)
            return std::string(name);
        if (plain_word(name.substr(name.rfind('.') + 1)) == word) {
            ending = name;
            ++endings;
        }
    }
    return std::string(endings == 1 ? ending : written);
}

std::string_view cost_of_head(std::string_view name) {
    return name.starts_with(amount_head) ? name.substr(amount_head.size()) : std::string_view();
}

} // namespace acre::engine
