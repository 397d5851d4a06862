// The JSON of the program: keys in the order they are written here, numbers as full doubles. For
// the .cpp files of this folder only, so that few of them pay for the library.
#pragma once

#include <cmath>
#include <string>
#include <string_view>

#include <nlohmann/json.hpp>

#include "cli/shared/reply.h"
#include "lang/units/money.h"

namespace acre::cli {

using Json = nlohmann::ordered_json;

// A number that JSON can carry: what has no answer is null.
inline Json number(double value) {
    return std::isfinite(value) ? Json(value) : Json(nullptr);
}

// What `$` or another word for money in the document's units is: the firm's.
inline Json money_json(const lang::Currency& money = lang::shown_money()) {
    return {{"code", money.code},
            {"sign", money.sign},
            {"step", static_cast<double>(money.step) / 100}};
}

// A finished answer, for a reply.
inline Document answered(Json json) {
    return std::make_shared<const Json>(std::move(json));
}

// The document as text with a line end. Characters beyond ASCII are written as escapes, so no text
// of a stranger can steer a terminal that shows it.
inline std::string document(const Json& json) {
    return json.dump(2, ' ', true, Json::error_handler_t::replace) + '\n';
}

} // namespace acre::cli
