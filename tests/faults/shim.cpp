// Preloaded into the program: stands before the calls of the system that change a disk, counts
// them, writes each down, and lets one of them go wrong. Nothing is really flushed: a test pulls no
// plug, and what was flushed stands in the list of calls.
//
//   FAULT_LOG=FILE     one line a call: NAME <tab> RESULT <tab> PATH <tab> SECOND PATH (`stdout` is
//   a path) FAULT_AT=N         the call that goes wrong, from 1 FAULT_ON=yes       and so does
//   every later one that the fault fits FAULT_IS=WHAT      an error: ENOSPC EIO EDQUOT EROFS EPERM
//   EINTR EAGAIN; `lost`: done, but EIO is said; `one`, `half`: that much is
//                      written; `before`, `after`: the program is killed there
#include <cerrno>
#include <csignal>
#include <cstdarg>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <string_view>

#include <dlfcn.h>
#include <fcntl.h>
#include <sys/syscall.h>
#include <sys/uio.h>
#include <unistd.h>

namespace {

constexpr int most_descriptors = 256;
char paths[most_descriptors][512]; // what each descriptor was opened as; empty: none of ours
bool writable[most_descriptors];

struct Plan {
    int log = -1;
    long at = 0;
    bool on = false;
    std::string_view is;
    int error = 0;
    long count = 0;
};

int error_named(std::string_view name) {
    constexpr struct {
        std::string_view name;
        int error;
    } all[] = {{"ENOSPC", ENOSPC}, {"EIO", EIO},     {"EDQUOT", EDQUOT}, {"EROFS", EROFS},
               {"EPERM", EPERM},   {"EINTR", EINTR}, {"EAGAIN", EAGAIN}, {"lost", EIO}};
    for (const auto& known : all)
        if (known.name == name)
            return known.error;
    return 0;
}

Plan& plan() {
    static Plan made = [] {
        Plan plan;
        const auto word = [](const char* name) {
            const char* value = std::getenv(name);
            return value == nullptr ? "" : value;
        };
        if (const char* file = word("FAULT_LOG"); *file != '\0') {
            const long opened = ::syscall(SYS_openat, AT_FDCWD, file,
                                          O_WRONLY | O_CREAT | O_APPEND | O_CLOEXEC, 0600);
            plan.log = ::fcntl(static_cast<int>(opened), F_DUPFD_CLOEXEC, most_descriptors);
            ::syscall(SYS_close, opened);
        }
        plan.at = std::atol(word("FAULT_AT"));
        plan.on = *word("FAULT_ON") != '\0';
        plan.is = word("FAULT_IS");
        plan.error = error_named(plan.is);
        return plan;
    }();
    return made;
}

bool ours(int descriptor) {
    return descriptor >= 0 && descriptor < most_descriptors && paths[descriptor][0] != '\0';
}

void remember(int descriptor, const char* path, bool can_write) {
    if (descriptor < 0 || descriptor >= most_descriptors)
        return;
    std::snprintf(paths[descriptor], sizeof paths[descriptor], "%s", path);
    writable[descriptor] = can_write;
}

const char* path_of(int descriptor) {
    return descriptor == STDOUT_FILENO ? "stdout" : paths[descriptor];
}

void note(const char* name, long result, const char* path, const char* second = "") {
    char line[2048];
    const int error = errno;
    const int size =
        std::snprintf(line, sizeof line, "%s\t%ld\t%s\t%s\n", name, result, path, second);
    ::syscall(SYS_write, plan().log, line, static_cast<std::size_t>(size));
    errno = error;
}

[[noreturn]] void die() {
    ::syscall(SYS_kill, ::getpid(), SIGKILL);
    std::abort();
}

// A full disk still removes and closes.
bool fits(std::string_view name) {
    const bool full = plan().is == "ENOSPC" || plan().is == "EDQUOT";
    return !(plan().on && full &&
             (name == "unlink" || name == "close" || name == "fchmod" || name == "flock"));
}

// Every call goes through here. `call` does it and returns what the system does; `part`, for a call
// that writes: does it with so many bytes. `nothing`: the call ends what it is about even when it
// fails, as close does.
template <class Call, class Part>
long faulty(const char* name, const char* path, const char* second, long bytes, bool ends,
            Call call, Part part) {
    Plan& p = plan();
    ++p.count;
    const bool hit = p.at != 0 && (p.count == p.at || (p.on && p.count > p.at)) && fits(name);
    long result = 0;
    if (!hit) {
        result = call();
    } else if (p.is == "before") {
        die();
    } else if (p.is == "after" || p.is == "lost") {
        result = call();
        if (p.is == "after") {
            note(name, result, path, second);
            die();
        }
        if (result >= 0) {
            note(name, result, path, second); // the disk is told, the program is not
            errno = p.error;
            return -1;
        }
    } else if (p.error != 0) {
        if (ends)
            call();
        errno = p.error;
        result = -1;
    } else {
        result = bytes > 1 ? part(p.is == "one" ? 1 : bytes / 2) : call();
    }
    note(name, result, path, second);
    return result;
}

template <class Call>
long faulty(const char* name, const char* path, const char* second, Call call, bool ends = false) {
    return faulty(
        name, path, second, 0, ends, call, [&](long) { return call(); });
}

template <class Function> Function* real(const char* name) {
    return reinterpret_cast<Function*>(::dlsym(RTLD_NEXT, name));
}

bool is_profile(std::string_view path) {
    return path.ends_with(".gcda"); // the compiler's own, of a build that counts lines
}

int open_in(int folder, const char* path, int flags, mode_t mode) {
    const auto call = [&] { return ::syscall(SYS_openat, folder, path, flags, mode); };
    const bool folders = (flags & O_DIRECTORY) == O_DIRECTORY;
    const bool writes = (flags & O_ACCMODE) != O_RDONLY || (flags & O_CREAT) != 0;
    if ((!folders && !writes) || is_profile(path))
        return static_cast<int>(call());
    const int opened = static_cast<int>(faulty(writes ? "open" : "folder", path, "", call));
    remember(opened, path, writes);
    return opened;
}

long rename_as(const char* name, const char* from, const char* to, unsigned flags) {
    return faulty(
        name, from, to,
        [&] { return ::syscall(SYS_renameat2, AT_FDCWD, from, AT_FDCWD, to, flags); });
}

mode_t mode_in(int flags, va_list& list) {
    return (flags & O_CREAT) != 0 ? va_arg(list, mode_t) : 0;
}

} // namespace

