#include <doctest/doctest.h>

#include <algorithm>
#include <random>
#include <set>
#include <string>

#include "lang/check/order.h"
#include "tests/support/compile_text.h"

namespace order_test {

using namespace acre::lang;

namespace {

Dependencies graph_of(const std::vector<std::vector<std::uint32_t>>& edges) {
    Dependencies graph;
    for (const auto& list : edges) {
        graph.edges.insert(graph.edges.end(), list.begin(), list.end());
        graph.first.push_back(static_cast<std::uint32_t>(graph.edges.size()));
    }
    return graph;
}

// What can be reached from `start` by one step or more; the slow and obvious way.
std::set<std::uint32_t> reached(const Dependencies& graph, std::uint32_t start) {
    std::set<std::uint32_t> out;
    std::vector<std::uint32_t> waiting{start};
    while (!waiting.empty()) {
        const std::uint32_t at = waiting.back();
        waiting.pop_back();
        for (std::uint32_t e = graph.first[at]; e < graph.first[at + 1]; ++e)
            if (out.insert(graph.edges[e]).second)
                waiting.push_back(graph.edges[e]);
    }
    return out;
}

} // namespace

TEST_CASE("groups are those that reach each other, and come after what they rest on") {
    std::mt19937 engine(13);
    const auto below = [&](std::uint32_t most) {
        return static_cast<std::uint32_t>(engine() % most);
    };
    for (int round = 0; round < 200; ++round) {
        const std::uint32_t n = 1 + below(14);
        std::vector<std::vector<std::uint32_t>> edges(n);
        for (auto& list : edges)
            for (std::uint32_t k = below(3); k > 0; --k)
                list.push_back(below(n));
        const Dependencies graph = graph_of(edges);
        std::vector<std::set<std::uint32_t>> reach;
        for (std::uint32_t i = 0; i < n; ++i)
            reach.push_back(reached(graph, i));
        const auto groups = strong_groups(graph);
        std::vector<std::size_t> group_of(n, groups.size());
        for (std::size_t g = 0; g < groups.size(); ++g)
            for (const std::uint32_t id : groups[g]) {
                CHECK(group_of[id] == groups.size()); // each in one group
                group_of[id] = g;
            }
        for (std::uint32_t i = 0; i < n; ++i)
            for (std::uint32_t j = 0; j < n; ++j) {
                if (i != j)
                    CHECK((group_of[i] == group_of[j]) ==
                          (reach[i].count(j) > 0 && reach[j].count(i) > 0));
                if (reach[i].count(j) > 0)
                    CHECK(group_of[j] <= group_of[i]);
            }
        for (const auto& group : groups) {
            if (reach[group[0]].count(group[0]) == 0)
                continue;
            const auto loop = shortest_loop(graph, group);
            CHECK(loop.front() == group[0]);
            for (std::size_t i = 0; i < loop.size(); ++i) {
                const auto& list = edges[loop[i]];
                CHECK(std::count(list.begin(), list.end(), loop[(i + 1) % loop.size()]) > 0);
            }
        }
    }
}

TEST_CASE("the way round is a shortest one") {
    // 0 -> 1 -> 2 -> 3 -> 0, and a short cut 1 -> 0
    const Dependencies graph = graph_of({{1}, {2, 0}, {3}, {0}});
    CHECK(shortest_loop(graph, {0, 1, 2, 3}) == std::vector<std::uint32_t>{0, 1});
    CHECK(shortest_loop(graph, {2, 0, 1, 3}) == std::vector<std::uint32_t>{2, 3, 0, 1});
    CHECK(shortest_loop(graph_of({{0}}), {0}) == std::vector<std::uint32_t>{0});
}

TEST_CASE("a chain of a million is no danger") {
    Dependencies graph;
    constexpr std::uint32_t n = 1'000'000;
    for (std::uint32_t i = 0; i < n; ++i) {
        graph.edges.push_back((i + 1) % n);
        graph.first.push_back(i + 1);
    }
    CHECK(strong_groups(graph).size() == 1);
    graph.edges.back() = n - 2;
    CHECK(strong_groups(graph).size() == n - 1);
}

TEST_CASE("six steps of a loop are drawn, and more are counted") {
    const auto loop_of = [](int lines) {
        std::string text = "model \"m\"\n";
        for (int i = 0; i < lines; ++i)
            text += "x" + std::to_string(i) + " : 1 = x" + std::to_string((i + 1) % lines) + "\n";
        return acre::tests::expect_diag(text, Code::G401);
    };
    CHECK(loop_of(6).others.size() == 5);
    CHECK(loop_of(6).notes.empty());
    CHECK(loop_of(7).others.size() == 5);
    REQUIRE(loop_of(7).notes.size() == 1);
    CHECK(loop_of(7).notes[0] == "and so on, 7 steps in all, back to `x0`");
}

} // namespace order_test
