// The questions that a page asks, each by the name of the command that answers it elsewhere.
#pragma once

#include <string_view>

#include "cli/module/session.h"
#include "cli/shared/reply.h"

namespace acre::cli {

// `question`: {"ask": "price", "job": 0, "option": "", "season": "", "sets": [["depth", "5 ft"]],
// …}; what else each takes stands beside it in questions_json.cpp.
Reply reply_to(Session& session, std::string_view question);

} // namespace acre::cli
