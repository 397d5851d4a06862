// What must hold of texts and of jobs, whatever they say. Shared by the targets.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>

#include "cli/shared/reply.h"
#include "engine/driver.h"
#include "lang/diag/diagnostic.h"
#include "lang/loader.h"
#include "lang/source/source_map.h"

namespace acre::fuzz {

// Every span lies in its text, and the rendering can be shown on a terminal and read by other
// programs.
void hold_diagnostics(const lang::Diagnostics& diagnostics, const lang::SourceMap& sources);

// A text can be read, or it has errors; then its tidy form means the same and is its own tidy form.
// True: it can be read.
bool hold_syntax(std::string_view text, lang::FileKind kind);

// By the first word of the text: what it is.
lang::FileKind kind_of(std::string_view text);

// JSON of this program: it can be read, and is ASCII.
void hold_json(std::string_view text);
void hold_json(const cli::Document& document);

// What a job is looked at for; its values are looked at always.
struct Looks {
    bool second = true, pages = true, record = true;
};

// Compiles, evaluates, judges, shows and records a job, and checks what must hold on the way. A job
// without a price is given back too.
lang::Outcome<engine::Job> hold_job(const lang::Request& request, lang::Loader& loader,
                                    Looks looks = {});

} // namespace acre::fuzz
