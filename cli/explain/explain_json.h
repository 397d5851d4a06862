// Schema acrewright.explain/1: the tree of how a line came about. Field by field in cli/README.md.
#pragma once

#include "cli/shared/reply.h"
#include "engine/questions/explain.h"

namespace acre::cli {

Document explain_json(const engine::ExplainStep& step);

} // namespace acre::cli
