// Points that fill a cube evenly: Sobol's sequence from Boost.Random, scrambled by a random linear
// map and a digital shift (Matousek, "On the L2-discrepancy for anchored boxes", J. Complexity 14,
// 1998, from memory), so that every point is uniform, means of several scrambles are independent,
// and the points stay as even as they were.
#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <mutex>
#include <span>
#include <vector>

namespace acre::engine {

inline constexpr std::size_t points_in_batch = 512; // as many as the lane reader takes
inline constexpr unsigned scrambles =
    16; // independent repetitions of the points: their scatter is the error of the estimates
inline constexpr unsigned point_index_bits = 36; // the sequence is used up to 2^36 points

// The unscrambled sequence: one number a dimension for every bit of the index.
class SobolSequence {
  public:
    explicit SobolSequence(std::size_t dimensions); // at most max_point_dimensions
    std::size_t dimensions() const { return dimensions_; }
    std::uint64_t direction(std::size_t dimension, unsigned bit) const {
        return direction_[dimension * point_index_bits + bit];
    }

  private:
    std::size_t dimensions_;
    std::vector<std::uint64_t> direction_;
};
inline constexpr std::size_t max_point_dimensions = 3000;

// One scramble of it. Point i of dimension k is an integer of 64 bits, uniform over all of them.
class ScrambledPoints {
  public:
    ScrambledPoints(const SobolSequence& sequence, std::uint64_t seed, std::uint64_t scramble);

    // Point i of batch b is base(k)[i] ^ offset[k]: the sequence is linear in the bits of its
    // index.
    const std::uint64_t* base(std::size_t dimension) const {
        return base_.data() + dimension * points_in_batch;
    }
    // By dimension, of as many of the first ones as there is room for.
    void offsets(std::uint64_t batch, std::span<std::uint64_t> offset) const;

  private:
    std::size_t dimensions_;
    std::vector<std::uint64_t> direction_; // by bit, then dimension
    std::vector<std::uint64_t> shift_;
    std::vector<std::uint64_t> base_;
};

using PointSet = std::vector<ScrambledPoints>; // by scramble

// Points of one seed that many answers draw from: the first dimensions of more are those of fewer.
// To be asked by any number of threads.
class KeptPoints {
  public:
    // The scrambles of a seed, of that many dimensions or more.
    std::shared_ptr<const PointSet> of(std::uint64_t seed, std::size_t dimensions);

  private:
    std::mutex mutex_;
    std::uint64_t seed_ = 0;
    std::shared_ptr<const PointSet> kept_;
};
inline constexpr std::size_t kept_dimensions = 64; // 4.5 MB; more are made anew for each answer

PointSet make_points(std::uint64_t seed, std::size_t dimensions);

} // namespace acre::engine
