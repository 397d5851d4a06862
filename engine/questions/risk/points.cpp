#include "engine/questions/risk/points.h"

#include <array>
#include <bit>
#include <random>

#include <boost/random/sobol.hpp>

namespace acre::engine {
namespace {

std::uint64_t gray(std::uint64_t i) {
    return i ^ (i >> 1);
}

// A random lower triangular matrix over bits, ones on its diagonal: each bit is mixed with those
// above it.
class LinearMap {
  public:
    explicit LinearMap(std::mt19937_64& random) {
        for (unsigned bit = 0; bit < 64; ++bit) {
            const std::uint64_t own = std::uint64_t{1} << bit;
            const std::uint64_t above = bit == 63 ? 0 : ~((own << 1) - 1);
            column_[bit] = own | (random() & above); // a row as yet
        }
        turn();
    }
    std::uint64_t apply(std::uint64_t x) const {
        std::uint64_t y = 0;
        for (; x != 0; x &= x - 1)
            y ^= column_[static_cast<unsigned>(std::countr_zero(x))];
        return y;
    }

  private:
    std::array<std::uint64_t, 64> column_{};

    // Rows become columns: squares of 32, then of 16 and so on change places across the diagonal.
    void turn() {
        std::uint64_t low = 0xFFFFFFFF;
        for (unsigned size = 32; size != 0; size >>= 1U, low ^= low << size)
            for (unsigned k = 0; k < 64; k = ((k | size) + 1) & ~size) {
                const std::uint64_t change = ((column_[k] >> size) ^ column_[k | size]) & low;
                column_[k] ^= change << size;
                column_[k | size] ^= change;
            }
    }
};

} // namespace

SobolSequence::SobolSequence(std::size_t dimensions)
    : dimensions_(dimensions),
      direction_(dimensions * point_index_bits) {
    // The point whose index has the Gray code of a single bit is the number of that bit.
    boost::random::sobol engine(dimensions);
    for (unsigned bit = 0; bit < point_index_bits; ++bit) {
        const std::uint64_t index = (std::uint64_t{2} << bit) - 1;
        engine.seed(index - 1); // the engine leaves out the point at zero
        for (std::size_t k = 0; k < dimensions; ++k)
            direction_[k * point_index_bits + bit] = engine();
    }
}

ScrambledPoints::ScrambledPoints(const SobolSequence& sequence, std::uint64_t seed,
                                 std::uint64_t scramble)
    : dimensions_(sequence.dimensions()),
      direction_(sequence.dimensions() * point_index_bits),
      shift_(sequence.dimensions()),
      base_(sequence.dimensions() * points_in_batch) {
    std::seed_seq words{static_cast<std::uint32_t>(seed), static_cast<std::uint32_t>(seed >> 32),
                        static_cast<std::uint32_t>(scramble),
                        static_cast<std::uint32_t>(scramble >> 32)};
    std::mt19937_64 random(words);
    for (std::size_t k = 0; k < dimensions_; ++k) {
        const LinearMap map(random);
        for (unsigned bit = 0; bit < point_index_bits; ++bit)
            direction_[bit * dimensions_ + k] = map.apply(sequence.direction(k, bit));
        shift_[k] = random();
        std::uint64_t* base = base_.data() + k * points_in_batch;
        base[0] = 0;
        for (std::size_t i = 1; i < points_in_batch; ++i)
            base[i] = base[i - 1] ^
                      direction_[static_cast<unsigned>(std::countr_zero(i)) * dimensions_ + k];
    }
}

void ScrambledPoints::offsets(std::uint64_t batch, std::span<std::uint64_t> offset) const {
    for (std::size_t k = 0; k < offset.size(); ++k)
        offset[k] = shift_[k];
    for (std::uint64_t bits = gray(batch * points_in_batch); bits != 0; bits &= bits - 1) {
        const std::uint64_t* direction =
            direction_.data() + static_cast<unsigned>(std::countr_zero(bits)) * dimensions_;
        for (std::size_t k = 0; k < offset.size(); ++k)
            offset[k] ^= direction[k];
    }
}

PointSet make_points(std::uint64_t seed, std::size_t dimensions) {
    const SobolSequence sequence(dimensions);
    PointSet points;
    points.reserve(scrambles);
    for (std::uint64_t k = 0; k < scrambles; ++k)
        points.emplace_back(sequence, seed, k);
    return points;
}

std::shared_ptr<const PointSet> KeptPoints::of(std::uint64_t seed, std::size_t dimensions) {
    if (dimensions > kept_dimensions)
        return std::make_shared<const PointSet>(make_points(seed, dimensions));
    const std::lock_guard lock(mutex_);
    if (!kept_ || seed_ != seed) {
        kept_ = std::make_shared<const PointSet>(make_points(seed, kept_dimensions));
        seed_ = seed;
    }
    return kept_;
}

} // namespace acre::engine
