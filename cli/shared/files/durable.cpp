#include "cli/shared/files/durable.h"

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <ctime>
#include <thread>

#include <dirent.h>
#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include "cli/shared/console.h"
#include "cli/shared/files/confined.h"

namespace acre::cli {

namespace {

constexpr std::string_view beside_name = ".acrewright-";
constexpr std::size_t beside_length = beside_name.size() + 6;
constexpr std::time_t a_day = 86'400; // seconds

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

mode_t mode_of_new(const std::string& folder, mode_t wanted) {
    const mode_t mask = ::umask(0);
    ::umask(mask);
    struct stat about = {};
    const mode_t room = ::stat(folder.c_str(), &about) == 0 ? about.st_mode & 0777U : 0777U;
    return wanted & ~mask & (room | S_IRUSR | S_IWUSR);
}

std::string write_beside(const std::string& folder, std::string_view text, mode_t mode,
                         std::string& path, Leftovers leftovers) {
    if (leftovers == Leftovers::Remove)
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

std::string remove_made(const std::string& path) {
    struct stat about = {};
    if (::lstat(path.c_str(), &about) != 0)
        return {};
    const bool folder = S_ISDIR(about.st_mode);
    const auto gone = [&] { return folder ? ::rmdir(path.c_str()) : ::unlink(path.c_str()); };
    const std::string reason = reason_if(again(gone) != 0);
    return ::lstat(path.c_str(), &about) != 0 ? std::string() : reason;
}

std::string open_plain(const std::string& path, int flags, Descriptor& file) {
    file.take(again([&] {
        return ::open(path.c_str(), flags | O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK | O_NOCTTY, 0666);
    }));
    if (!file)
        return errno == ELOOP ? "it is a link" : std::strerror(errno);
    struct stat about = {};
    if (::fstat(file.value(), &about) != 0)
        return std::strerror(errno);
    return S_ISREG(about.st_mode) ? std::string() : "it is not a regular file";
}

std::string lock_file(const std::string& path, std::chrono::milliseconds longest, Descriptor& held,
                      bool& locked) {
    if (std::string reason = open_plain(path, O_RDWR | O_CREAT, held); !reason.empty())
        return reason;
    constexpr std::chrono::milliseconds pause{20};
    const auto end = std::chrono::steady_clock::now() + longest;
    const auto others = [&] {
        return again([&] { return ::flock(held.value(), LOCK_EX | LOCK_NB); }) != 0 &&
               errno == EWOULDBLOCK;
    };
    while (!(locked = !others()) && std::chrono::steady_clock::now() < end)
        std::this_thread::sleep_for(pause);
    return {};
}

SignalsHeld::SignalsHeld() {
    sigset_t held;
    ::sigemptyset(&held);
    for (const int signal : {SIGINT, SIGTERM, SIGHUP})
        ::sigaddset(&held, signal);
    ::pthread_sigmask(SIG_BLOCK, &held, &before_);
}

SignalsHeld::~SignalsHeld() {
    ::pthread_sigmask(SIG_SETMASK, &before_, nullptr);
}

} // namespace acre::cli
