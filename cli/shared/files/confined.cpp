#include "cli/shared/files/confined.h"

#include <cerrno>
#include <cstring>
#include <filesystem>
#include <system_error>
#include <utility>

#include <fcntl.h>

#include "lang/diag/safe_text.h"

namespace acre::cli {

namespace {

using lang::Code;

constexpr std::size_t longest_reference = 400;

} // namespace

bool is_confined(std::string_view reference) {
    if (reference.empty() || reference.size() > longest_reference)
        return false;
    for (std::size_t begin = 0; begin <= reference.size();) {
        const auto end = std::min(reference.find('/', begin), reference.size());
        const std::string_view part = reference.substr(begin, end - begin);
        if (part.empty() || part == "." || part == "..")
            return false;
        for (const char c : part)
            if (c == '\\' || static_cast<unsigned char>(c) < 0x20 || c == 0x7F)
                return false;
        begin = end + 1;
    }
    return true;
}

Folder::Folder(std::string path) : path_(std::move(path)), real_(real_path(path_)) {
    if (!real_.empty())
        folder_.take(
            again([&] { return ::open(real_.c_str(), O_PATH | O_DIRECTORY | O_CLOEXEC); }));
    if (!folder_)
        error_ = errno;
}

lang::Outcome<std::string> Folder::open(std::string_view reference, lang::ReferenceKind kind,
                                        Descriptor& file) const {
    if (!is_confined(reference))
        return lang::cannot_load(Code::F705, kind, reference,
                                 "a reference is a name, or names joined by `/`; it cannot start "
                                 "with `/` or hold `..` or `\\`");
    if (!folder_)
        return refused(error_, reference, kind);
    Descriptor inner;
    std::size_t begin = 0;
    for (std::size_t slash; (slash = reference.find('/', begin)) != std::string_view::npos;
         begin = slash + 1) {
        const std::string part(reference.substr(begin, slash - begin));
        inner.take(again([&] {
            return ::openat(inner ? inner.value() : folder_.value(), part.c_str(),
                            O_PATH | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
        }));
        if (!inner)
            return refused(errno, reference, kind);
    }
    const std::string name(reference.substr(begin));
    file.take(again([&] {
        return ::openat(inner ? inner.value() : folder_.value(), name.c_str(),
                        O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_NOCTTY | O_CLOEXEC);
    }));
    if (!file)
        return refused(errno, reference, kind);
    return joined(real_, reference);
}

lang::Diagnostic Folder::refused(int error, std::string_view reference,
                                 lang::ReferenceKind kind) const {
    const std::string path = joined(path_, reference);
    if (error == ELOOP || error == ENOTDIR) { // a link, unless it leads nowhere
        const std::string real = real_path(path);
        if (!real.empty() && real != joined(real_, reference))
            return lang::cannot_load(Code::F705, kind, reference,
                                     "`" + lang::terminal_text(path) +
                                         "` is a link or lies behind one: put the file itself "
                                         "there");
        error = errno;
    }
    const bool missing = error == ENOENT || error == ENOTDIR;
    return lang::cannot_load(missing ? Code::F701 : Code::F702, kind, reference,
                             missing ? path : std::string(std::strerror(error)));
}

std::string folder_of(std::string_view path) {
    const auto slash = path.rfind('/');
    return std::string(slash == std::string_view::npos ? "."
                       : slash == 0                    ? "/"
                                                       : path.substr(0, slash));
}

std::string folder_above(std::string_view folder) {
    if (folder == "/")
        return "/";
    if (folder == "." || folder.empty())
        return "..";
    if (folder == ".." || folder.ends_with("/..") || folder.ends_with("/."))
        return std::string(folder) + "/..";
    return folder_of(folder);
}

std::string joined(std::string_view folder, std::string_view name) {
    if (folder == "." || folder.empty())
        return std::string(name);
    return std::string(folder) + (folder.back() == '/' ? "" : "/") + std::string(name);
}

std::string real_path(const std::string& path) {
    std::error_code failed;
    std::string real = std::filesystem::canonical(path, failed).string();
    errno = failed.value();
    return real;
}

} // namespace acre::cli
