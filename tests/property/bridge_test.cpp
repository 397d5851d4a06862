// Ten thousand random pairs of models: whatever changed, the rows of the bridge add up to the cent
// and to the last bits.
#include "engine/driver.h"
#include "engine/questions/bridge/bridge.h"

#include <doctest/doctest.h>

#include <cmath>
#include <random>
#include <string>

#include "tests/support/memory_loader.h"

namespace bridge_test {

using namespace acre;

namespace {

// A small ripping model: a formula and a rounding picked by chance, values by chance.
struct Draw {
    std::mt19937_64& random;
    double even(double low, double high) {
        return low + (high - low) * static_cast<double>(random() >> 11) * 0x1p-53;
    }
    bool chance(int in) { return random() % static_cast<unsigned>(in) == 0; }
    template <std::size_t N> const char* one_of(const char* const (&texts)[N]) {
        return texts[random() % N];
    }
};

std::string model(Draw& draw) {
    static constexpr const char* hours[] = {"area / (spacing * speed) / 83 %",
                                            "area / (spacing * speed) + 2 h",
                                            "ceil(area / (spacing * speed), 1 h)"};
    static constexpr const char* steps[] = {"  margin share\n", "  overhead 9 %\n  margin share\n",
                                            "  margin share\n  round up to $1/ac\n",
                                            "  markup share\n  at least $4,000\n"};
    return std::string("model \"m\"\n"
                       "given area = 80 ac\ngiven spacing = 7 ft\ngiven speed = 1.5 mi/h\ngiven "
                       "rate = $300/h\ngiven diesel = $4/gal\n"
                       "given burn = 35 gal/h\ngiven share = 12 %\ngiven method = one | both\n"
                       "hours : h = (") +
           draw.one_of(hours) +
           ") * (when method is both then 1.8 otherwise 1)\n"
           "cost machine : $/h = rate over hours\ncost fuel : $/gal = diesel over burn * hours\n"
           "price \"Ripping\" per ac of area\n" +
           draw.one_of(steps);
}

std::string job(Draw& draw) {
    std::string text = "job \"j\"\nmodel \"m\"\n";
    const auto set = [&](const char* name, double low, double high, const char* unit) {
        if (draw.chance(2))
            text += std::string("set ") + name + " = " + std::to_string(draw.even(low, high)) +
                    " " + unit + "\n";
    };
    set("area", 20, 400, "ac");
    set("spacing", 4, 9, "ft");
    set("speed", 0.8, 2.2, "mi/h");
    set("rate", 200, 500, "$/h");
    set("diesel", 3, 7, "$/gal");
    set("burn", 20, 50, "gal/h");
    set("share", 0, 40, "%");
    if (draw.chance(3))
        text += "set method = both\n";
    return text;
}

lang::Request request(std::string text) {
    lang::Request result;
    result.name = "j.job";
    result.text = std::move(text);
    return result;
}

} // namespace

TEST_CASE("ten thousand random pairs: the rows add up to the cent") {
    std::mt19937_64 random(4);
    Draw draw{random};
    std::size_t with_models = 0;
    for (int round = 0; round < 10'000; ++round) {
        const std::string old_model = model(draw);
        const std::string new_model = draw.chance(4) ? model(draw) : old_model;
        tests::MemoryLoader old_loader({{"m.rate", old_model}});
        tests::MemoryLoader new_loader({{"m.rate", new_model}});
        const std::string old_job = job(draw);
        const std::string new_job = job(draw);
        const bool total = draw.chance(2);
        const auto before = engine::make_job(request(old_job), old_loader);
        const auto after = engine::make_job(request(new_job), new_loader);
        REQUIRE((before && after));
        const auto result = engine::ask(**before, **after, {"", "", "", "", total});
        CAPTURE(old_model);
        CAPTURE(new_model);
        CAPTURE(old_job);
        CAPTURE(new_job);
        REQUIRE_MESSAGE(result.value.has_value(), result.said.diagnostics.all().front().title);
        std::int64_t cents = 0;
        double share = 0;
        for (const engine::BridgeRow& row : result->rows) {
            cents += row.cents;
            share += row.kind == engine::BridgeKind::Rounding ? 0 : row.share;
            with_models += row.kind == engine::BridgeKind::Model ? 1 : 0;
        }
        REQUIRE(cents == result->after.cents - result->before.cents);
        REQUIRE(share == doctest::Approx(result->after.value - result->before.value)
                             .epsilon(1e-9)
                             .scale(result->after.value));
    }
    CHECK(with_models > 500);
}

TEST_CASE("one change takes the whole difference, two share what they do together") {
    const std::string text = "model \"m\"\ngiven area = 10 ac\ngiven a = $10/h\ngiven b = 5 "
                             "h\ncost c : $/h = a over b\nprice \"P\" per ac of area\n";
    tests::MemoryLoader loader({{"m.rate", text}});
    const auto rows = [&](const std::string& sets) {
        const auto before = engine::make_job(request("job \"j\"\nmodel \"m\"\n"), loader);
        const auto after = engine::make_job(request("job \"j\"\nmodel \"m\"\n" + sets), loader);
        REQUIRE((before && after));
        const auto result = engine::ask(**before, **after, {"", "", "", "", true});
        REQUIRE(result);
        return result->rows;
    };
    CHECK(rows("").empty());
    const auto one = rows("set a = $12/h\n");
    REQUIRE(one.size() == 1);
    CHECK(one[0].cents == 1000);
    CHECK(one[0].changes[0].before == "$10.00/h");
    // 10 x 5 to 12 x 7: 10 and 20 alone, 4 together, halved (by hand).
    const auto two = rows("set a = $12/h\nset b = 7 h\n");
    REQUIRE(two.size() == 2);
    CHECK(two[0].changes[0].name == "b");
    CHECK(two[0].cents == 2200);
    CHECK(two[1].cents == 1200);
}

TEST_CASE("a step beyond what can be told in cents is refused, not told as another amount") {
    const std::string text = "model \"m\"\ngiven area = 10 ac\ngiven a = $10/h\ngiven b = 5 "
                             "h\ncost c : $/h = a over b\nprice \"P\" per ac of area\n";
    tests::MemoryLoader loader({{"m.rate", text}});
    const auto before = engine::make_job(request("job \"j\"\nmodel \"m\"\n"), loader);
    // Both at once: $50 as before. Each alone: 5e15 dollars, and next to nothing.
    const auto after = engine::make_job(request("job \"j\"\nmodel \"m\"\n"
                                                "set a = $1,000,000,000,000,000/h\n"
                                                "set b = 0.00000000000005 h\n"),
                                        loader);
    REQUIRE((before && after));
    const auto result = engine::ask(**before, **after, {"", "", "", "", true});
    REQUIRE_FALSE(result);
    CHECK(result.said.diagnostics.all().front().code == lang::Code::Q007);
}

TEST_CASE("the sides carry what people call them, and a side at fault says which it is") {
    const std::string text = "model \"m\"\ngiven area : ac\ngiven a = $10/h\ngiven b = 5 h\ngiven "
                             "to_rows = one_way | both  \"how it is ripped\"\ncost c : $/h = a "
                             "over (when to_rows is both then 2 * b otherwise b)\nrequire a < "
                             "$100/h \"too dear\"\nprice \"P\" per ac of area\n";
    tests::MemoryLoader loader({{"m.rate", text}});
    const auto made = [&](const std::string& sets) {
        const auto job = engine::make_job(
            request("job \"North forty\"\nmodel \"m\"\nset area = 10 ac\n" + sets), loader);
        REQUIRE(job);
        return *job;
    };
    const engine::BridgeQuestion question{"old.job", "new.job", "", "", false};
    const auto good = engine::ask(*made(""), *made("set to_rows = both\n"), question);
    REQUIRE(good);
    CHECK(good->unit == "$/ac");
    CHECK(good->before.label == "North forty (old.job)"); // of one name: told apart by the file
    CHECK(good->after.label == "North forty (new.job)");
    CHECK(good->before.cents == 500);
    CHECK(good->after.cents == 1000);
    REQUIRE(good->rows.size() == 1);
    CHECK(good->rows[0].changes[0].label == "how it is ripped");
    CHECK(good->rows[0].changes[0].after == "both");
    CHECK(good->rows[0].changes[0].choice);
    const auto bad = engine::ask(*made(""), *made("set a = $100/h\n"), question);
    REQUIRE_FALSE(bad);
    const lang::Diagnostic& first = bad.said.diagnostics.all().front();
    CHECK(first.code == lang::Code::E504);
    CHECK(first.notes.back() == "of the new price, new.job");
    CHECK(bad.said.sources != nullptr);
}

} // namespace bridge_test
