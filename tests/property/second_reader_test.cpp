// The reader of tests/fuzz/second, which has units, fractions and prices of its own, against the
// program: on random jobs in every unit, and on the examples.
#include <doctest/doctest.h>

#include <filesystem>
#include <fstream>
#include <iterator>

#include "cli/shared/files/file_loader.h"
#include "engine/driver.h"
#include "tests/fuzz/second/hold.h"
#include "tests/property/random_measures.h"
#include "tests/support/memory_loader.h"

namespace second_reader_test {

using namespace acre;

namespace {

struct Sum {
    std::size_t jobs = 0, lines = 0, unknown = 0, prices = 0;
    void add(const fuzz::second::Held& held) {
        jobs += held.lines > 0 ? 1 : 0;
        lines += held.lines;
        unknown += held.unknown;
        prices += held.prices;
    }
};

} // namespace

TEST_CASE("random jobs in every unit come to the values and cents of exact fractions") {
    Sum sum;
    for (std::uint64_t seed = 1; seed <= 150; ++seed) {
        tests::RandomMeasures maker{tests::Dice(seed)};
        const std::string model = maker.model();
        tests::MemoryLoader loader({{"m.rate", model}, {"s.season", maker.season()}});
        lang::Request request;
        request.name = "f.job";
        request.text = maker.job();
        if (const auto made = engine::make_job(request, loader))
            sum.add(fuzz::second::hold(**made, request, loader));
    }
    CHECK(sum.jobs > 140); // the rest have units that are larger than one can hold
    CHECK(sum.lines > 3'500);
    CHECK(sum.unknown < sum.lines / 3);
    CHECK(sum.prices > 60);
}

TEST_CASE("so do the examples, as far as it reads them") {
    Sum sum;
    for (const auto& entry :
         std::filesystem::recursive_directory_iterator(ACREWRIGHT_ROOT "/examples")) {
        if (entry.path().extension() != ".job")
            continue;
        std::ifstream in(entry.path(), std::ios::binary);
        lang::Request request;
        request.name = entry.path().string();
        request.text = {std::istreambuf_iterator<char>(in), {}};
        request.field_sets = ""; // not laid out: both read what the job says itself
        cli::FileLoader loader(ACREWRIGHT_ROOT "/models");
        if (const auto made = engine::make_job(request, loader))
            sum.add(fuzz::second::hold(**made, request, loader));
    }
    MESSAGE(sum.jobs << " jobs, " << sum.lines << " lines, " << sum.unknown << " not known, "
                     << sum.prices << " prices");
    CHECK(sum.jobs > 15);
    CHECK(sum.lines > 4'000);
    CHECK(sum.prices > 8);
}

} // namespace second_reader_test
