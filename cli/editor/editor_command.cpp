#include <cerrno>
#include <cstdlib>

#include <poll.h>
#include <unistd.h>

#include "cli/command.h"
#include "cli/editor/server.h"
#include "cli/editor/vim_files.h"
#include "cli/shared/arguments.h"

namespace acre::cli {

namespace {

constexpr int a_moment = 15; // ms without a further message, before findings are told

// Until `exit` or the end of input; what is there is read before anything is answered, so that a
// request may still be cancelled. False: nobody reads the answers any more.
bool serve(Server& server, Console& console) {
    MessageReader reader;
    bool open = true;
    while (!server.ended() && (open || server.waits() || server.unsettled())) {
        pollfd input = {STDIN_FILENO, POLLIN, 0};
        const bool busy = server.waits() || server.settling();
        const int wait = busy ? 0 : server.unsettled() ? a_moment : -1;
        if (open && ::poll(&input, 1, wait) > 0) {
            static char bytes[1U << 16U];
            const auto count = ::read(STDIN_FILENO, bytes, sizeof bytes);
            open = count > 0 || (count < 0 && (errno == EINTR || errno == EAGAIN));
            if (count > 0)
                reader.feed({bytes, static_cast<std::size_t>(count)});
            while (std::optional<Incoming> message = reader.next())
                server.take(std::move(*message));
        } else if (server.waits()) {
            server.step();
        } else if (server.unsettled()) {
            server.settle();
        }
        console.out += server.output();
        if (!console.out.empty() && console.hand_over != nullptr) {
            console.exact = true;
            if (!console.hand_over(console).empty())
                return false;
        }
    }
    return true;
}

std::string printed(const std::string& what) {
    if (what == "syntax")
        return vim_syntax();
    if (what == "filetype")
        return std::string(vim_texts()[0]);
    return what == "setup" ? std::string(vim_texts()[1]) : std::string();
}

} // namespace

Reply editor_command(Words words, Console& console) {
    EditorSettings settings;
    std::string print;
    Arguments line("editor",
                   "The language server: an editor starts it and speaks with it over standard "
                   "input and output (Language Server Protocol 3.17). It shows errors and prices "
                   "while you type, completes and renames. With --print it shows a file that "
                   "teaches vim or neovim the notation.",
                   "acrewright editor --print syntax");
    line.option("--job", "FILE", "the job in whose light models and seasons are seen",
                settings.job);
    line.option("--models", "FOLDER", "one more folder to look for models in", settings.models);
    line.option("--print", "WHAT", "syntax, filetype or setup: a file for vim or neovim", print);
    if (auto reply = line.read(words))
        return std::move(*reply);
    Reply reply;
    if (!print.empty()) {
        reply.page = printed(print);
        if (reply.page.empty())
            return lang::placeless(
                lang::Code::C003, "`--print` takes syntax, filetype or setup; not `" + print + "`");
        reply.exact = true;
        return reply;
    }
    if (::isatty(STDIN_FILENO) == 1)
        return lang::placeless(lang::Code::C004, "an editor starts `editor`, not a person", {},
                               {"set your editor up to run  acrewright editor",
                                "`acrewright editor --help` says more"});
    if (char* full = settings.job.empty() ? nullptr : ::realpath(settings.job.c_str(), nullptr)) {
        settings.job = full;
        std::free(full);
    }
    Server server(std::move(settings));
    if (!serve(server, console) || !server.in_order())
        reply.verdict = exit_at_fault;
    return reply;
}

} // namespace acre::cli
