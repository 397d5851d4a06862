#include "cli/shared/quote_book/key_file.h"

#include <sys/stat.h>

#include "cli/shared/files/read_text.h"
#include "engine/book/seal.h"
#include "engine/book/texts.h"

namespace acre::cli {
namespace {

lang::Outcome<std::string> one_line(const std::string& path) {
    lang::Outcome<std::string> key = read_text(path, false);
    while (key && !key->empty() && (key->back() == '\n' || key->back() == '\r'))
        key->pop_back();
    return key;
}

} // namespace

lang::Outcome<std::string> read_key(const std::string& path) {
    if (path.empty())
        return std::string();
    struct stat about = {};
    if (::stat(path.c_str(), &about) == 0 && S_ISREG(about.st_mode) && (about.st_mode & 077U) != 0)
        return lang::placeless(lang::Code::R009, "the key `" + path + "` can be read by others",
                               {"whoever reads it can sign in your name"},
                               {"`chmod 600 FILE` closes it; if others had access, retire it"});
    lang::Outcome<std::string> key = one_line(path);
    if (!key)
        return key;
    if (!engine::sign("", *key))
        return lang::placeless(
            lang::Code::R009, "`" + path + "` is not a secret key", {},
            {"a key is one line of 128 hexadecimal digits", "`acrewright key new FILE` makes one"});
    if (!engine::open_half(*key))
        return lang::placeless(lang::Code::R009,
                               "the two halves of the key `" + path + "` do not belong together",
                               {"a signature by it would prove nothing"},
                               {"restore the file from a copy, or make a new key"});
    return key;
}

lang::Outcome<std::string> read_open_key(const std::string& text) {
    if (engine::is_seal(text)) // as long as one
        return text;
    lang::Outcome<std::string> key = one_line(text);
    if (key && engine::is_seal(*key))
        return key;
    if (!key)
        return key;
    return lang::placeless(lang::Code::R009, "`" + text + "` is not an open key", {},
                           {"an open key is 64 hexadecimal digits, or a file that holds them",
                            "`acrewright key show FILE` prints that of a secret key"});
}

} // namespace acre::cli
