#include "cli/console.h"

#include <cerrno>
#include <cstdlib>
#include <cstring>

#include <poll.h>
#include <unistd.h>

namespace acre::cli {

bool wants_color(int descriptor) {
    const char* no_color = std::getenv("NO_COLOR");
    const char* terminal = std::getenv("TERM");
    const bool plain = (no_color != nullptr && *no_color != '\0') || terminal == nullptr || std::string_view(terminal) == "dumb";
    return !plain && ::isatty(descriptor) == 1;
}

std::string write_all(int descriptor, std::string_view text) {
    while (!text.empty()) {
        const auto written = ::write(descriptor, text.data(), text.size());
        if (written < 0) {
            if (errno == EINTR) {
                continue;
            }
            // A pipe that somebody else made not to wait: wait here.
            struct pollfd ready = {descriptor, POLLOUT, 0};
            if (errno == EAGAIN && (::poll(&ready, 1, -1) > 0 || errno == EINTR)) {
                continue;
            }
            return std::strerror(errno);
        }
        if (written == 0) {
            return "nothing could be written";
        }
        text.remove_prefix(static_cast<std::size_t>(written));
    }
    return {};
}

} // namespace acre::cli
