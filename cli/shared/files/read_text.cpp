#include "cli/shared/files/read_text.h"

#include <cerrno>
#include <cstring>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include "lang/diag/safe_text.h"
#include "lang/source/utf8.h"

namespace acre::cli {

namespace {

using lang::Code;

lang::Diagnostic failed(Code code, const std::string& path, std::string detail) {
    const std::string name = "`" + path + "`";
    std::string title = name + " cannot be read";
    if (code == Code::F701)
        title = "there is no file " + name;
    else if (code == Code::F703)
        title = name + " is not UTF-8 text";
    else if (code == Code::F704)
        title = name + " is empty";
    else if (code == Code::S118)
        title = name + " is larger than the limit";
    lang::Diagnostic diagnostic = lang::placeless(code, std::move(title));
    if (code != Code::F701 && code != Code::F704)
        diagnostic.notes.push_back(std::move(detail));
    return diagnostic;
}

std::string limit_text(std::size_t limit) {
    return "the limit is " + (limit >= 1U << 20U ? std::to_string(limit >> 20U) + " MiB"
                                                 : std::to_string(limit >> 10U) + " KiB");
}

// Where a byte is, as people count: "line 3, byte 7".
std::string place_of(std::string_view text, std::size_t at) {
    std::size_t line = 1;
    std::size_t begin = 0;
    for (std::size_t i = 0; i < at; ++i) {
        if (text[i] == '\n') {
            ++line;
            begin = i + 1;
        }
    }
    return "line " + std::to_string(line) + ", byte " + std::to_string(at - begin + 1);
}

lang::Outcome<std::string> checked_text(std::string text, const std::string& path) {
    if (text.starts_with("\xef\xbb\xbf"))
        text.erase(0, 3);
    if (text.empty())
        return failed(Code::F704, path, "the file has no text");
    if (text.starts_with("\xff\xfe") || text.starts_with("\xfe\xff"))
        return failed(Code::F703, path, "it looks like UTF-16: save it as UTF-8");
    for (std::size_t at = 0; at < text.size();) {
        const auto byte = static_cast<unsigned char>(text[at]);
        if (byte == 0) {
            return failed(Code::F703, path,
                          "there is a zero byte at " + place_of(text, at) + ", so it is not text");
        }
        if (byte < 0x80) {
            ++at;
            continue;
        }
        const std::size_t begin = at;
        if (lang::next_character(text, at) == lang::not_utf8) {
            return failed(Code::F703, path,
                          "byte " + lang::terminal_text(std::string_view(text).substr(begin, 1)) +
                              " at " + place_of(text, begin));
        }
    }
    return text;
}

lang::Outcome<std::string> read_descriptor(int descriptor, std::size_t expected, std::size_t limit,
                                           const std::string& path) {
    std::string text;
    std::size_t room = expected + 1;
    for (;;) {
        const std::size_t have = text.size();
        text.resize(have + room);
        const auto got = ::read(descriptor, text.data() + have, room);
        if (got < 0 && errno == EINTR) {
            text.resize(have);
            continue;
        }
        if (got < 0)
            return failed(Code::F702, path, std::strerror(errno));
        text.resize(have + static_cast<std::size_t>(got));
        if (text.size() > limit)
            return failed(Code::S118, path, limit_text(limit));
        // A plain file that gives less than there was room for is at its end; a pipe may only be
        // slow.
        if (got == 0 || (expected > 0 && static_cast<std::size_t>(got) < room))
            return checked_text(std::move(text), path);
        room = 1U << 16U;
    }
}

} // namespace

lang::Outcome<std::string> read_text(const std::string& path, bool pipes, std::size_t limit) {
    // A file that a model refers to is opened without waiting: a pipe that nobody writes to must
    // not hang the program.
    const Descriptor file(
        ::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NOCTTY | (pipes ? 0 : O_NONBLOCK)));
    if (!file) {
        const bool missing = errno == ENOENT || errno == ENOTDIR;
        return failed(missing ? Code::F701 : Code::F702, path, std::strerror(errno));
    }
    return read_open(file, path, pipes, limit);
}

lang::Outcome<std::string> read_open(const Descriptor& file, const std::string& path, bool pipes,
                                     std::size_t limit) {
    struct stat about = {};
    if (::fstat(file.value(), &about) != 0)
        return failed(Code::F702, path, std::strerror(errno));
    if (S_ISDIR(about.st_mode))
        return failed(Code::F702, path, "it is a folder");
    if (!S_ISREG(about.st_mode) && !(pipes && (S_ISFIFO(about.st_mode) || S_ISCHR(about.st_mode))))
        return failed(Code::F702, path, "it is not a regular file");
    if (S_ISREG(about.st_mode) && static_cast<std::uint64_t>(about.st_size) > limit)
        return failed(Code::S118, path, limit_text(limit));
    return read_descriptor(file.value(),
                           S_ISREG(about.st_mode) ? static_cast<std::size_t>(about.st_size) : 0,
                           limit, path);
}

lang::Outcome<std::string> read_standard_input(std::size_t limit) {
    return read_descriptor(STDIN_FILENO, 0, limit, "standard input");
}

} // namespace acre::cli
