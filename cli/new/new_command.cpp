#include <algorithm>
#include <optional>
#include <utility>

#include "cli/command.h"
#include "cli/new/start.h"
#include "cli/new/write_start.h"
#include "cli/shared/arguments.h"
#include "cli/shared/clock.h"
#include "cli/shared/files/confined.h"
#include "cli/shared/text/wrap.h"
#include "cli/shared/typed_lines.h"
#include "lang/diag/safe_text.h"

namespace acre::cli {

namespace {

Reply told(const std::string& folder, const std::vector<StartFile>& files) {
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
    Arguments line(
        "new",
        "Starts a folder with a first model, season, job, firm and the wording of a quote, "
        "for a business of your own. Without options it asks, where somebody sits at a "
        "terminal. Nothing that is there is written over; all files are made, or none.",
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
    if (std::optional<lang::Diagnostic> fault = write_start(folder, *files))
        return std::move(*fault);
    return told(folder, *files);
}

} // namespace acre::cli
