#include "cli/shared/clock.h"

#include <charconv>
#include <cstdlib>
#include <ctime>
#include <string_view>

#include <fmt/format.h>

namespace acre::cli {
namespace {

std::time_t seconds_now() {
    if (const char* set = std::getenv("SOURCE_DATE_EPOCH")) {
        const std::string_view text = set;
        std::time_t seconds = 0;
        const auto [rest, error] = std::from_chars(text.data(), text.data() + text.size(), seconds);
        // Days are written with four digits of a year.
        if (error == std::errc() && rest == text.data() + text.size() && seconds >= 0 &&
            seconds < 253'402'300'800)
            return seconds;
    }
    return std::time(nullptr);
}

} // namespace

std::string today() {
    const std::time_t now = seconds_now();
    std::tm local{};
    localtime_r(&now, &local);
    return fmt::format("{:04}-{:02}-{:02}", local.tm_year + 1900, local.tm_mon + 1, local.tm_mday);
}

std::string time_now() {
    const std::time_t now = seconds_now();
    std::tm at{};
    gmtime_r(&now, &at);
    return fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}Z", at.tm_year + 1900, at.tm_mon + 1,
                       at.tm_mday, at.tm_hour, at.tm_min, at.tm_sec);
}

} // namespace acre::cli
