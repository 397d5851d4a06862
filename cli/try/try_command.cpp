#include <utility>

#include "cli/command.h"
#include "cli/shared/files/file_loader.h"
#include "cli/shared/job.h"
#include "cli/shared/text/wrap.h"
#include "cli/shared/typed_lines.h"
#include "cli/try/try_json.h"
#include "engine/questions/try_formula.h"
#include "lang/diag/render.h"
#include "lang/diag/safe_text.h"
#include "models/library_texts.h"

namespace acre::cli {

namespace {

std::string shown(const engine::TryAnswer& answer) {
    std::string text = answer.text;
    if (!answer.with_numbers.empty())
        text = answer.with_numbers + " = " + text;
    return wrap(lang::terminal_text(text), page_width, 2) + "\n";
}

// `7 ft in m`: another unit is another command.
std::string asks_for_unit(const std::string& formula, const lang::Said& said) {
    for (const lang::Diagnostic& one : said.diagnostics.all())
        if (one.code == lang::Code::S110 && said.sources != nullptr &&
            said.sources->text(one.primary.span) == "in") {
            const std::size_t in = formula.find(" in ");
            if (in != std::string::npos && formula.find('\'') == std::string::npos &&
                formula.find_first_not_of(' ', in + 4) != std::string::npos)
                return "acrewright measures '" + formula.substr(0, in) + "' in " +
                       formula.substr(in + 4);
        }
    return {};
}

// What mends it here, in place of what would in a file.
lang::Said with_mends_of_try(const std::string& formula, lang::Said said, bool has_job) {
    const std::string measures = asks_for_unit(formula, said);
    lang::Said out{{}, said.sources};
    for (lang::Diagnostic one : said.diagnostics.all()) {
        const bool none_near = one.helps.empty()
                                   ? one.notes.empty()
                                   : one.helps.front().text.starts_with("to use a model");
        if (one.code == lang::Code::N201 && !has_job && none_near)
            one.helps = {{"to use lines of a job, add  --job FILE", {}}};
        if (one.code == lang::Code::S110 && !measures.empty())
            one.helps = {{"for another unit:  " + measures, {}}};
        out.diagnostics.add(std::move(one));
    }
    return out;
}

// Formulas one after another: each is answered before the next is read.
class Trial {
  public:
    explicit Trial(const JobArguments& arguments) : loader_(loader_of(arguments)) {
        question_.from = built_in_name("index"); // so that no folder is searched
        for (const models::LibraryText& library : models::library_texts())
            question_.libraries.emplace_back(library.reference);
        if (arguments.path.empty())
            return;
        loader_.know(arguments.path);
        lang::Outcome<lang::Request> request = request_of(arguments, loader_);
        said_ = std::move(request.said);
        if (!request)
            return;
        if (auto fault = no_job(*request))
            said_.diagnostics.add(std::move(*fault));
        else
            question_.job = std::move(*request);
    }

    const lang::Said& said() const { return said_; } // errors: the job cannot be read

    lang::Outcome<engine::TryAnswer> of(const std::string& formula) {
        question_.formula = formula;
        lang::Outcome<engine::TryAnswer> answer = engine::ask(question_, loader_);
        if (!answer)
            return with_mends_of_try(formula, std::move(answer.said), question_.job.has_value());
        return answer;
    }

  private:
    static FileLoader loader_of(const JobArguments& arguments) {
        return arguments.path.empty() ? FileLoader("", "") : FileLoader(arguments.models);
    }

    FileLoader loader_;
    engine::TryQuestion question_;
    lang::Said said_;
};

Reply one(Trial& trial, const std::string& formula, bool json) {
    lang::Outcome<engine::TryAnswer> answer = trial.of(formula);
    Reply reply(std::move(answer.said));
    if (!answer)
        return reply;
    if (json)
        reply.document = try_json(*answer);
    else
        reply.page = shown(*answer);
    return reply;
}

// What somebody types who wants to go, unless a line of the job is called so.
bool leaves(const std::string& line) {
    return line == "quit" || line == "exit";
}

// Until the end of input. A formula at fault is told and the next is read.
Reply many(Trial& trial, Console& console) {
    TypedLines lines;
    Reply end;
    while (const std::optional<std::string> line = lines.next("try> ")) {
        if (line->find_first_not_of(" \t") == std::string::npos)
            continue;
        Reply reply = one(trial, *line, false);
        if (lines.person() && leaves(*line) && reply.page.empty())
            break;
        const int code = say(std::move(reply), false, console);
        if (code != exit_done && !lines.person())
            end.verdict = code;
        if (console.hand_over != nullptr && !console.hand_over(console).empty())
            break;
    }
    if (lines.too_long())
        return lang::placeless(lang::Code::C005, "a line is longer than the limit of " +
                                                     std::to_string(max_typed_bytes) + " bytes");
    return end;
}

} // namespace

Reply try_command(Words words, Console& console) {
    std::string formula;
    JobArguments job;
    Arguments line("try",
                   "Works out one formula, with units and the formulas of the library; with --job "
                   "it may name the lines of that job. Without FORMULA it reads one a line until "
                   "the end of input; at a terminal also until `quit`.",
                   "acrewright try 'fuel_by_pamphlet(850 hp, 90 %, diesel)'");
    line.positional("FORMULA", "as a model would write it", formula, false);
    line.option("--job", "FILE", "a .job or .rate file whose lines the formula may name", job.path);
    line.option("--set", "NAME=VALUE", "sets a given of the job; may be repeated", job.sets);
    line.option("--option", "TITLE", "takes one of the job's options", job.option);
    line.option("--season", "NAME", "this season in the place of the job's own", job.season);
    line.option("--models", "FOLDER", "one more folder to look for models in", job.models);
    line.flag("--json", "the result as JSON, of one formula", job.json);
    if (auto reply = line.read(words))
        return std::move(*reply);
    if (job.path.empty() && !(job.sets.empty() && job.option.empty() && job.season.empty()))
        return lang::placeless(lang::Code::C004, "there is no job to set anything in", {},
                               {"name one with --job FILE"});
    if (job.path == "-")
        return lang::placeless(lang::Code::C004, "`--job` takes a file, not standard input");
    if (formula.empty() && job.json)
        return lang::placeless(lang::Code::C004, "`--json` is for one formula", {},
                               {"write the formula on the command line"});
    Trial trial(job);
    if (trial.said().diagnostics.has_errors())
        return trial.said();
    return formula.empty() ? many(trial, console) : one(trial, formula, job.json);
}

} // namespace acre::cli
