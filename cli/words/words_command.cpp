#include "cli/command.h"
#include "cli/shared/arguments.h"
#include "cli/words/words_page.h"
#include "lang/diag/suggest.h"

namespace acre::cli {

namespace {

Reply unknown(const std::string& wanted) {
    const std::vector<std::string_view> words = lang::explained_words();
    std::string title = "the notation has no word `" + wanted + "`";
    if (const auto near = lang::near_names(wanted, words, 1); !near.empty())
        title.append("; did you mean `").append(near[0]).append("`?");
    return lang::placeless(lang::Code::C003, std::move(title), {},
                           {"`acrewright words` lists them all"});
}

} // namespace

Reply words_command(Words words, Console& console) {
    std::string wanted;
    bool json = false;
    Arguments line("words",
                   "Explains the words of the notation. Without WORD it lists them all; with WORD "
                   "it shows how the word is written, what it means, and an example.",
                   "acrewright words given");
    line.positional("WORD", "a word or a function, such as given or ceil", wanted, false);
    line.flag("--json", "the same as JSON", json);
    if (auto reply = line.read(words))
        return std::move(*reply);
    const std::vector<lang::WordPage> pages =
        wanted.empty() ? lang::word_pages() : lang::pages_of_word(wanted);
    if (pages.empty())
        return unknown(wanted);
    Reply reply;
    if (json)
        reply.document = words_json(pages);
    else if (wanted.empty())
        reply.page = words_text(pages, console.color_out);
    else
        for (const lang::WordPage& page : pages)
            reply.page += (reply.page.empty() ? "" : "\n") + word_text(page, console.color_out);
    return reply;
}

} // namespace acre::cli
