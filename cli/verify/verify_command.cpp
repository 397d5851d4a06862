// verify: seals, chain, signatures, rules, and every quote worked out again from its own record.
#include <algorithm>
#include <string>
#include <thread>

#include "cli/command.h"
#include "cli/shared/arguments.h"
#include "cli/shared/quote_book/key_file.h"
#include "cli/verify/verify_page.h"

namespace acre::cli {

Reply verify_command(Words words, Console& /*console*/) {
    VerifyQuestion question;
    question.folder = "quote-book";
    question.threads = std::max(1U, std::thread::hardware_concurrency());
    std::string head;
    bool json = false, strict = false;
    Arguments line("verify",
                   "Verifies a quote book: every record is as it was sealed and signed, none is "
                   "missing, every rule was kept, and every quote comes out the same from the "
                   "texts in its record, to the cent. It says what that does not prove.",
                   "acrewright verify examples/quote-book");
    line.positional("BOOK", "the folder (quote-book)", question.folder, false);
    line.option("--key", "KEY", "trusts only this open key and those it admitted (may repeat)",
                question.keys);
    line.option("--head", "HEAD", "a head printed earlier, as in \"17 9f86d0…\"", head);
    line.flag("--strict", "fails too on differences by program and on strange files", strict);
    line.flag("--json", "the result as JSON, for other programs", json);
    if (auto reply = line.read(words))
        return std::move(*reply);
    for (std::string& key : question.keys) {
        lang::Outcome<std::string> open = read_open_key(key);
        if (!open)
            return std::move(open.said);
        key = std::move(*open);
    }
    if (!head.empty() && !(question.head = engine::read_head(head)))
        return lang::placeless(lang::Code::C003, "`--head` takes a head as `verify` prints it", {},
                               {"a number and a seal of 64 digits: --head \"17 9f86d0…\""});
    const lang::Outcome<Verified> verified = verify_book(question);
    if (!verified)
        return verified.said;
    Reply reply;
    if (json)
        reply.document = verify_json(*verified);
    else
        reply.page = verify_text(*verified);
    const bool doubtful = verified->count(Compared::ByProgram) > 0 || !verified->remarks.empty();
    reply.verdict = verified->in_order() && !(strict && doubtful) ? exit_done : exit_at_fault;
    return reply;
}

} // namespace acre::cli
