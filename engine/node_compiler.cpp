#include "engine/node_compiler.h"

#include <algorithm>

#include "engine/native.h"

namespace acre::engine {

using lang::NodeId;
using lang::none;
using lang::Op;

namespace {

Code code_of(Op op) {
    switch (op) {
    case Op::Negate:
        return Code::Negate;
    case Op::Not:
        return Code::Not;
    case Op::Add:
        return Code::Add;
    case Op::Subtract:
        return Code::Subtract;
    case Op::Multiply:
        return Code::Multiply;
    case Op::Divide:
        return Code::Divide;
    case Op::Less:
        return Code::Less;
    case Op::LessEqual:
        return Code::LessEqual;
    case Op::Greater:
        return Code::Greater;
    case Op::GreaterEqual:
        return Code::GreaterEqual;
    case Op::Equal:
        return Code::Equal;
    case Op::NotEqual:
        return Code::NotEqual;
    case Op::And:
        return Code::And;
    case Op::Or:
        return Code::Or;
    case Op::When:
        return Code::Select;
    case Op::Min:
    case Op::Least:
        return Code::Min;
    case Op::Max:
    case Op::Most:
        return Code::Max;
    case Op::Abs:
        return Code::Abs;
    case Op::Sqrt:
        return Code::Sqrt;
    case Op::Exp:
        return Code::Exp;
    case Op::Log:
        return Code::Log;
    case Op::Sin:
        return Code::Sin;
    case Op::Cos:
        return Code::Cos;
    case Op::Tan:
        return Code::Tan;
    case Op::Atan:
        return Code::Atan;
    case Op::Ceil:
        return Code::Ceil;
    case Op::Floor:
        return Code::Floor;
    case Op::Round:
        return Code::Round;
    default:
        return Code::Add; // Sum
    }
}

} // namespace

NodeCompiler::NodeCompiler(const lang::Sheet& sheet, PlanBuilder& builder, Origins& origins, std::vector<Slot>& line_slots)
    : sheet_(sheet),
      builder_(builder),
      origins_(origins),
      line_slots_(line_slots) {}

Slot NodeCompiler::line(lang::LineId line) {
    if (line_slots_[line] != no_slot)
        return line_slots_[line];
    enter_line(none, line);
    run();
    return pop();
}

Slot NodeCompiler::node(NodeId node) {
    push(Do::Enter, node);
    run();
    return pop();
}

void NodeCompiler::note(NodeId node, lang::LineId line) {
    origins_.node.resize(builder_.plan().size(), node);
    origins_.outer_node.resize(builder_.plan().size(), outer_ == none ? node : outer_);
    origins_.line.resize(builder_.plan().size(), line);
}

void NodeCompiler::run() {
    while (!tasks_.empty()) {
        if (stopped()) {
            tasks_.clear();
            frames_.clear();
            lines_.clear();
            outer_ = none;
            values_.assign(1, 0);
            return;
        }
        const Task task = tasks_.back();
        tasks_.pop_back();
        switch (task.what) {
        case Do::Enter:
            enter(task.node);
            break;
        case Do::Emit:
            emit(task.node);
            break;
        case Do::BeginCall:
            begin_call(task.node);
            break;
        case Do::FinishCall:
            finish_call(task.node, task.index);
            break;
        case Do::FinishLine:
            lines_.pop_back();
            line_slots_[task.index] = values_.back();
            if (task.node != none)
                finish(task.node, pop());
            break;
        case Do::FinishLocal: {
            const Call& call = calls_[frames_.back()];
            call_slots_[call.first + sheet_.functions[call.function].parameters.size() + task.index] = values_.back();
            break;
        }
        case Do::Nothing:
            values_.push_back(no_slot);
            break;
        }
    }
}

void NodeCompiler::enter(NodeId id) {
    ++steps_;
    if (outside() && origins_.slot_of_node[id] != no_slot)
        return values_.push_back(origins_.slot_of_node[id]);
    const lang::Node& node = sheet_.nodes[id];
    switch (node.op) {
    case Op::Number:
        return finish(id, builder_.constant(node.number));
    case Op::Choice:
        return finish(id, builder_.constant(node.index));
    case Op::Missing:
        return finish(id, builder_.missing());
    case Op::Line:
        return enter_line(id, node.index);
    case Op::Parameter:
        return values_.push_back(call_slots_[calls_[frames_.back()].first + node.index]);
    case Op::Local: {
        const Call& call = calls_[frames_.back()];
        const lang::Function& function = sheet_.functions[call.function];
        const Slot known = call_slots_[call.first + function.parameters.size() + node.index];
        if (known != no_slot)
            return values_.push_back(known);
        push(Do::FinishLocal, id, node.index);
        return push(Do::Enter, function.locals[node.index].value);
    }
    default:
        break;
    }
    push(node.op == Op::Define ? Do::BeginCall : Do::Emit, id);
    for (std::uint32_t i = node.arg_count; i-- > 0;)
        push(Do::Enter, sheet_.args[node.first_arg + i]);
    for (const NodeId child : {node.c, node.b, node.a}) {
        if (child != none)
            push(Do::Enter, child);
    }
}

void NodeCompiler::enter_line(NodeId id, lang::LineId index) {
    if (line_slots_[index] != no_slot)
        return id == none ? values_.push_back(line_slots_[index]) : finish(id, line_slots_[index]);
    const lang::Line& line = sheet_.lines[index];
    if (line.value != none) {
        lines_.push_back(index);
        push(Do::FinishLine, id, index);
        return push(Do::Enter, line.value);
    }
    line_slots_[index] = builder_.missing();
    origins_.unset.push_back({line_slots_[index], index});
    if (id == none)
        return values_.push_back(line_slots_[index]);
    finish(id, line_slots_[index]);
}

void NodeCompiler::emit(NodeId id) {
    const lang::Node& node = sheet_.nodes[id];
    std::size_t count = node.arg_count;
    for (const NodeId child : {node.a, node.b, node.c})
        count += child != none ? 1 : 0;
    const Slot* in = values_.data() + (values_.size() - count);
    Slot out = no_slot;
    switch (node.op) {
    case Op::Power:
        out = builder_.power(in[0], in[1]);
        break;
    case Op::Ceil:
    case Op::Floor:
    case Op::Round:
        out = count == 2 ? builder_.to_steps(code_of(node.op), in[0], in[1]) : builder_.emit(code_of(node.op), in[0]);
        break;
    case Op::Table:
        out = builder_.table(node.index, in[0]);
        break;
    case Op::Convert:
        out = builder_.emit(node.conversion.divide ? Code::Divide : Code::Multiply, in[0], builder_.constant(node.conversion.factor));
        break;
    case Op::Min:
    case Op::Max:
    case Op::Sum:
    case Op::Most:
    case Op::Least:
        out = fold_args(node.op, in, count);
        break;
    default:
        out = builder_.emit(code_of(node.op), in[0], count > 1 ? in[1] : 0, count > 2 ? in[2] : 0);
    }
    values_.resize(values_.size() - count);
    finish(id, out);
}

Slot NodeCompiler::fold_args(Op op, const Slot* args, std::size_t count) {
    if (count == 0)
        return builder_.constant(0);
    Slot out = args[0];
    for (std::size_t i = 1; i < count; ++i)
        out = builder_.emit(code_of(op), out, args[i]);
    return out;
}

void NodeCompiler::begin_call(NodeId id) {
    const lang::Node& node = sheet_.nodes[id];
    const lang::Function& function = sheet_.functions[node.index];
    const std::size_t count = node.arg_count;
    const Call wanted{node.index, static_cast<std::uint32_t>(call_slots_.size()), no_slot};
    call_slots_.insert(call_slots_.end(), values_.end() - static_cast<std::ptrdiff_t>(count), values_.end());
    values_.resize(values_.size() - count);
    const std::uint32_t known = call_table_.find(call_hash(wanted), [&](std::uint32_t i) {
        return calls_[i].function == wanted.function &&
               std::equal(call_slots_.begin() + calls_[i].first, call_slots_.begin() + calls_[i].first + static_cast<std::ptrdiff_t>(count),
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
        for (std::size_t i = ranges.size(); i-- > 0;) {
            for (const NodeId bound : {ranges[i].high, ranges[i].low})
                push(bound == none ? Do::Nothing : Do::Enter, bound);
        }
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
    const Slot bare = function.native ? native(calls_[index].function, call_slots_.data() + calls_[index].first) : in[0];
    note(id, lines_.empty() ? none : lines_.back());
    calls_[index].result = limited(index, bare, in.data() + 1);
    note_tested(id, index, in.data() + 1 + 2 * function.limits.size());
    call_table_.add(call_hash(calls_[index]), index, [&](std::uint32_t i) { return call_hash(calls_[i]); });
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
            const Slot kept = builder_.emit(lower ? Code::GreaterEqual : Code::LessEqual, value, bound);
            const Slot guard = builder_.emit(Code::Guard, kept, result);
            if (guard != result)
                origins_.limits.push_back({guard, value, bound, call.function, limit.parameter, lower});
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
        const bool inside = known(value) && known(low) && known(high) && (low == no_slot || builder_.value(value) >= builder_.value(low)) &&
                            (high == no_slot || builder_.value(value) <= builder_.value(high));
        if (inside)
            continue;
        builder_.plan().tested.push_back({value, low, high, call.result, call.function, range.parameter, outer_ == none ? id : outer_});
    }
}

Slot NodeCompiler::native(std::uint32_t index, const Slot* args) {
    const lang::Function& function = sheet_.functions[index];
    const auto found = find_native(function.name);
    if (!found || native_functions()[*found].arity != function.parameters.size()) {
        if (std::find(unknown_natives_.begin(), unknown_natives_.end(), index) == unknown_natives_.end())
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
        {id, call.function, {args, locals}, {locals, locals + static_cast<std::ptrdiff_t>(function.locals.size())}, call.result});
}

void NodeCompiler::finish(NodeId id, Slot slot) {
    note(id, lines_.empty() ? none : lines_.back());
    if (outside())
        origins_.slot_of_node[id] = slot;
    values_.push_back(slot);
}

Slot NodeCompiler::pop() {
    const Slot slot = values_.back();
    values_.pop_back();
    return slot;
}

std::size_t NodeCompiler::call_hash(const Call& call) const {
    std::uint64_t hash = mix(0, call.function);
    for (std::size_t i = 0; i < sheet_.functions[call.function].parameters.size(); ++i)
        hash = mix(hash, call_slots_[call.first + i]);
    return hash;
}

} // namespace acre::engine
