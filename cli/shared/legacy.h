// How commands wrote for themselves before they replied. Goes with the last of them.
#pragma once

#include <string>
#include <vector>

#include "cli/shared/job.h"
#include "cli/shared/reply.h"

namespace acre::cli {

enum class Warnings { OfThePrice, All };
int report(const lang::Said& said, Console& console, Warnings warnings = Warnings::OfThePrice);
int report(lang::Diagnostics& diagnostics, const lang::SourceMap& sources, Console& console,
           Warnings warnings = Warnings::OfThePrice);

// Null when there is no job: `console.err` says why and `code` is the exit code.
engine::Job open_job(const JobArguments& arguments, Console& console, int& code,
                     std::vector<std::string>* files = nullptr);
bool read_named_file(const std::string& path, std::string& text, lang::Diagnostics& failed,
                     std::size_t limit = lang::max_file_bytes);

} // namespace acre::cli
