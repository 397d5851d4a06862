// One command with one call gone wrong in one way, and what is wrong with what it leaves.
#pragma once

#include <algorithm>
#include <cerrno>
#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include "cli/command.h"
#include "tests/faults/judged.h"
#include "tests/faults/run.h"
#include "tests/faults/writing_commands.h"
#include "tests/support/scratch_folder.h"

namespace acre::tests {

namespace fs = std::filesystem;

enum class Ends { Any, Well, Killed };
struct Kind {
    const char* is;
    int error;             // what the program is told; 0: nothing
    bool on;               // every later call too
    Ends ends;             // how the program must end
    const char* only = ""; // the only call it is for
    bool stdout_alone = false;
};
inline constexpr Kind kinds[] = {
    {"ENOSPC", ENOSPC, false, Ends::Any},    {"EIO", EIO, false, Ends::Any},
    {"EDQUOT", EDQUOT, false, Ends::Any},    {"EROFS", EROFS, false, Ends::Any},
    {"EPERM", EPERM, false, Ends::Any},      {"lost", EIO, false, Ends::Any},
    {"ENOSPC", ENOSPC, true, Ends::Any},     {"EIO", EIO, true, Ends::Any},
    {"EROFS", EROFS, true, Ends::Any},       {"EINTR", EINTR, false, Ends::Well},
    {"one", 0, false, Ends::Well, "write"},  {"one", 0, true, Ends::Well, "write"},
    {"half", 0, false, Ends::Well, "write"}, {"EAGAIN", EAGAIN, false, Ends::Well, "write", true},
    {"before", 0, false, Ends::Killed},      {"after", 0, false, Ends::Killed},
};

struct Prepared {
    WritingCommand command;
    std::string folder; // as it stands before
    State before, after;
    Ended dry;
};

struct Trial {
    const Prepared* prepared;
    const Kind* kind;
    long at;
    const Call& call() const { return prepared->dry.calls[static_cast<std::size_t>(at - 1)]; }
};

inline void copy_folder(const std::string& from, const std::string& to) {
    fs::remove_all(to);
    fs::copy(from, to, fs::copy_options::recursive);
}

inline bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

inline Prepared prepare(const WritingCommand& command, const ScratchFolder& scratch,
                        std::size_t number) {
    const std::string name = "prepared" + std::to_string(number);
    Prepared prepared{command, scratch.path(name), {}, {}, {}};
    for (const Files& files : {small_firm(), command.also})
        for (const auto& [path, text] : files)
            scratch.write(name + "/" + path, text);
    for (const std::string& target : command.targets)
        if (fs::exists(prepared.folder + "/" + target))
            fs::permissions(prepared.folder + "/" + target, fs::perms(0640));
    for (const Line& line : command.before)
        REQUIRE(run_program(prepared.folder, scratch.path(), line).code == 0);
    prepared.before = state_of(prepared.folder);
    const std::string room = scratch.path("dry");
    copy_folder(prepared.folder, room);
    prepared.dry = run_program(room, scratch.path(), command.words);
    REQUIRE_MESSAGE(prepared.dry.code == 0, prepared.dry.err);
    prepared.after = state_of(room);
    return prepared;
}

// Verifies, and no number is given twice. Empty: so it is.
inline std::string book_fault(const std::string& folder) {
    std::set<std::string> numbers;
    bool any = false;
    if (!fs::exists(folder))
        return {};
    for (const auto& entry : fs::directory_iterator(folder)) {
        if (entry.path().extension() != ".json")
            continue;
        any = true;
        const nlohmann::json record =
            nlohmann::json::parse(file_text(entry.path()), nullptr, false);
        if (!record.is_object())
            return entry.path().string() + " is no record";
        if (record["kind"] == "quote" && !numbers.insert(record["quote"]).second)
            return "a number is given twice";
    }
    acre::cli::Console console;
    const std::vector<std::string> words = {"verify", folder};
    return any && acre::cli::run(words, console) != 0
               ? "the book does not verify: " + console.out + console.err
               : "";
}

// Old or new, and nothing beside unless the program could not help it.
inline std::string state_fault(const Trial& trial, const State& state, bool excused) {
    const auto at = [](const State& all, const std::string& path) {
        const auto found = all.find(path);
        return found == all.end() ? nullptr : &found->second;
    };
    std::size_t beside = 0;
    for (const auto& [path, file] : state) {
        const File* old_file = at(trial.prepared->before, path);
        const File* new_file = at(trial.prepared->after, path);
        if (is_beside(path))
            ++beside;
        else if (!(old_file != nullptr && *old_file == file) &&
                 !(new_file != nullptr && *new_file == file))
            return path + " is neither the old nor the new";
    }
    for (const auto& [path, file] : trial.prepared->before)
        if (!state.contains(path))
            return path + " is gone";
    return beside > (excused ? 1U : 0U) ? "something was left beside" : "";
}

// What is said on one line, however it was folded. With --json a failure is a document on standard
// output.
inline std::string all_said(const WritingCommand& command, const Ended& ended) {
    const bool json =
        std::find(command.words.begin(), command.words.end(), "--json") != command.words.end();
    std::istringstream words(ended.err + (json ? ended.out : ""));
    std::string said;
    for (std::string word; words >> word;)
        said += (said.empty() ? "" : " ") + word;
    return said;
}

// How many errors are told.
inline std::size_t messages(const std::string& text) {
    std::istringstream lines(text);
    std::size_t count = 0;
    for (std::string line; std::getline(lines, line);)
        count += line.starts_with("acrewright:") || line.starts_with("error") ? 1 : 0;
    return count;
}

inline std::string message_fault(const Trial& trial, const Ended& ended, const State& state) {
    const WritingCommand& command = trial.prepared->command;
    const State& before = trial.prepared->before;
    const std::string said = all_said(command, ended);
    if (!has(said, std::strerror(trial.kind->error)))
        return "the reason is not said";
    // A folder to read from is opened once: each text that is looked for in it is named.
    if (trial.call().name == "folder" && state == before && has(said, "cannot be read"))
        return {};
    const bool about_output = has(said, "acrewright: the result could not be written: ");
    // Nothing of a workbook was begun where its library had no room.
    bool named = about_output || (command.book && has(said, "the book `book`")) ||
                 (has(said, "the workbook cannot be made") && state == before);
    for (const std::string& target : command.targets) {
        const std::string above = fs::path(target).parent_path().string();
        named = named || (!above.empty() && has(said, "`" + above + "` was not written: ") &&
                          (!state.contains(target) || has(said, "`" + target + "` is left there")));
        const bool stood = before.contains(target);
        const bool is_old =
            state.contains(target) == stood && (!stood || state.at(target) == before.at(target));
        if (has(said, "`" + target + "` was not written: ")) {
            named = true;
            if (!is_old)
                return target + " was written and it is said that it was not";
        }
        if (has(said, "`" + target + "` was written but may be lost")) {
            named = true;
            if (is_old)
                return target + " was not written and it is said that it was";
        }
    }
    if (!named)
        return "the file is not named";
    std::size_t added = 0;
    for (const auto& [path, file] : state)
        added += !before.contains(path) && path.ends_with(".json") ? 1 : 0;
    const bool none_said = has(said, "no quote was issued") || has(said, "no bill was made") ||
                           has(said, "nothing was written");
    if (command.book && has(said, "the book `book`") && (added == 0) != none_said)
        return "what became of the record is told wrongly";
    if (command.book && about_output && added > 0 && !has(said, " anyway"))
        return "it is not said that the record stands";
    // One thing went wrong: one message. What goes on going wrong may be told once for each file.
    if (!trial.kind->on && messages(ended.err) > 1)
        return "there is more than one message";
    return {};
}

inline std::string outcome_fault(const Trial& trial, const Ended& ended, const State& state) {
    const Prepared& p = *trial.prepared;
    if (trial.kind->ends == Ends::Killed)
        return ended.code == -1 ? "" : "it was not killed";
    if (ended.code != 0 && (ended.code != 3 || trial.kind->ends == Ends::Well))
        return "it ends with " + std::to_string(ended.code);
    if (ended.code == 3)
        return message_fault(trial, ended, state);
    State settled = state;
    std::erase_if(settled, [](const auto& file) { return is_beside(file.first); });
    if (trial.call().path.ends_with("head") || trial.call().second.ends_with("head") ||
        has(trial.call().path, "book/")) {
        // The head may stay one behind: the next run moves it.
        State wanted = p.after;
        wanted.erase("book/head");
        settled.erase("book/head");
        if (settled != wanted)
            return "it says it is done and it is not";
    } else if (settled != p.after) {
        return "it says it is done and it is not";
    }
    return ended.out == p.dry.out && ended.err == p.dry.err ? "" : "it says something else";
}

// The next run works, and what the fault left beside does not grow.
inline std::string next_fault(const Trial& trial, const std::string& room, const State& state,
                              const Ended& next) {
    const WritingCommand& command = trial.prepared->command;
    if (next.code != 0)
        return "ends with " + std::to_string(next.code) + ": " + next.err;
    std::size_t left = 0;
    std::size_t was_left = 0;
    const State then = state_of(room);
    for (const auto& [path, file] : then)
        left += is_beside(path) ? 1 : 0;
    for (const auto& [path, file] : state)
        was_left += is_beside(path) ? 1 : 0;
    if (left != was_left)
        return "leaves something beside";
    if (!command.book)
        for (const std::string& target : command.targets)
            if (!then.contains(target) || then.at(target) != trial.prepared->after.at(target))
                return target + " is not the new";
    return book_fault(room + "/book");
}

// A record stands, or a file that was not there: some commands do that only once.
inline bool is_done(const Trial& trial, const State& state) {
    const Prepared& p = *trial.prepared;
    const auto is_work = [&](const std::string& path) {
        return p.command.book ? path.ends_with(".json") : !is_beside(path);
    };
    return std::any_of(state.begin(), state.end(), [&](const auto& file) {
        return is_work(file.first) && !p.before.contains(file.first);
    });
}

inline std::string try_out(const Trial& trial, const std::string& room, const std::string& aside,
                           Judged& judged) {
    const Prepared& p = *trial.prepared;
    copy_folder(p.folder, room);
    const Ended ended =
        run_program(room, aside, p.command.words, {trial.at, trial.kind->is, trial.kind->on});
    const State state = state_of(room);
    const bool excused =
        trial.kind->ends == Ends::Killed || trial.kind->on || trial.call().name == "unlink" ||
        (trial.call().name == "open" && std::string_view(trial.kind->is) == "lost");
    std::string fault = state_fault(trial, state, excused);
    if (fault.empty())
        fault = outcome_fault(trial, ended, state);
    if (fault.empty())
        fault = judged.book(state, [&] { return book_fault(room + "/book"); });
    if (!fault.empty())
        return fault + "\n" + ended.err;
    const NextRun next = judged.next(p.command.name, state, [&] {
        const bool otherwise = !p.command.next.empty() && is_done(trial, state);
        const Ended run = run_program(room, aside, otherwise ? p.command.next : p.command.words);
        return NextRun{next_fault(trial, room, state, run), run.calls};
    });
    if (!next.fault.empty())
        return "the next run " + next.fault;
    return judged.cut(p.before, {{ended.calls, ended.code == 0, true}, {next.calls, true}});
}

inline std::vector<Prepared> prepare_all(const ScratchFolder& scratch) {
    std::vector<Prepared> all;
    for (const WritingCommand& command : writing_commands())
        all.push_back(prepare(command, scratch, all.size()));
    return all;
}

} // namespace acre::tests
