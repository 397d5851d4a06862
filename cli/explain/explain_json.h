// Schema acrewright.explain/1: the tree of how a line came about. Field by field in cli/README.md.
#pragma once

#include <optional>

#include "cli/shared/reply.h"
#include "engine/questions/changed.h"
#include "engine/questions/explain.h"

namespace acre::cli {

// `changed`: the line by `--set`.
Document explain_json(const engine::ExplainStep& step,
                      const std::optional<engine::ChangedFigure>& changed = {});

} // namespace acre::cli
