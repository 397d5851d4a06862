// The lane reader: many jobs at once, in lanes over batches that stay in cache. Only what depends
// on the varied inputs is computed for each lane; the rest once, by the value reader.
#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <span>
#include <vector>

#include "engine/plan/plan.h"

namespace acre::engine {

inline constexpr std::size_t lanes_per_run = 512;

class LaneReader {
  public:
    // varied: inputs that differ from lane to lane, by index of Plan::inputs, each once. wanted:
    // slots to be given back. inputs: what the others are; empty: the job's own values.
    // widest_bits: of the vectors used, if this machine has them. settled: by slot, what it comes
    // to in every lane that will be read, or NaN where that is not known; empty: nowhere. The plan
    // must outlive the reader.
    LaneReader(const Plan& plan, std::span<const std::uint32_t> varied,
               std::span<const Slot> wanted, std::span<const double> inputs = {},
               std::uint32_t widest_bits = 512, std::span<const double> settled = {});
    ~LaneReader();
    LaneReader(LaneReader&&) noexcept;
    LaneReader& operator=(LaneReader&&) noexcept;

    // in[k]: `lanes` values of the k-th varied input, finite or NaN; out[k]: room for `lanes`
    // values of the k-th wanted slot, apart from all other memory named here. lanes at most
    // lanes_per_run. A lane without an answer is NaN; every answer has the bits that the value
    // reader gives. Safe to call from several threads, each with a scratch of its own.
    struct Scratch;
    struct ScratchDelete {
        void operator()(Scratch*) const;
    };
    using ScratchPtr = std::unique_ptr<Scratch, ScratchDelete>;
    ScratchPtr scratch() const;
    void run(std::size_t lanes, const double* const* in, double* const* out,
             Scratch& scratch) const;

    // What a run costs: instructions a lane goes through, and bytes that must stay in cache beside
    // inputs and outputs.
    struct Size {
        std::size_t instructions = 0, scratch_bytes = 0, lanes_at_once = 0;
        std::uint64_t effort = 0; // of a lane, in additions (engine/plan/effort.h)
        std::uint64_t of_a_run(std::size_t lanes) const {
            return effort * (lanes < 16 ? 16 : lanes) + instructions;
        }
        const char* vectors = "";
    };
    Size size() const;

  private:
    struct Impl;
    std::unique_ptr<Impl> impl_;
};

} // namespace acre::engine
