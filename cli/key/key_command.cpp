// key: makes the keys that sign a book, and states in the book which of them count.
#include <string>

#include "cli/command.h"
#include "cli/shared/arguments.h"
#include "cli/shared/clock.h"
#include "cli/shared/files/confined.h"
#include "cli/shared/files/durable.h"
#include "cli/shared/quote_book/book.h"
#include "cli/shared/quote_book/key_file.h"
#include "cli/shared/text/wrap.h"
#include "engine/book/canonical.h"
#include "engine/book/seal.h"
#include "lang/diag/safe_text.h"
#include "lang/units/calendar.h"

namespace acre::cli {
namespace {

struct KeyArguments {
    std::string action, key, book = "quote-book", signer, name, date;
};

// A new secret key, in a file of its own that nobody else may read.
Reply make_key(const std::string& path) {
    const engine::KeyPair pair = engine::new_key_pair();
    const SignalsHeld held;
    std::string beside;
    const std::string folder = folder_of(path);
    std::string reason = write_beside(folder, pair.secret + "\n", 0600, beside);
    bool taken = false;
    if (reason.empty())
        reason = take_name(beside, path, taken);
    if (taken)
        return lang::placeless(lang::Code::F707, "`" + path + "` was not written: it is there", {},
                               {"a key is never written over: choose another name"});
    if (reason.empty())
        reason = flush_folder(folder);
    if (!reason.empty())
        return lang::placeless(lang::Code::F707, "`" + path + "` was not written: " + reason);
    Reply reply;
    reply.page = "secret key " + wrap(lang::terminal_text(path), page_width, 11) +
                 ": keep a copy where nobody else comes\nopen key   " + pair.open + "\n";
    return reply;
}

Reply show_key(const std::string& path) {
    const lang::Outcome<std::string> key = read_key(path);
    if (!key)
        return key.said;
    Reply reply;
    reply.page = *engine::open_half(*key) + "\n";
    return reply;
}

// Admits or retires a key, by a record that a current key signs; the first key signs itself.
Reply change_keys(const KeyArguments& arguments, Console& console) {
    const lang::Outcome<std::string> secret = read_key(arguments.signer);
    if (!secret)
        return secret.said;
    const lang::Outcome<std::string> open = read_open_key(arguments.key);
    if (!open)
        return open.said;
    const Book book(arguments.book);
    if (auto fault = book.create())
        return std::move(*fault);
    const auto make = [&](const BookState& state) -> lang::Outcome<Book::Coming> {
        Book::Coming coming;
        if (const engine::Event* newest = state.lives.newest())
            coming.record.counter = newest->counter;
        coming.record.body = engine::KeyRecord{arguments.action, *open,
                                               engine::utf8_text(arguments.name), arguments.date};
        return coming;
    };
    const lang::Outcome<Added> added = book.append(make, *secret);
    if (!added)
        return added.said;
    Reply reply;
    console.done =
        "the key is " + std::string(arguments.action == "admit" ? "admitted" : "retired");
    if (added->fleeting) {
        reply.fail(*added->fleeting);
        return reply;
    }
    reply.note = added->note;
    reply.page = "key " + *open + (arguments.action == "admit" ? "\nis admitted" : "\nis retired") +
                 " by " +
                 wrap(lang::terminal_text(arguments.book + "/" + added->file), page_width) + "\n";
    return reply;
}

} // namespace

Reply key_command(Words words, Console& console) {
    KeyArguments arguments;
    Arguments line("key",
                   "Keys that sign a quote book. `new` makes one in a file that only you can read; "
                   "`show` prints its open half; `admit` and `retire` write into the book whose "
                   "signatures count: from the first key on, every record is signed.",
                   "acrewright key new ruth.key --help");
    line.positional("ACTION", "new, show, admit or retire", arguments.action);
    line.positional("KEY", "the file of a secret key; of admit and retire an open key",
                    arguments.key);
    line.option("--book", "FOLDER", "the quote book (quote-book)", arguments.book);
    line.option("--key", "FILE", "the secret key that signs the change", arguments.signer);
    line.option("--name", "NAME", "whose key it is", arguments.name);
    line.option("--date", "DATE", "the date of the change (today)", arguments.date);
    if (auto reply = line.read(words))
        return std::move(*reply);
    if (arguments.action == "new")
        return make_key(arguments.key);
    if (arguments.action == "show")
        return show_key(arguments.key);
    if (arguments.action != "admit" && arguments.action != "retire")
        return lang::placeless(lang::Code::C003, "unknown action `" + arguments.action + "`", {},
                               {"the actions are new, show, admit and retire"});
    if (arguments.signer.empty())
        return lang::placeless(lang::Code::C004, "a change of keys is signed", {},
                               {"name the secret key with `--key FILE`; the first key of a book "
                                "signs itself"});
    if (arguments.date.empty())
        arguments.date = today();
    if (!lang::day_number(arguments.date))
        return lang::placeless(lang::Code::C003, "`--date` takes a date, as in 2027-03-14; not `" +
                                                     arguments.date + "`");
    return change_keys(arguments, console);
}

} // namespace acre::cli
