// Three soils on three blocks under one price: each block is worked out again as a job of its own.
#include <set>

#include "engine/questions/price.h"
#include "tests/support/demo.h"

namespace three_soils_test {

using namespace acre;
using namespace acre::engine;
using namespace acre::tests;

namespace {

std::string example(const std::string& name) {
    return text_of(std::filesystem::path(ACREWRIGHT_ROOT) / "examples" / name);
}

PriceAnswer priced_by_block(const std::string& job) {
    Choices choices;
    for (const auto& path : demo_files("models", ".rate"))
        choices.files[path.filename().string()] = text_of(path);
    for (const char* name : {"2027.season", "tamarack.firm", "tule-bend.values",
                             "fields/tule-bend-ranch.geojson", "fields/tule-bend-soils.geojson"})
        choices.files[name] = example(name);
    lang::Request request = request_of(job, choices);
    request.field_sets.reset(); // boundaries are looked for
    MemoryLoader loader(choices.files);
    const lang::Outcome<Job> made = make_job(request, loader);
    REQUIRE(made);
    const lang::Outcome<PriceAnswer> answer = ask(**made, {false, true});
    REQUIRE(answer);
    return *answer;
}

// What the ripping costs without the crew's rides, which come in whole days: hours, gallons and
// tips.
double without_days(const PriceAnswer& answer) {
    double sum = 0;
    for (const CostRow& cost : answer.estimate.costs)
        if (cost.part == "Ripping" && cost.label != "crew travel")
            sum += cost.amount;
    return sum;
}

// The blocks of the file of values, each as it stands there.
std::vector<std::string> blocks_written() {
    const std::string text = example("tule-bend.values");
    std::vector<std::string> blocks;
    for (std::size_t at = text.find("\nblock "); at != std::string::npos;) {
        const std::size_t next = text.find("\nblock ", at + 1);
        blocks.push_back(text.substr(at + 1, next == std::string::npos ? next : next - at));
        at = next;
    }
    return blocks;
}

} // namespace

TEST_CASE("a block of one soil has the share of the price that it costs by itself") {
    const PriceAnswer all = priced_by_block(example("21-three-soils.job"));
    const std::vector<std::string> written = blocks_written();
    REQUIRE(written.size() == 6);
    REQUIRE(all.blocks.blocks.size() == 6);
    std::vector<double> own;
    double sum = 0;
    for (const std::string& block : written) {
        const PriceAnswer alone =
            priced_by_block("job \"One\"\nmodel \"deep-rip\"\nseason \"2027\"\n"
                            "date 2027-08-10\nset site.miles = 31 mi\n" +
                            block);
        own.push_back(without_days(alone));
        sum += own.back();
    }
    CHECK(sum == doctest::Approx(without_days(all)));
    const ItemRow& ripping = all.estimate.items[0];
    std::set<std::string> soils;
    double acres = 0;
    for (std::size_t i = 0; i < own.size(); ++i) {
        const BlockPrice& block = all.blocks.blocks[i];
        CAPTURE(block.label);
        CHECK(block.cost == doctest::Approx(ripping.cost * own[i] / sum));
        CHECK(std::abs(static_cast<double>(block.cents) -
                       static_cast<double>(ripping.cents) * own[i] / sum) <= 1);
        soils.insert(block.soil.text);
        acres += block.acres.value;
    }
    CHECK(soils == std::set<std::string>{"loam", "clay", "sandy loam"});
    CHECK(acres == doctest::Approx(ripping.quantity).epsilon(1e-4));
    CHECK(all.blocks.cents == all.estimate.price_cents);
}

} // namespace three_soils_test
