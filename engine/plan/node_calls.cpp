// Calls of functions: written out where they are called, once for the same values, inside their
// limits.
#include <algorithm>

#include "engine/native/native.h"
#include "engine/plan/node_compiler.h"

namespace acre::engine {

using lang::NodeId;
using lang::none;

void NodeCompiler::begin_call(NodeId id) {
    const lang::Node& node = sheet_.nodes[id];
    const lang::Function& function = sheet_.functions[node.index];
    const std::size_t count = node.arg_count;
    const Call wanted{node.index, static_cast<std::uint32_t>(call_slots_.size()), no_slot};
    call_slots_.insert(call_slots_.end(), values_.end() - static_cast<std::ptrdiff_t>(count),
                       values_.end());
    values_.resize(values_.size() - count);
    const std::uint32_t known = call_table_.find(call_hash(wanted), [&](std::uint32_t i) {
        return calls_[i].function == wanted.function &&
               std::equal(call_slots_.begin() + calls_[i].first,
                          call_slots_.begin() + calls_[i].first +
                              static_cast<std::ptrdiff_t>(count),
                          call_slots_.begin() + wanted.first);
    });
    if (known != IndexTable::none) {
        call_slots_.resize(wanted.first);
        if (outside())
            record_call(id, known);
        return finish(id, calls_[known].result);
    }
    call_slots_.resize(call_slots_.size() + function.locals.size(), no_slot);
    const auto index = static_cast<std::uint32_t>(calls_.size());
    calls_.push_back(wanted);
    if (outside())
        outer_ = id;
    frames_.push_back(index);
    push(Do::FinishCall, id, index);
    const auto push_bounds = [&](const std::vector<lang::FunctionRange>& ranges) {
        for (std::size_t i = ranges.size(); i-- > 0;)
            for (const NodeId bound : {ranges[i].high, ranges[i].low})
                push(bound == none ? Do::Nothing : Do::Enter, bound);
    };
    push_bounds(function.tested);
    push_bounds(function.limits);
    push(function.native || function.value == none ? Do::Nothing : Do::Enter, function.value);
}

// The values below: the result, the ends of each limit, the ends of each tested range.
void NodeCompiler::finish_call(NodeId id, std::uint32_t index) {
    const lang::Function& function = sheet_.functions[calls_[index].function];
    const std::size_t count = 1 + 2 * (function.limits.size() + function.tested.size());
    const std::vector<Slot> in(values_.end() - static_cast<std::ptrdiff_t>(count), values_.end());
    values_.resize(values_.size() - count);
    const Slot bare = function.native
                          ? native(calls_[index].function, call_slots_.data() + calls_[index].first)
                          : in[0];
    note(id, lines_.empty() ? none : lines_.back());
    calls_[index].result = limited(index, bare, in.data() + 1);
    note_tested(id, index, in.data() + 1 + 2 * function.limits.size());
    call_table_.add(call_hash(calls_[index]), index,
                    [&](std::uint32_t i) { return call_hash(calls_[i]); });
    frames_.pop_back();
    if (outside())
        record_call(id, index);
    finish(id, calls_[index].result);
    if (outside())
        outer_ = none;
}

Slot NodeCompiler::limited(std::uint32_t index, Slot result, const Slot* bounds) {
    const Call& call = calls_[index];
    for (const lang::FunctionRange& limit : sheet_.functions[call.function].limits) {
        const Slot value = call_slots_[call.first + limit.parameter];
        for (const bool lower : {true, false}) {
            const Slot bound = *bounds++;
            if (bound == no_slot)
                continue;
            const Slot kept =
                builder_.emit(lower ? OpCode::GreaterEqual : OpCode::LessEqual, value, bound);
            const Slot guard = builder_.emit(OpCode::Guard, kept, result);
            if (guard != result)
                origins_.limits.push_back(
                    {guard, value, bound, call.function, limit.parameter, lower});
            result = guard;
        }
    }
    return result;
}

void NodeCompiler::note_tested(NodeId id, std::uint32_t index, const Slot* bounds) {
    const Call& call = calls_[index];
    for (const lang::FunctionRange& range : sheet_.functions[call.function].tested) {
        const Slot value = call_slots_[call.first + range.parameter];
        const Slot low = *bounds++;
        const Slot high = *bounds++;
        const auto known = [&](Slot slot) { return slot == no_slot || builder_.is_constant(slot); };
        const bool inside = known(value) && known(low) && known(high) &&
                            (low == no_slot || builder_.value(value) >= builder_.value(low)) &&
                            (high == no_slot || builder_.value(value) <= builder_.value(high));
        if (inside)
            continue;
        builder_.plan().tested.push_back({value, low, high, call.result, call.function,
                                          range.parameter, outer_ == none ? id : outer_});
    }
}

Slot NodeCompiler::native(std::uint32_t index, const Slot* args) {
    const lang::Function& function = sheet_.functions[index];
    const auto columns = static_cast<std::uint32_t>(function.columns.size());
    const auto count = static_cast<std::uint32_t>(function.parameters.size());
    const auto found = find_native(function.name, count - columns * function.rows, columns);
    if (!found || function.rows > native_functions()[*found].most_rows) {
        if (std::find(unknown_natives_.begin(), unknown_natives_.end(), index) ==
            unknown_natives_.end())
            unknown_natives_.push_back(index);
        return builder_.missing();
    }
    return builder_.native(*found, {args, function.parameters.size()});
}

void NodeCompiler::record_call(NodeId id, std::uint32_t index) {
    const Call& call = calls_[index];
    const lang::Function& function = sheet_.functions[call.function];
    const auto args = call_slots_.begin() + call.first;
    const auto locals = args + static_cast<std::ptrdiff_t>(function.parameters.size());
    origins_.inlined.push_back(
        {id,
         call.function,
         {args, locals},
         {locals, locals + static_cast<std::ptrdiff_t>(function.locals.size())},
         call.result});
}

std::size_t NodeCompiler::call_hash(const Call& call) const {
    std::uint64_t hash = mix(0, call.function);
    for (std::size_t i = 0; i < sheet_.functions[call.function].parameters.size(); ++i)
        hash = mix(hash, call_slots_[call.first + i]);
    return hash;
}

} // namespace acre::engine
