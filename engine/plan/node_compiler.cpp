#include "engine/plan/node_compiler.h"

namespace acre::engine {

using lang::NodeId;
using lang::none;
using lang::Op;

namespace {

OpCode code_of(Op op) {
    static constexpr OpCode codes[] = {
#define ACRE_PREFIX(op, sign, strength, units, folds) OpCode::folds,
#define ACRE_BINARY(op, sign, shown, strength, units, folds) OpCode::folds,
#define ACRE_FUNCTION(op, name, least, most, form, units, folds) OpCode::folds,
#include "lang/syntax/operations.def"
        OpCode::Select, // Op::When
    };
    return codes[static_cast<std::size_t>(op)];
}

} // namespace

NodeCompiler::NodeCompiler(const lang::Sheet& sheet, PlanBuilder& builder, Origins& origins,
                           std::vector<Slot>& line_slots)
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
            if (const auto factor = factor_.find(task.index); factor != factor_.end()) {
                values_.back() = builder_.emit(OpCode::Multiply, values_.back(), factor->second);
                note(sheet_.lines[task.index].value, task.index);
            }
            lines_.pop_back();
            line_slots_[task.index] = values_.back();
            if (task.node != none)
                finish(task.node, pop());
            break;
        case Do::FinishLocal: {
            const Call& call = calls_[frames_.back()];
            call_slots_[call.first + sheet_.functions[call.function].parameters.size() +
                        task.index] = values_.back();
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
    for (const NodeId child : {node.c, node.b, node.a})
        if (child != none)
            push(Do::Enter, child);
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
        out = count == 2 ? builder_.to_steps(code_of(node.op), in[0], in[1])
                         : builder_.emit(code_of(node.op), in[0]);
        break;
    case Op::Table:
        out = builder_.table(node.index, in[0]);
        break;
    case Op::Convert:
        out = builder_.emit(node.conversion.divide ? OpCode::Divide : OpCode::Multiply, in[0],
                            builder_.constant(node.conversion.factor));
        break;
    default:
        out = node.arg_count > 0 ? fold_args(node.op, in, count)
                                 : builder_.emit(code_of(node.op), in[0], count > 1 ? in[1] : 0,
                                                 count > 2 ? in[2] : 0);
    }
    values_.resize(values_.size() - count);
    finish(id, out);
}

Slot NodeCompiler::fold_args(Op op, const Slot* args, std::size_t count) {
    Slot out = args[0];
    for (std::size_t i = 1; i < count; ++i)
        out = builder_.emit(code_of(op), out, args[i]);
    return out;
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

} // namespace acre::engine
