#include "cli/shared/files/write_file.h"

#include <cerrno>
#include <cstring>

#include <sys/stat.h>
#include <unistd.h>

#include "cli/shared/files/confined.h"
#include "cli/shared/files/durable.h"
#include "lang/diag/safe_text.h"

namespace acre::cli {

namespace {

// The file a path stands for, through links; a path that is not there yet stands for itself.
std::string target_of(const std::string& path) {
    std::string real = real_path(path);
    return real.empty() ? path : real;
}

} // namespace

Written write_file(const std::string& path, std::string_view text) {
    const std::string target = target_of(path);
    struct stat about = {};
    const bool exists = ::stat(target.c_str(), &about) == 0;
    if (exists && !S_ISREG(about.st_mode))
        return {S_ISDIR(about.st_mode) ? "it is a folder" : "it is not a regular file"};
    if (exists && ::access(target.c_str(), W_OK) != 0) {
        return {std::strerror(
            errno)}; // a file that is protected stays, although its folder would let it be replaced
    }
    const std::string folder = folder_of(target);
    const SignalsHeld held;
    std::string beside;
    std::string reason = write_beside(
        folder, text, exists ? about.st_mode & 07777U : mode_of_new(folder, 0666), beside);
    if (reason.empty())
        reason = move_over(beside, target);
    if (!reason.empty())
        return {reason};
    return {flush_folder(folder), true};
}

bool save(const std::string& path, std::string_view text, Reply& reply) {
    const Written written = write_file(path, text);
    if (written.reason.empty())
        return true;
    reply.fail(lang::placeless(
        lang::Code::F707, "`" + path +
                              (written.in_place ? "` was written but may be lost in a power cut: "
                                                : "` was not written: ") +
                              written.reason));
    return false;
}

bool save_new(const std::string& path, std::string_view text, std::string help, Reply& reply) {
    const std::string folder = folder_of(path);
    const SignalsHeld held;
    std::string beside;
    std::string reason = write_beside(folder, text, mode_of_new(folder, 0666), beside);
    bool taken = false;
    if (reason.empty())
        reason = take_name(beside, path, taken);
    if (taken) {
        reply.fail(lang::placeless(lang::Code::F707, "`" + path + "` was not written: it is there",
                                   {}, {std::move(help)}));
        return false;
    }
    const bool named = reason.empty();
    if (named)
        reason = flush_folder(folder);
    if (reason.empty())
        return true;
    reply.fail(lang::placeless(
        lang::Code::F707,
        "`" + path +
            (named ? "` was written but may be lost in a power cut: " : "` was not written: ") +
            reason));
    return false;
}

} // namespace acre::cli
