// How the reading of one statement ends early: thrown inside the reader of a statement and caught
// at its end, never seen outside.
#pragma once

#include "lang/diag/diagnostic.h"

namespace acre::lang {

struct SyntaxError {
    Diagnostic diagnostic;
};

} // namespace acre::lang
