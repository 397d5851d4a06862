#include "engine/plan/not_negative.h"

#include "lang/units/clock.h"

namespace acre::engine {

using lang::none;

namespace {

bool is_angle(lang::Dim dim) {
    dim.exponent[lang::Angle] = 0;
    return dim.is_plain();
}

// What a price leaves, which may be a loss; and overhead, whose share is warned of below zero.
bool is_left_over(const lang::Sheet& sheet, lang::LineId id) {
    return id == sheet.profit_total || id == sheet.profit_share || id == sheet.overhead_total ||
           id == sheet.contribution_total || id == sheet.contribution_share;
}

bool has_a_sign(const lang::Sheet& sheet, lang::LineId id) {
    const lang::Line& line = sheet.lines[id];
    if (line.type.kind != lang::Type::Kind::Number || line.may_be_negative ||
        is_left_over(sheet, id))
        return true;
    if (line.given != none && sheet.givens[line.given].within_low != none)
        return true;
    if (line.role == lang::Role::EventCount)
        return false;
    if (line.unit_text == lang::clock_unit)
        return true; // the day before
    return is_angle(line.type.unit.dim) && line.unit_text != "%";
}

} // namespace

std::vector<char> lines_not_negative(const lang::Sheet& sheet) {
    std::vector<char> out(sheet.lines.size(), 0);
    if (!lang::rules_of(sheet.notation).lines_are_not_negative)
        return out;
    for (lang::LineId line = 0; line < sheet.lines.size(); ++line)
        out[line] = has_a_sign(sheet, line) ? 0 : 1;
    return out;
}

} // namespace acre::engine
