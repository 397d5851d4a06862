#include <algorithm>

#include <sys/stat.h>
#include <unistd.h>

#include "cli/command.h"
#include "cli/new/start.h"
#include "cli/shared/arguments.h"
#include "cli/shared/clock.h"
#include "cli/shared/files/confined.h"
#include "cli/shared/files/durable.h"
#include "cli/shared/text/wrap.h"
#include "cli/shared/typed_lines.h"
#include "lang/diag/safe_text.h"

namespace acre::cli {

namespace {

lang::Diagnostic not_written(const std::string& path, const std::string& reason) {
    return lang::placeless(lang::Code::F707, "`" + path + "` was not written: " + reason);
}

bool is_there(const std::string& path) {
    struct stat about = {};
    return ::lstat(path.c_str(), &about) == 0;
}

// Each file anew and under a name that was free: nothing of the user's is written over.
Reply written(const std::string& folder, const std::vector<StartFile>& files) {
    for (const StartFile& file : files)
        if (const std::string path = joined(folder, file.name); is_there(path))
            return lang::placeless(lang::Code::F707, "`" + path + "` is there already", {},
                                   {"name another folder, or move that file away"});
    const bool made = !is_there(folder);
    if (const std::string reason = make_folder(folder); !reason.empty())
        return not_written(folder, reason);
    const mode_t mask = ::umask(0);
    ::umask(mask);
    for (const StartFile& file : files) {
        const std::string path = joined(folder, file.name);
        std::string beside;
        bool taken = false;
        std::string reason = write_beside(folder, file.text, 0666U & ~mask, beside);
        if (reason.empty())
            reason = take_name(beside, path, taken);
        if (taken)
            reason = "a file of this name is there already";
        if (!reason.empty())
            return not_written(path, reason);
    }
    std::string reason = flush_folder(folder);
    if (reason.empty() && made)
        reason = flush_folder(folder_above(folder));
    if (!reason.empty())
        return lang::placeless(lang::Code::F707,
                               "`" + folder +
                                   "` was written but may be lost in a power cut: " + reason);
    Reply reply;
    std::size_t widest = 0;
    for (const StartFile& file : files)
        widest = std::max(widest, file.name.size());
    for (const StartFile& file : files)
        reply.page +=
            lang::terminal_text(joined(folder, padded(file.name, widest))) + "  " + file.is + "\n";
    reply.page += "\nEvery figure in them is an example: put your own in.\nNow try\n  acrewright "
                  "price " +
                  lang::terminal_text(joined(folder, "first.job")) + "\n";
    return reply;
}

void ask(TypedLines& lines, const std::string& question, std::string& value) {
    const auto typed = lines.next(question + " [" + value + "]: ");
    if (typed && typed->find_first_not_of(' ') != std::string::npos)
        value = *typed;
}

} // namespace

Reply new_command(Words words, Console&) {
    std::string folder;
    StartWords start;
    start.year = today().substr(0, 4);
    Arguments line("new",
                   "Starts a folder with a first model, season, job and the wording of a quote, "
                   "for a business of your own. Without options it asks, where somebody sits at a "
                   "terminal. Nothing that is there is written over.",
                   "acrewright new stumps --work 'Stump grinding' --per h");
    line.positional("FOLDER", "where the files go; it is made if it is not there", folder);
    line.option("--firm", "NAME", "what the firm is called", start.firm);
    line.option("--work", "TITLE", "what the work is called, such as Stump grinding", start.work);
    line.option("--machine", "NAME", "the machine that does it", start.machine);
    line.option("--per", "UNIT", "what is charged for: h, ac, stump, ...", start.per);
    line.option("--paid", "MONEY", "what the machine cost", start.paid);
    line.option("--year", "YEAR", "of the season (this year)", start.year);
    if (auto reply = line.read(words))
        return std::move(*reply);
    if (TypedLines lines; words.size() == 1 && lines.person()) {
        ask(lines, "What is the firm called?", start.firm);
        ask(lines, "What is the work called?", start.work);
        ask(lines, "Which machine does it?", start.machine);
        ask(lines, "What is charged for: h, ac, stump?", start.per);
        ask(lines, "What did the machine cost?", start.paid);
    }
    const lang::Outcome<std::vector<StartFile>> files = start_files(start);
    if (!files)
        return files.said;
    while (folder.size() > 1 && folder.ends_with('/'))
        folder.pop_back();
    return written(folder, *files);
}

} // namespace acre::cli
