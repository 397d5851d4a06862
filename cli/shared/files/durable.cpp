#include "cli/shared/files/durable.h"

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <ctime>

#include <dirent.h>
#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>

#include "cli/shared/console.h"
#include "cli/shared/files/confined.h"

namespace acre::cli {

namespace {

constexpr std::string_view beside_name = ".acrewright-";
constexpr std::size_t beside_length = beside_name.size() + 6;
constexpr std::time_t a_day = 86'400; // seconds

template <class Call> auto again(Call call) {
    auto result = call();
    while (result < 0 && errno == EINTR)
        result = call();
    return result;
}

std::string reason_if(bool failed) {
    return failed ? std::strerror(errno) : std::string();
}

void remove_file(const std::string& path) {
    again([&] { return ::unlink(path.c_str()); });
}

// The program may have been killed while it wrote; whatever still writes is younger than a day.
void remove_leftovers(const std::string& folder) {
    DIR* open = ::opendir(folder.c_str());
    if (open == nullptr)
        return;
    while (const dirent* entry = ::readdir(open)) {
        const std::string_view name = entry->d_name;
        if (name.size() != beside_length || !name.starts_with(beside_name))
            continue;
        const std::string path = joined(folder, name);
        struct stat about = {};
        if (::lstat(path.c_str(), &about) == 0 && S_ISREG(about.st_mode) &&
            about.st_mtime < std::time(nullptr) - a_day)
            remove_file(path);
    }
    ::closedir(open);
}

// Network folders may do what they are asked and lose the answer: what counts is whether the name
// is this file's.
class Named {
  public:
    explicit Named(const std::string& path) { known_ = ::lstat(path.c_str(), &file_) == 0; }
    bool is(const std::string& path) const {
        struct stat about = {};
        return known_ && ::lstat(path.c_str(), &about) == 0 && about.st_dev == file_.st_dev &&
               about.st_ino == file_.st_ino;
    }

  private:
    struct stat file_ = {};
    bool known_ = false;
};

} // namespace

std::string write_beside(const std::string& folder, std::string_view text, mode_t mode,
                         std::string& path) {
    remove_leftovers(folder);
    Descriptor file(again([&] {
        path = folder + "/" + std::string(beside_name) + "XXXXXX";
        return ::mkostemp(path.data(), O_CLOEXEC);
    }));
    if (!file)
        return std::strerror(errno);
    std::string reason = write_all(file.value(), text);
    if (reason.empty())
        reason = reason_if(again([&] { return ::fchmod(file.value(), mode); }) != 0);
    if (reason.empty())
        reason = reason_if(again([&] { return ::fsync(file.value()); }) != 0);
    // An interrupted close has closed. Network folders may say only now that they are full.
    if (::close(file.release()) != 0 && errno != EINTR && reason.empty())
        reason = std::strerror(errno);
    if (!reason.empty())
        remove_file(path);
    return reason;
}

std::string move_over(const std::string& path, const std::string& target) {
    const Named ours(path);
    if (again([&] { return ::rename(path.c_str(), target.c_str()); }) == 0)
        return {};
    std::string reason = std::strerror(errno);
    if (ours.is(target))
        return {};
    remove_file(path);
    return reason;
}

std::string take_name(const std::string& path, const std::string& target, bool& taken) {
    const Named ours(path);
    // A hard link is made whole or not at all and never over a name that is there, on network
    // folders too.
    int error = again([&] { return ::link(path.c_str(), target.c_str()); }) == 0 ? 0 : errno;
#ifdef RENAME_NOREPLACE
    if (error == EPERM || error == ENOTSUP || error == ENOSYS) // a folder without hard links
        error = again([&] {
                    return ::renameat2(AT_FDCWD, path.c_str(), AT_FDCWD, target.c_str(),
                                       RENAME_NOREPLACE);
                }) == 0
                    ? 0
                    : errno;
#endif
    if (ours.is(target))
        error = 0;
    remove_file(path);
    taken = error == EEXIST;
    return error == 0 || taken ? std::string() : std::strerror(error);
}

std::string flush_folder(const std::string& folder) {
    const Descriptor open(
        again([&] { return ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC); }));
    if (!open)
        return std::strerror(errno);
    return reason_if(again([&] { return ::fsync(open.value()); }) != 0 && errno != EINVAL);
}

std::string make_folder(const std::string& folder) {
    if (again([&] { return ::mkdir(folder.c_str(), 0777); }) == 0)
        return {};
    const int error = errno;
    struct stat about = {};
    if (::stat(folder.c_str(), &about) == 0 && S_ISDIR(about.st_mode))
        return {};
    return error == EEXIST ? "a file of this name already exists" : std::strerror(error);
}

std::string lock_file(const std::string& path, Descriptor& held) {
    const int file =
        again([&] { return ::open(path.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0666); });
    if (file < 0)
        return std::strerror(errno);
    held.take(file);
    again([&] { return ::flock(file, LOCK_EX); });
    return {};
}

} // namespace acre::cli
