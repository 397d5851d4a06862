#include "cli/shared/typed_lines.h"

#include <cerrno>
#include <cstdlib>
#include <utility>

#include <dlfcn.h>
#include <unistd.h>

#include "cli/shared/console.h"

namespace acre::cli {

TypedLines::TypedLines() : person_(::isatty(STDIN_FILENO) == 1 && ::isatty(1) == 1) {
    if (!person_)
        return;
    if (void* library = ::dlopen("libedit.so.2", RTLD_NOW | RTLD_LOCAL)) {
        read_line_ = reinterpret_cast<ReadLine>(::dlsym(library, "readline"));
        add_history_ = reinterpret_cast<AddHistory>(::dlsym(library, "add_history"));
    }
}

std::optional<std::string> TypedLines::edited(const std::string& prompt) {
    char* typed = read_line_(prompt.c_str());
    if (typed == nullptr)
        return std::nullopt;
    std::string line = typed;
    std::free(typed);
    if (!line.empty() && add_history_ != nullptr)
        add_history_(line.c_str());
    return line;
}

std::optional<std::string> TypedLines::next(const std::string& prompt) {
    if (person_ && read_line_ != nullptr)
        return edited(prompt);
    if (person_)
        say_over(prompt);
    for (;;) {
        if (const std::size_t end = buffer_.find('\n'); end != std::string::npos) {
            std::string line = buffer_.substr(0, end);
            buffer_.erase(0, end + 1);
            if (line.ends_with('\r'))
                line.pop_back();
            return line;
        }
        if (buffer_.size() > max_typed_bytes) {
            too_long_ = true;
            return std::nullopt;
        }
        if (ended_)
            return buffer_.empty() ? std::nullopt
                                   : std::optional(std::exchange(buffer_, std::string()));
        char bytes[4096];
        const auto count = ::read(STDIN_FILENO, bytes, sizeof bytes);
        if (count > 0)
            buffer_.append(bytes, static_cast<std::size_t>(count));
        else if (count == 0 || errno != EINTR)
            ended_ = true;
    }
}

} // namespace acre::cli
