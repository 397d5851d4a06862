#include "engine/field/row_order.h"

#include <algorithm>
#include <numeric>

namespace acre::engine {
namespace {

// Rows `begin` .. `begin + size`: an odd number goes first, middle, second …, and ends in the
// middle, `size / 2` and `size / 2 + 1` rows at a step.
void take_land(std::size_t begin, std::size_t size, std::vector<std::size_t>& order) {
    const std::size_t half = (size + 1) / 2;
    for (std::size_t i = 0; i < half; ++i) {
        order.push_back(begin + i);
        if (half + i < size)
            order.push_back(begin + half + i);
    }
}

// An even number goes middle, first, …: steps of half the rows, and one more.
void take_even_land(std::size_t size, std::vector<std::size_t>& order) {
    const std::size_t half = size / 2;
    for (std::size_t i = 0; i < half; ++i) {
        order.push_back(half + i);
        order.push_back(i);
    }
}

} // namespace

std::size_t rows_apart(std::span<const double> y, double diameter) {
    std::size_t most = 1;
    for (std::size_t low = 0, high = 1; low < y.size() && high < y.size(); ++low) {
        high = std::max(high, low + 1);
        while (high < y.size() && y[high] - y[low] < diameter * (1 - 1e-9))
            ++high;
        if (high < y.size() || low == 0)
            most = std::max(most, high - low);
    }
    return most;
}

std::vector<std::size_t> row_order(std::size_t count, std::size_t skip) {
    std::vector<std::size_t> order;
    order.reserve(count);
    if (skip <= 1 || count < 3) {
        order.resize(count);
        std::iota(order.begin(), order.end(), std::size_t{0});
        return order;
    }
    if (count <= 2 * skip) {
        count == 2 * skip ? take_even_land(count, order) : take_land(0, count, order);
        return order;
    }
    // Lands of an odd number of rows, the last perhaps of an even one; what is left over widens
    // them by two rows each.
    const std::size_t land = 2 * skip + 1;
    const std::size_t lands = count / land;
    const std::size_t pairs = count % land / 2;
    for (std::size_t i = 0, begin = 0; i < lands; ++i) {
        const std::size_t end =
            i + 1 == lands ? count
                           : begin + land + 2 * (pairs * (i + 1) / lands - pairs * i / lands);
        take_land(begin, end - begin, order);
        begin = end;
    }
    return order;
}

} // namespace acre::engine
