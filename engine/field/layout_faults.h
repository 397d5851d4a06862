// Why a field cannot be laid out, each as a diagnostic that points nowhere.
#pragma once

#include "engine/field/layout.h"
#include "lang/diag/diagnostic.h"

namespace acre::engine {

lang::Diagnostic bad_request(const LayoutRequest& request);    // B910
lang::Diagnostic nothing_left(const LayoutRequest& request);   // B909
lang::Diagnostic no_pull_fits(const LayoutRequest& request);   // B909
lang::Diagnostic too_many_pulls(const LayoutRequest& request); // B910
lang::Diagnostic too_ragged();                                 // B910
lang::Diagnostic too_much_to_search();                         // B910

} // namespace acre::engine
