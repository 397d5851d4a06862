#include "cli/command.h"
#include "cli/library/library_json.h"
#include "cli/library/library_text.h"
#include "cli/shared/arguments.h"
#include "cli/shared/files/file_loader.h"
#include "models/library_texts.h"

namespace acre::cli {

Reply library_command(Words words, Console& console) {
    engine::LibraryQuestion question;
    bool json = false;
    Arguments line("library",
                   "Shows the formulas that come with the program: what each takes and gives with "
                   "units, its source, how sure that is, and the range it was tested in. With NAME "
                   "it shows the formula itself and its example, worked out now.",
                   "acrewright library field_capacity");
    line.positional("NAME", "one formula", question.name, false);
    line.flag("--json", "the list as JSON", json);
    if (auto reply = line.read(words))
        return std::move(*reply);
    for (const models::LibraryText& library : models::library_texts())
        question.libraries.emplace_back(library.reference);
    question.from = built_in_name("index"); // so that no folder is searched
    FileLoader loader("", "");
    lang::Outcome<engine::LibraryAnswer> answer = engine::ask(question, loader);
    Reply reply(std::move(answer.said));
    if (!answer)
        return reply;
    if (json)
        reply.document = library_json(*answer);
    else
        reply.page = question.name.empty() ? library_text(*answer, console.color_out)
                                           : formula_text(answer->formulas[0], console.color_out);
    return reply;
}

} // namespace acre::cli
