// A reply as one JSON document: an answer with its warnings, or a failure (schema
// acrewright.failure/1).
#pragma once

#include <string>

#include "cli/shared/reply.h"

namespace acre::cli {

// Needs a document or an error.
std::string reply_json(const Reply& reply);

} // namespace acre::cli
