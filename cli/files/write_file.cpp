#include "cli/files/write_file.h"

#include <cerrno>
#include <cstdlib>
#include <cstring>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include "cli/console.h"
#include "cli/files/confined.h"

namespace acre::cli {

namespace {

// The file a path stands for, through links; a path that is not there yet stands for itself.
std::string target_of(const std::string& path) {
    char* resolved = ::realpath(path.c_str(), nullptr);
    std::string target = resolved != nullptr ? resolved : path;
    std::free(resolved);
    return target;
}

std::string flush_folder(const std::string& folder) {
    const int descriptor = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (descriptor < 0) {
        return std::strerror(errno);
    }
    // Some file systems cannot flush a folder and say EINVAL: there the rename is all there is.
    const bool done = ::fsync(descriptor) == 0 || errno == EINVAL;
    std::string reason = done ? "" : std::strerror(errno);
    ::close(descriptor);
    return reason;
}

} // namespace

std::string write_file(const std::string& path, std::string_view text) {
    const std::string target = target_of(path);
    struct stat about = {};
    const bool exists = ::stat(target.c_str(), &about) == 0;
    if (exists && !S_ISREG(about.st_mode)) {
        return S_ISDIR(about.st_mode) ? "it is a folder" : "it is not a plain file";
    }
    if (exists && ::access(target.c_str(), W_OK) != 0) {
        return std::strerror(errno); // a file that is protected stays, although its folder would let it be replaced
    }
    std::string beside = folder_of(target) + "/.acrewright-XXXXXX";
    const int descriptor = ::mkostemp(beside.data(), O_CLOEXEC);
    if (descriptor < 0) {
        return std::strerror(errno);
    }
    const mode_t mask = ::umask(0);
    ::umask(mask);
    const mode_t mode = exists ? about.st_mode & 07777U : 0666U & ~mask;
    std::string reason = write_all(descriptor, text);
    if (reason.empty() && (::fchmod(descriptor, mode) != 0 || ::fsync(descriptor) != 0)) {
        reason = std::strerror(errno);
    }
    if (::close(descriptor) != 0 && reason.empty()) {
        reason = std::strerror(errno);
    }
    if (reason.empty() && ::rename(beside.c_str(), target.c_str()) != 0) {
        reason = std::strerror(errno);
    }
    if (!reason.empty()) {
        ::unlink(beside.c_str());
        return reason;
    }
    return flush_folder(folder_of(target));
}

} // namespace acre::cli
