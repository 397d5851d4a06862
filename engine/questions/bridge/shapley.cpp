#include "engine/questions/bridge/shapley.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <numeric>
#include <random>
#include <utility>

namespace acre::engine {
namespace {

// The groups as masks of players.
using Groups = std::vector<std::uint64_t>;

std::uint64_t players_of(const Groups& groups, std::uint64_t chosen) {
    std::uint64_t mask = 0;
    for (; chosen != 0; chosen &= chosen - 1)
        mask |= groups[static_cast<std::size_t>(std::countr_zero(chosen))];
    return mask;
}

// Every subset. Empty when one has no answer; then `blocked` holds the groups that led there from
// an answer.
std::vector<double> all_orders(const Groups& groups, const Worth& worth, std::uint64_t& blocked) {
    const std::size_t n = groups.size();
    std::vector<std::uint64_t> masks(std::size_t{1} << n);
    for (std::size_t s = 0; s < masks.size(); ++s)
        masks[s] = players_of(groups, s);
    std::vector<double> value(masks.size());
    worth(masks, value);
    blocked = 0;
    for (std::size_t s = 0; s < masks.size(); ++s)
        for (std::size_t i = 0; i < n; ++i)
            if ((s >> i & 1U) == 0 &&
                std::isfinite(value[s]) != std::isfinite(value[s | std::size_t{1} << i]))
                blocked |= std::uint64_t{1} << i;
    if (blocked != 0)
        return {};
    // weight[k]: k! (n - k - 1)! / n!
    std::vector<double> weight(n);
    for (std::size_t k = 0; k < n; ++k)
        weight[k] = std::exp(std::lgamma(static_cast<double>(k) + 1) +
                             std::lgamma(static_cast<double>(n - k)) -
                             std::lgamma(static_cast<double>(n) + 1));
    std::vector<double> share(n);
    for (std::size_t s = 0; s < masks.size(); ++s)
        for (std::size_t i = 0; i < n; ++i)
            if ((s >> i & 1U) == 0)
                share[i] += weight[static_cast<std::size_t>(std::popcount(s))] *
                            (value[s | std::size_t{1} << i] - value[s]);
    return share;
}

std::vector<double> some_orders(const Groups& groups, const Worth& worth, std::uint64_t& blocked) {
    constexpr std::size_t orders = 512; // and the reverse of each
    const std::size_t n = groups.size();
    std::mt19937_64 random(
        20'270'314); // one fixed set of orders: the same question has the same answer
    std::vector<std::size_t> order(n);
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::vector<double> share(n);
    std::vector<std::uint64_t> masks(n + 1);
    std::vector<double> value(n + 1);
    blocked = 0;
    for (std::size_t k = 0; k < 2 * orders; ++k) {
        if (k % 2 == 0)
            for (std::size_t i = n; i > 1;
                 --i) // not std::shuffle: its steps differ between libraries
                std::swap(order[i - 1], order[random() % i]);
        else
            std::reverse(order.begin(), order.end());
        masks[0] = 0;
        for (std::size_t i = 0; i < n; ++i)
            masks[i + 1] = masks[i] | groups[order[i]];
        worth(masks, value);
        for (std::size_t i = 0; i < n; ++i) {
            if (std::isfinite(value[i]) != std::isfinite(value[i + 1]))
                blocked |= std::uint64_t{1} << order[i];
            share[order[i]] += (value[i + 1] - value[i]) / static_cast<double>(2 * orders);
        }
    }
    return blocked == 0 ? share : std::vector<double>();
}

// One group out of all that are blocked; the rest stay as they are.
Groups merged(const Groups& groups, std::uint64_t blocked) {
    Groups result;
    std::uint64_t together = players_of(groups, blocked);
    for (std::size_t i = 0; i < groups.size(); ++i)
        if ((blocked >> i & 1U) == 0)
            result.push_back(groups[i]);
        else if (together != 0)
            result.push_back(std::exchange(together, 0));
    return result;
}

} // namespace

Attribution attribute(std::size_t players, const Worth& worth,
                      std::span<const std::uint64_t> together) {
    Attribution result;
    result.share.assign(players, 0.0);
    result.group.resize(players);
    std::iota(result.group.begin(), result.group.end(), 0U);

    const std::uint64_t everybody =
        players == 64 ? ~std::uint64_t{0} : (std::uint64_t{1} << players) - 1;
    const std::uint64_t ends[] = {0, everybody};
    double values[2] = {};
    worth(ends, values);
    result.before = values[0];
    result.after = values[1];
    result.answered = std::isfinite(values[0]) && std::isfinite(values[1]);
    if (!result.answered || players == 0)
        return result;

    Groups groups(together.begin(), together.end());
    for (std::size_t i = 0; i < players && together.empty(); ++i)
        groups.push_back(std::uint64_t{1} << i);
    for (;;) {
        result.exact = groups.size() <= max_exact_players;
        std::uint64_t blocked = 0;
        const std::vector<double> share =
            result.exact ? all_orders(groups, worth, blocked) : some_orders(groups, worth, blocked);
        if (blocked == 0) {
            for (std::size_t g = 0; g < groups.size(); ++g) {
                const auto first = static_cast<std::uint32_t>(std::countr_zero(groups[g]));
                result.share[first] = share[g];
                for (std::uint64_t rest = groups[g]; rest != 0; rest &= rest - 1)
                    result.group[static_cast<std::size_t>(std::countr_zero(rest))] = first;
            }
            return result;
        }
        // A single blocked group cannot be joined with nothing: it joins all. Both ends have
        // answers, so this comes to an end.
        groups = std::popcount(blocked) > 1 ? merged(groups, blocked) : Groups{everybody};
    }
}

} // namespace acre::engine
