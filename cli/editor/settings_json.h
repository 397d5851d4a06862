// What an editor says of its folders and settings, and what it is asked to look at.
#pragma once

#include "cli/editor/parts_json.h"
#include "cli/editor/workspace.h"

namespace acre::cli {

// Of `initialize`: the folders that are open.
void take_folders(EditorSettings& settings, const Json& parameters);
// {"added": […], "removed": […]}
void change_folders(EditorSettings& settings, const Json& event);
// {"job": "jobs/first.job", "models": "models"}: a path from the root, or a full one.
void take_settings(EditorSettings& settings, const Json& said);

// A registration: an editor tells of files that others write, or take away.
Json watched_files();

} // namespace acre::cli
