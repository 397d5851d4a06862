// Schema acrewright.workbook/1.
#pragma once

#include <string>
#include <vector>

#include "cli/shared/reply.h"
#include "engine/workbook/changed_givens.h"
#include "engine/workbook/workbook.h"

namespace acre::cli {

Document workbook_json(const engine::Workbook& book, const std::string& file);
Document changes_json(const std::vector<engine::ChangedGiven>& changes);

} // namespace acre::cli
