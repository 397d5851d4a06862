// Who set a given, as a record calls it.
#pragma once

#include <string_view>

#include "lang/check/sheet.h"

namespace acre::engine {

std::string_view name_of(lang::Layer layer); // "command line"

} // namespace acre::engine
