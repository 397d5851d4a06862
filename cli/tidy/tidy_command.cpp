#include "lang/syntax/tidy.h"

#include <memory>
#include <utility>

#include "cli/command.h"
#include "cli/shared/files/file_loader.h"
#include "cli/shared/files/write_file.h"
#include "cli/shared/job.h"
#include "lang/diag/safe_text.h"
#include "lang/earlier/forms.h"

namespace acre::cli {

namespace {

struct Tidied {
    std::string before, after;
};

// By the word that the file starts with, after comments and empty lines.
lang::FileKind kind_by_head(std::string_view text) {
    while (!text.empty() && (text[0] == '#' || text[0] == '\n' || text[0] == '\r'))
        text.remove_prefix(text[0] == '#' ? std::min(text.find('\n'), text.size()) : 1);
    return text.starts_with("job")      ? lang::FileKind::Job
           : text.starts_with("season") ? lang::FileKind::Season
           : text.starts_with("values") ? lang::FileKind::Values
           : text.starts_with("firm")   ? lang::FileKind::Firm
                                        : lang::FileKind::Model;
}

// The text as it is and as it should be; none for a file that cannot be read or has errors.
lang::Outcome<Tidied> tidied(const std::string& path) {
    lang::FileKind kind = lang::FileKind::Job;
    if (path != "-" && !file_kind(path, kind))
        return lang::placeless(lang::Code::C002,
                               "`" + path +
                                   "` is not a .rate, .season, .values, .job or .firm file");
    lang::Outcome<std::string> before = read_named_file(path);
    if (!before)
        return std::move(before.said);
    if (path == "-")
        kind = kind_by_head(*before);
    const auto sources = std::make_shared<lang::SourceMap>();
    lang::Said said{{}, sources};
    auto after = lang::tidy(*sources, sources->add(path, lang::renewed(path, *before, kind)), kind,
                            said.diagnostics);
    if (!after)
        return said;
    return {Tidied{std::move(*before), std::move(*after)}, std::move(said)};
}

// Where the tidy text goes.
enum class Goes { Out, Nowhere, InPlace };

void tidy_file(const std::string& path, Goes goes, Reply& reply) {
    lang::Outcome<Tidied> text = tidied(path);
    reply.said.push_back(std::move(text.said));
    if (!text)
        return;
    const bool is_tidy = text->before == text->after;
    if (goes == Goes::Nowhere && !is_tidy) {
        reply.page += lang::terminal_text(path) + " is not tidy\n";
        reply.verdict = exit_at_fault;
    } else if (goes == Goes::Out || (goes == Goes::InPlace && path == "-")) {
        reply.page += text->after;
        reply.exact = true;
    } else if (goes == Goes::InPlace && !is_tidy && save(path, text->after, reply)) {
        reply.note += lang::terminal_text(path) + " written\n";
    }
}

} // namespace

Reply tidy_command(Words words, Console&) {
    std::vector<std::string> paths;
    bool check = false;
    bool write = false;
    Arguments line("tidy",
                   "Puts a file into the standard layout: spaces and columns are set, forms of an "
                   "earlier version of the language are renewed, comments and the order of lines "
                   "stay. The text goes to standard output unless --write or "
                   "--check is given. A file with errors is left alone.",
                   "acrewright tidy models/deep-rip.rate");
    line.positionals(
        "FILE", "a .rate, .season, .values, .job or .firm file; - reads standard input", paths);
    line.flag("--check",
              "changes nothing; names the files that are not tidy; exit code 1 if there are any",
              check);
    line.flag("--write", "replaces the file, all of it or not at all", write);
    if (auto reply = line.read(words))
        return std::move(*reply);
    if (check && write)
        return lang::placeless(lang::Code::C004,
                               "`--check` and `--write` do not go together: one changes nothing");
    if (paths.size() > 1 && !check && !write)
        return lang::placeless(lang::Code::C004, "only one file can go to standard output", {},
                               {"for several files use --check or --write"});
    Reply reply;
    const Goes goes = check ? Goes::Nowhere : write ? Goes::InPlace : Goes::Out;
    for (const std::string& path : paths)
        tidy_file(path, goes, reply);
    return reply;
}

} // namespace acre::cli
