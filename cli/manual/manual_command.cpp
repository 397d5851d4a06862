#include "cli/command.h"
#include "cli/manual/manual_page.h"
#include "cli/shared/arguments.h"
#include "lang/diag/suggest.h"

namespace acre::cli {

Reply manual_command(Words words, Console&) {
    std::string wanted;
    Arguments line("manual",
                   "Prints a manual page of the program, of a command or of a kind of file, for "
                   "man. Without PAGE it lists the pages.",
                   "acrewright manual acrewright-price.1");
    line.positional("PAGE", "as the list names it; or the name of a command", wanted, false);
    if (auto reply = line.read(words))
        return std::move(*reply);
    const std::vector<std::string> names = manual_names();
    Reply reply;
    if (wanted.empty()) {
        for (const std::string& name : names)
            reply.page += name + "\n";
        return reply;
    }
    for (const std::string& name : {wanted, "acrewright-" + wanted + ".1"})
        if (reply.page.empty())
            reply.page = manual_page(name);
    reply.exact = true;
    if (!reply.page.empty())
        return reply;
    std::string title = "no manual page `" + wanted + "`";
    const std::vector<std::string_view> all(names.begin(), names.end());
    if (const auto near = lang::near_names(wanted, all, 1); !near.empty())
        title.append("; did you mean `").append(near[0]).append("`?");
    return lang::placeless(lang::Code::C003, std::move(title), {},
                           {"`acrewright manual` lists them"});
}

} // namespace acre::cli