extern "C" {

#define ACREWRIGHT_OPEN(name)                                                                      \
    int name(const char* path, int flags, ...) {                                                   \
        va_list list;                                                                              \
        va_start(list, flags);                                                                     \
        const mode_t mode = mode_in(flags, list);                                                  \
        va_end(list);                                                                              \
        return open_in(AT_FDCWD, path, flags, mode);                                               \
    }
#define ACREWRIGHT_OPENAT(name)                                                                    \
    int name(int folder, const char* path, int flags, ...) {                                       \
        va_list list;                                                                              \
        va_start(list, flags);                                                                     \
        const mode_t mode = mode_in(flags, list);                                                  \
        va_end(list);                                                                              \
        return open_in(folder, path, flags, mode);                                                 \
    }
ACREWRIGHT_OPEN(open)
ACREWRIGHT_OPEN(open64)
ACREWRIGHT_OPENAT(openat)
ACREWRIGHT_OPENAT(openat64)
int __open_2(const char* path, int flags) {
    return open_in(AT_FDCWD, path, flags, 0);
}
int __open64_2(const char* path, int flags) {
    return open_in(AT_FDCWD, path, flags, 0);
}

int mkostemp(char* path, int flags) {
    const int made = static_cast<int>(faulty(
        "open", path, "", [&] { return long{real<int(char*, int)>("mkostemp")(path, flags)}; }));
    remember(made, path, true);
    return made;
}
int mkostemp64(char* path, int flags) {
    return mkostemp(path, flags);
}
int mkstemp(char* path) {
    return mkostemp(path, 0);
}
int mkstemp64(char* path) {
    return mkostemp(path, 0);
}

ssize_t write(int descriptor, const void* bytes, std::size_t size) {
    const auto part = [&](long most) { return ::syscall(SYS_write, descriptor, bytes, most); };
    if (descriptor != STDOUT_FILENO && !ours(descriptor))
        return part(static_cast<long>(size));
    return faulty(
        "write", path_of(descriptor), "", static_cast<long>(size), false,
        [&] { return part(static_cast<long>(size)); }, part);
}
ssize_t pwrite(int descriptor, const void* bytes, std::size_t size, off_t at) {
    const auto part = [&](long most) {
        return ::syscall(SYS_pwrite64, descriptor, bytes, most, at);
    };
    if (!ours(descriptor))
        return part(static_cast<long>(size));
    return faulty(
        "write", path_of(descriptor), "", static_cast<long>(size), false,
        [&] { return part(static_cast<long>(size)); }, part);
}
ssize_t pwrite64(int descriptor, const void* bytes, std::size_t size, off_t at) {
    return pwrite(descriptor, bytes, size, at);
}
ssize_t writev(int descriptor, const iovec* parts, int count) {
    const auto call = [&] { return ::syscall(SYS_writev, descriptor, parts, count); };
    if (descriptor != STDOUT_FILENO && !ours(descriptor))
        return call();
    return faulty("write", path_of(descriptor), "", 2, false, call, [&](long) {
        return ::syscall(SYS_writev, descriptor, parts, count > 1 ? count / 2 : count);
    });
}

int fsync(int descriptor) {
    if (!ours(descriptor))
        return 0;
    return static_cast<int>(faulty("fsync", path_of(descriptor), "", [] { return 0L; }));
}
int fdatasync(int descriptor) {
    return fsync(descriptor);
}
int close(int descriptor) {
    const auto call = [&] { return ::syscall(SYS_close, descriptor); };
    const bool counts = descriptor == STDOUT_FILENO || (ours(descriptor) && writable[descriptor]);
    const int result =
        static_cast<int>(counts ? faulty("close", path_of(descriptor), "", call, true) : call());
    if (ours(descriptor))
        paths[descriptor][0] = '\0';
    return result;
}
// A library's temporary file: its number is free for another.
int fclose(FILE* stream) {
    const int descriptor = ::fileno(stream);
    if (ours(descriptor))
        paths[descriptor][0] = '\0';
    return real<int(FILE*)>("fclose")(stream);
}
int fchmod(int descriptor, mode_t mode) {
    if (!ours(descriptor))
        return static_cast<int>(::syscall(SYS_fchmod, descriptor, mode));
    return static_cast<int>(faulty("fchmod", path_of(descriptor), "",
                                   [&] { return ::syscall(SYS_fchmod, descriptor, mode); }));
}
int ftruncate(int descriptor, off_t size) {
    if (!ours(descriptor))
        return static_cast<int>(::syscall(SYS_ftruncate, descriptor, size));
    return static_cast<int>(faulty("ftruncate", path_of(descriptor), "",
                                   [&] { return ::syscall(SYS_ftruncate, descriptor, size); }));
}
int ftruncate64(int descriptor, off_t size) {
    return ftruncate(descriptor, size);
}
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wshadow" // the system has a struct of this name
int flock(int descriptor, int operation) {
    if (!ours(descriptor))
        return static_cast<int>(::syscall(SYS_flock, descriptor, operation));
    return static_cast<int>(faulty("flock", path_of(descriptor), "",
                                   [&] { return ::syscall(SYS_flock, descriptor, operation); }));
}
#pragma GCC diagnostic pop
int rename(const char* from, const char* to) {
    return static_cast<int>(rename_as("rename", from, to, 0));
}
int renameat(int, const char* from, int, const char* to) {
    return static_cast<int>(rename_as("rename", from, to, 0));
}
int renameat2(int, const char* from, int, const char* to, unsigned flags) {
    return static_cast<int>(rename_as("rename", from, to, flags));
}
int link(const char* from, const char* to) {
    return static_cast<int>(faulty(
        "link", from, to, [&] { return ::syscall(SYS_linkat, AT_FDCWD, from, AT_FDCWD, to, 0); }));
}
int linkat(int, const char* from, int, const char* to, int) {
    return link(from, to);
}
int mkdir(const char* path, mode_t mode) {
    return static_cast<int>(faulty(
        "mkdir", path, "", [&] { return ::syscall(SYS_mkdirat, AT_FDCWD, path, mode); }));
}
int unlink(const char* path) {
    return static_cast<int>(faulty(
        "unlink", path, "", [&] { return ::syscall(SYS_unlinkat, AT_FDCWD, path, 0); }));
}
int remove(const char* path) {
    return unlink(path);
}

} // extern "C"
