// What the commands that ask "what if" share: opening a job that has an answer, refusing, and
// naming lines and values.
#pragma once

#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "cli/shared/console.h"
#include "cli/shared/legacy.h"
#include "engine/questions/what_if/refusal.h"
#include "lang/check/sheet.h"

namespace acre::cli {

// Opens a job and judges what these lines rest on; none: the price, or every line of a model
// without one. Empty when there is no answer: `console.err` says why and `code` is the exit code.
engine::Job open_judged(const JobArguments& arguments, std::span<const std::string> lines,
                        Console& console, int& code, std::vector<std::string>* files = nullptr);

// "acrewright: WHAT" with its helps. The exit code of a command line at fault.
int refuse(const engine::Refusal& refusal, Console& console);
int refuse(std::string_view what, Console& console);

// "80 ac", "$412.80/ac", "tree_rows", "no answer"; safe to show.
std::string shown(const lang::Sheet& sheet, lang::LineId line, double value);
// A difference, with its sign: "+$4.20/ac", "-3 ft", "no change".
std::string shown_change(double change, std::string_view unit);
// What people call a line: its label; its name if it has none or where names are asked for. Safe to
// show.
std::string called(const lang::Sheet& sheet, lang::LineId line, bool names);

// "the price all in", "the price", or what the line is called.
std::string called_asked(const lang::Sheet& sheet, lang::LineId line, bool names);

// As the first word of a heading.
std::string capital(std::string text);

// The title of the job, or of its model. As written: make it safe where it goes.
std::string title_of(const lang::Sheet& sheet);

} // namespace acre::cli
