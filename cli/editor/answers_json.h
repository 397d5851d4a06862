// The answers to the requests of an editor, each a function of the workspace and the request's
// parameters. A parameter of another shape throws what the JSON library throws; a text that is not
// open gives null.
#pragma once

#include <functional>
#include <string_view>

#include "cli/editor/parts_json.h"

namespace acre::cli {

struct Refused { // a request that was understood and cannot be done
    std::string why;
};
using Answer = std::function<Json(Workspace& workspace, const Json& parameters)>;

// Null: no such request. Throws Refused.
const Answer* answer_to(std::string_view method);

// What the server can do, for `initialize`.
Json capabilities();

} // namespace acre::cli
