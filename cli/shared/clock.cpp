#include "cli/shared/clock.h"

#include <ctime>

#include <fmt/format.h>

namespace acre::cli {

std::string today() {
    const std::time_t now = std::time(nullptr);
    std::tm local{};
    localtime_r(&now, &local);
    return fmt::format("{:04}-{:02}-{:02}", local.tm_year + 1900, local.tm_mon + 1, local.tm_mday);
}

} // namespace acre::cli
