#include "engine/readers/lanes.h"

#include <algorithm>
#include <cstdlib>
#include <cstring>
#include <memory>
#include <new>

#include "engine/plan/effort.h"
#include "engine/plan/opcodes.h"
#include "engine/readers/lanes/instructions.h"
#include "engine/readers/lanes/kernels.h"
#include "engine/readers/value.h"

namespace acre::engine {
namespace {

using lanes::group;

// Rows of the scratch that are read and written again and again should leave room in the nearest
// cache for inputs and outputs.
constexpr std::size_t cache_for_rows = 20 * 1024;
constexpr std::size_t cache_line = 64; // of a cache, in bytes

std::size_t lanes_at_once(std::uint32_t rows) {
    std::size_t n = lanes_per_run;
    while (n > 64 && n * rows * sizeof(double) > cache_for_rows)
        n /= 2;
    return n;
}

struct Free {
    void operator()(double* p) const { ::operator delete[](p, std::align_val_t{cache_line}); }
};
using Buffer = std::unique_ptr<double[], Free>;

Buffer buffer(std::size_t count) {
    auto* p = static_cast<double*>(::operator new[](
        std::max<std::size_t>(count, 1) * sizeof(double), std::align_val_t{cache_line}));
    std::fill_n(p, count, 0.0);
    return Buffer(p);
}

std::uint64_t effort_of(std::uint16_t number) {
    const auto kernel = static_cast<lanes::Kernel>(number);
    if (kernel == lanes::Kernel::Native)
        return effort_of_native;
    if (kernel == lanes::Kernel::Lines || kernel == lanes::Kernel::Staircase)
        return effort_of_table;
    const bool function = number < op_traits.size() && op_traits[number].kind == OpKind::Function;
    return function || kernel == lanes::Kernel::PowerFixed ? effort_of_function : 1;
}

std::vector<double> values_of(const Plan& plan, std::span<const double> inputs) {
    return evaluate(plan, inputs).slot;
}

} // namespace

struct LaneReader::Impl {
    lanes::Instructions instructions;
    const lanes::KernelSet* kernels = nullptr;
    std::vector<lanes::KernelFunction> run; // of each instruction
    std::vector<lanes::PreparedTable> tables;
    Buffer invariants; // each one group long
    std::size_t chunk = lanes_per_run;
};

struct LaneReader::Scratch {
    Buffer rows;
    Buffer tail; // inputs and outputs of a last group that is not full
    std::vector<lanes::Row> row;
    std::vector<lanes::Remembered> remembered; // by Call::remembered
};

void LaneReader::ScratchDelete::operator()(Scratch* scratch) const {
    delete scratch;
}

LaneReader::LaneReader(const Plan& plan, std::span<const std::uint32_t> varied,
                       std::span<const Slot> wanted, std::span<const double> inputs,
                       std::uint32_t widest_bits, std::span<const double> settled)
    : impl_(std::make_unique<Impl>()) {
    const auto sets = lanes::kernel_sets();
    impl_->kernels = sets.back();
    for (const lanes::KernelSet* set : sets)
        if (set->bits <= widest_bits) {
            impl_->kernels = set;
            break;
        }
    std::vector<double> values = values_of(plan, inputs);
    std::vector<char> is_settled(settled.size(), 0);
    for (std::size_t slot = 0; slot < settled.size(); ++slot)
        if (settled[slot] == settled[slot]) {
            is_settled[slot] = 1;
            values[slot] = settled[slot];
        }
    impl_->instructions = lanes::instructions_of(plan, varied, wanted, values, is_settled,
                                                 impl_->kernels->chain_steps);
    for (const lanes::Instruction& instruction : impl_->instructions.list)
        impl_->run.push_back(impl_->kernels->run[instruction.kernel]);
    for (const PlanTable& table : plan.tables)
        impl_->tables.emplace_back(table);
    const auto& invariants = impl_->instructions.invariants;
    impl_->invariants = buffer(invariants.size() * group);
    for (std::size_t k = 0; k < invariants.size(); ++k)
        std::fill_n(impl_->invariants.get() + k * group, group, invariants[k]);
    impl_->chunk = lanes_at_once(impl_->instructions.rows);
}

LaneReader::~LaneReader() = default;
LaneReader::LaneReader(LaneReader&&) noexcept = default;
LaneReader& LaneReader::operator=(LaneReader&&) noexcept = default;

LaneReader::Size LaneReader::size() const {
    const lanes::Instructions& p = impl_->instructions;
    std::uint64_t effort = 1;
    for (const lanes::Instruction& instruction : p.list)
        effort += effort_of(instruction.kernel);
    const std::size_t bytes =
        (p.rows * impl_->chunk + p.invariants.size() * group) * sizeof(double);
    return {p.list.size(), bytes, impl_->chunk,
            bytes > bytes_near ? effort * effort_when_far : effort, impl_->kernels->name};
}

LaneReader::ScratchPtr LaneReader::scratch() const {
    const lanes::Instructions& p = impl_->instructions;
    ScratchPtr scratch(
        new Scratch{buffer(p.rows * impl_->chunk), buffer((p.varied + p.wanted) * group), {}, {}});
    scratch->row.resize(p.all_rows());
    for (std::size_t k = 0; k < p.rows; ++k)
        scratch->row[k].at = scratch->rows.get() + k * impl_->chunk;
    for (std::size_t k = 0; k < p.invariants.size(); ++k)
        scratch->row[p.first_invariant() + k] = {impl_->invariants.get() + k * group, 0};
    for (const std::size_t moving : p.remembered)
        scratch->remembered.emplace_back(moving);
    return scratch;
}

void LaneReader::run(std::size_t lanes, const double* const* in, double* const* out,
                     Scratch& scratch) const {
    const lanes::Instructions& p = impl_->instructions;
    lanes::Frame frame{
        scratch.row.data(), impl_->tables.data(), p.calls.data(), scratch.remembered.data(), 0, 0};
    const auto run_all = [&] {
        for (std::size_t k = 0; k < p.list.size(); ++k)
            impl_->run[k](p.list[k], frame);
    };
    const std::size_t full = lanes / group * group;
    for (std::size_t at = 0; at < full; at += impl_->chunk) {
        // Inputs are only read: the kernels take one kind of row.
        for (std::size_t k = 0; k < p.varied; ++k)
            scratch.row[p.first_varied() + k].at = const_cast<double*>(in[k]) + at;
        for (std::size_t k = 0; k < p.wanted; ++k)
            scratch.row[p.first_wanted() + k].at = out[k] + at;
        frame.first = at;
        frame.lanes = std::min(impl_->chunk, full - at);
        run_all();
    }
    const std::size_t rest = lanes - full;
    if (rest == 0)
        return;
    double* room = scratch.tail.get();
    for (std::size_t k = 0; k < p.varied; ++k, room += group) {
        std::copy_n(in[k] + full, rest, room);
        std::fill_n(room + rest, group - rest, in[k][full]); // spare lanes do what a real one does
        scratch.row[p.first_varied() + k].at = room;
    }
    for (std::size_t k = 0; k < p.wanted; ++k)
        scratch.row[p.first_wanted() + k].at = room + k * group;
    frame.first = full;
    frame.lanes = group;
    run_all();
    for (std::size_t k = 0; k < p.wanted; ++k)
        std::copy_n(room + k * group, rest, out[k] + full);
}

} // namespace acre::engine
