// The block reader: many jobs at once, in lanes over blocks that stay in cache. Only what depends on the varied inputs is
// computed for each lane; the rest once, by the value reader.
#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <span>
#include <vector>

#include "engine/plan.h"

namespace acre::engine {

inline constexpr std::size_t block_lanes = 512;

class BlockReader {
  public:
    // varied: inputs that differ from lane to lane, by index of Plan::inputs. wanted: slots to be given back.
    BlockReader(const Plan& plan, std::span<const std::uint32_t> varied, std::span<const Slot> wanted, std::span<const double> inputs = {});
    ~BlockReader();
    BlockReader(BlockReader&&) noexcept;

    // in[k]: `lanes` values of the k-th varied input; out[k]: room for `lanes` values of the k-th wanted slot.
    // lanes at most block_lanes. A lane without an answer is NaN. Safe to call from several threads, each with a scratch of
    // its own.
    struct Scratch;
    struct ScratchDelete {
        void operator()(Scratch*) const;
    };
    using ScratchPtr = std::unique_ptr<Scratch, ScratchDelete>;
    ScratchPtr scratch() const;
    void run(std::size_t lanes, const double* const* in, double* const* out, Scratch& scratch) const;

  private:
    struct Impl;
    std::unique_ptr<Impl> impl_;
};

} // namespace acre::engine
