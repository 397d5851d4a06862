#include "cli/shell/complete.h"

#include <algorithm>
#include <filesystem>
#include <functional>
#include <system_error>

#include "cli/shared/code_list.h"
#include "cli/shared/files/confined.h"
#include "cli/shared/files/file_loader.h"
#include "cli/shared/job.h"
#include "engine/questions/library.h"
#include "engine/questions/measures.h"
#include "engine/questions/outline.h"
#include "lang/syntax/word_page.h"
#include "models/library_texts.h"

namespace acre::cli {

namespace {

using Candidates = std::vector<std::string>;

constexpr std::size_t most_candidates = 2'000;

const Command* command_named(const std::string& name) {
    for (const Command& command : commands())
        if (command.name == name)
            return &command;
    return nullptr;
}

// The job that the line names, made from what stands there; null: none, or it is at fault.
std::shared_ptr<const engine::Outline> outline_of(Words words) {
    const auto job = std::find_if(words.begin(), words.end(), [](const std::string& word) {
        return word.ends_with(".job") || word.ends_with(".rate");
    });
    if (job == words.end())
        return nullptr;
    JobArguments arguments;
    arguments.path = *job;
    FileLoader loader;
    loader.know(*job);
    const lang::Outcome<lang::Request> request = request_of(arguments, loader);
    if (!request)
        return nullptr;
    const lang::Outcome<engine::Job> made = engine::make_job(*request, loader, engine::Aim::Look);
    return made ? std::make_shared<const engine::Outline>(
                      engine::ask(**made, engine::OutlineQuestion{}))
                : nullptr;
}

void add_lines(Words words, bool givens, const char* end, Candidates& found) {
    const auto outline = outline_of(words);
    if (outline == nullptr)
        return;
    for (const engine::Symbol& symbol : outline->symbols)
        if (!givens || symbol.kind == engine::Symbol::Kind::Given)
            for (const engine::LineNow& line : symbol.lines)
                found.push_back(line.name + end);
    if (givens)
        return;
    for (const engine::PriceNow& price : outline->prices)
        for (const char* part : {".cost", ".amount", ".rate"})
            found.push_back(price.name + part);
    for (const char* total : {"cost.total", "price.total", "price.per_unit", "profit.total"})
        found.emplace_back(total);
}

// `method=`: the options of the choice, where it is one.
void add_givens(Words words, const std::string& written, Candidates& found) {
    const std::size_t equals = written.find('=');
    if (equals == std::string::npos)
        return add_lines(words, true, "=", found);
    const auto outline = outline_of(words);
    if (outline == nullptr)
        return;
    const std::string_view name = std::string_view(written).substr(0, equals);
    for (const engine::Symbol& symbol : outline->symbols)
        for (const engine::LineNow& line : symbol.lines)
            if (symbol.kind == engine::Symbol::Kind::Given && line.name == name)
                for (const std::string& option : symbol.options)
                    found.push_back(line.name + "=" + option);
}

// Names in the folder of what is written; files of these endings, folders always.
void add_files(const std::string& written, const std::vector<std::string_view>& endings,
               Candidates& found) {
    const std::size_t slash = written.rfind('/');
    const std::string folder = slash == std::string::npos ? "" : written.substr(0, slash + 1);
    const std::string begin = written.substr(folder.size());
    std::error_code error;
    for (std::filesystem::directory_iterator it(folder.empty() ? "." : folder, error), end;
         !error && it != end && found.size() < most_candidates; it.increment(error)) {
        const std::string name = it->path().filename();
        if (name.starts_with('.') && !begin.starts_with('.'))
            continue;
        std::error_code unknown;
        if (it->is_directory(unknown))
            found.push_back(folder + name + "/");
        else if (endings.empty() ||
                 std::any_of(endings.begin(), endings.end(),
                             [&](std::string_view ending) { return name.ends_with(ending); }))
            found.push_back(folder + name);
    }
}

void add_formulas(Candidates& found) {
    engine::LibraryQuestion question;
    for (const models::LibraryText& library : models::library_texts())
        question.libraries.emplace_back(library.reference);
    question.from = built_in_name("index");
    FileLoader loader("", "");
    if (const auto answer = engine::ask(question, loader))
        for (const engine::Formula& formula : answer->formulas)
            found.push_back(formula.name);
}

void add_words(const std::string& command, Candidates& found) {
    if (command == "words")
        for (const std::string_view word : lang::explained_words())
            found.emplace_back(word);
    else if (const auto units = engine::ask(engine::MeasuresQuestion{}))
        for (const lang::Measure& unit : units->units)
            found.emplace_back(unit.name);
}

void add_seasons(Words words, Candidates& found) {
    FileLoader loader;
    for (const std::string& word : words)
        if (word.ends_with(".job"))
            for (std::string& season : loader.references(lang::ReferenceKind::Season, word))
                found.push_back(std::move(season));
}

// By what an option or an argument is called in the help of its command.
void add_value(const std::string& command, std::string_view called, Words words,
               const std::string& written, Candidates& found) {
    if (called.ends_with("..."))
        called.remove_suffix(3);
    if (called == "JOB" || called == "OLD" || called == "NEW" || called == "OTHER")
        add_files(written, {".job", ".rate"}, found);
    else if (called == "FILE" || called == "BOUNDARY" || called == "LOG")
        add_files(written,
                  command == "check" || command == "tidy"
                      ? std::vector<std::string_view>{".job", ".rate", ".season"}
                  : called == "BOUNDARY" ? std::vector<std::string_view>{".geojson"}
                  : called == "LOG"      ? std::vector<std::string_view>{".csv"}
                                         : std::vector<std::string_view>{},
                  found);
    else if (called == "FOLDER" || called == "BOOK")
        add_files(written, {"/"}, found);
    else if (called == "NAME=VALUE" || called.starts_with("GIVEN="))
        add_givens(words, written, found);
    else if (called == "GIVEN")
        add_lines(words, true, "", found);
    else if (called == "LINE")
        add_lines(words, false, "", found);
    else if (called == "LINE=VALUE")
        add_lines(words, false, "=", found);
    else if (called == "TITLE") {
        if (const auto outline = outline_of(words))
            found.insert(found.end(), outline->options.begin(), outline->options.end());
    } else if (called == "CODE") {
        for (const lang::Code code : all_codes)
            found.emplace_back(lang::name_of(code));
    } else if (called == "WHAT") {
        const bool shell = command == "shell"; // else `editor --print`
        for (const char* what :
             {shell ? "bash" : "syntax", shell ? "zsh" : "filetype", shell ? "complete" : "setup"})
            found.emplace_back(what);
    } else if (called == "WORD" || called == "UNIT")
        add_words(command, found);
    else if (called == "NAME" && command == "library")
        add_formulas(found);
    else if (called == "NAME")
        add_seasons(words, found);
}

void add_of_command(const Command& command, Words words, Candidates& found) {
    Console unused;
    const std::vector<std::string> help = {"--help"};
    const Reply reply = command.run(help, unused);
    if (reply.usage == nullptr)
        return;
    const Usage& usage = *reply.usage;
    const std::string& written = words.back();
    const std::string name(command.name);
    const auto option_of = [&](const std::string& word) -> const UsageRow* {
        for (const UsageRow& row : usage.options)
            if (row.name == word)
                return &row;
        return nullptr;
    };
    std::size_t positionals = 0;
    bool is_value = false;
    for (std::size_t i = 1; i + 1 < words.size(); ++i) {
        const UsageRow* option = is_value ? nullptr : option_of(words[i]);
        positionals += !is_value && option == nullptr && !words[i].starts_with('-') ? 1 : 0;
        is_value = option != nullptr && !option->value.empty();
    }
    if (is_value)
        return add_value(name, option_of(words[words.size() - 2])->value, words, written, found);
    if (written.starts_with('-')) {
        for (const UsageRow& row : usage.options)
            found.push_back(row.name);
        return;
    }
    if (usage.positionals.empty())
        return;
    const UsageRow& row = usage.positionals[std::min(positionals, usage.positionals.size() - 1)];
    if (positionals < usage.positionals.size() || row.name.ends_with("..."))
        add_value(name, row.name == "in" ? "" : row.name, words, written, found);
    if (row.name == "in")
        found.emplace_back("in");
}

} // namespace

std::vector<std::string> completions(Words words) {
    Candidates found;
    if (words.empty())
        return found;
    const std::string& written = words.back();
    if (words.size() == 1) {
        for (const Command& command : commands())
            found.emplace_back(command.name);
        for (const char* other : {"help", "--help", "--version"})
            found.emplace_back(other);
    } else if (words[0] == "help") {
        for (const Command& command : commands())
            found.emplace_back(command.name);
    } else if (const Command* command = command_named(words[0])) {
        add_of_command(*command, words, found);
    }
    std::erase_if(found, [&](const std::string& one) { return !one.starts_with(written); });
    std::sort(found.begin(), found.end());
    found.erase(std::unique(found.begin(), found.end()), found.end());
    if (found.size() > most_candidates)
        found.resize(most_candidates);
    return found;
}

} // namespace acre::cli
