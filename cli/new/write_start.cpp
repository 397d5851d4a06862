#include "cli/new/write_start.h"

#include <utility>

#include <sys/stat.h>

#include "cli/shared/files/confined.h"
#include "cli/shared/files/durable.h"
#include "cli/shared/files/read_text.h"
#include "lang/diag/outcome.h"

namespace acre::cli {

namespace {

enum class Stands { Free, Same, Other };

Stands stands(const std::string& path, const std::string& text) {
    struct stat about = {};
    if (::lstat(path.c_str(), &about) != 0)
        return Stands::Free;
    if (!S_ISREG(about.st_mode))
        return Stands::Other;
    const lang::Outcome<std::string> is = read_text(path, false);
    return is && *is == text ? Stands::Same : Stands::Other;
}

// One run: what it made, so that a fault can take it back.
class Start {
  public:
    explicit Start(std::string folder) : folder_(std::move(folder)) {}

    std::optional<lang::Diagnostic> write(const std::vector<StartFile>& files) {
        struct stat about = {};
        const bool there = ::lstat(folder_.c_str(), &about) == 0;
        if (const std::string reason = make_folder(folder_); !reason.empty())
            return failed(folder_, reason);
        made_folder_ = !there;
        for (const StartFile& file : files)
            if (const std::string path = joined(folder_, file.name);
                stands(path, file.text) == Stands::Free)
                if (const std::string reason = put(path, file.text); !reason.empty())
                    return failed(path, reason);
        // The folder's own name too: the run before may have been cut off after it was made.
        std::string reason = flush_folder(folder_);
        if (reason.empty())
            reason = flush_folder(folder_above(folder_));
        if (!reason.empty())
            return failed(folder_, reason);
        return std::nullopt;
    }

  private:
    std::string put(const std::string& path, const std::string& text) {
        std::string beside;
        bool taken = false;
        std::string reason = write_beside(folder_, text, mode_of_new(folder_, 0666), beside);
        if (reason.empty())
            reason = take_name(beside, path, taken);
        if (taken)
            reason = "a file of this name is there already";
        if (reason.empty())
            made_.push_back(path);
        return reason;
    }

    lang::Diagnostic failed(const std::string& path, const std::string& reason) {
        std::vector<std::string> notes;
        for (; !made_.empty(); made_.pop_back())
            if (!remove_made(made_.back()).empty())
                notes.push_back("`" + made_.back() + "` is left there");
        if (made_folder_)
            remove_made(folder_);
        return lang::placeless(lang::Code::F707, "`" + path + "` was not written: " + reason,
                               std::move(notes));
    }

    std::string folder_;
    bool made_folder_ = false;
    std::vector<std::string> made_;
};

} // namespace

std::optional<lang::Diagnostic> write_start(const std::string& folder,
                                            const std::vector<StartFile>& files) {
    for (const StartFile& file : files)
        if (const std::string path = joined(folder, file.name);
            stands(path, file.text) == Stands::Other)
            return lang::placeless(lang::Code::F707, "`" + path + "` is there already", {},
                                   {"name another folder, or move that file away"});
    const SignalsHeld held;
    return Start(folder).write(files);
}

} // namespace acre::cli
