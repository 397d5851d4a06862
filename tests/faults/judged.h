// What thousands of faults lead to is the same few dozen things: each is judged once.
#pragma once

#include <algorithm>
#include <filesystem>
#include <map>
#include <mutex>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "tests/faults/power_cut.h"
#include "tests/faults/run.h"

namespace acre::tests {

// What is left stands for itself, whatever led there: the names of files that are on their way are
// drawn anew in every run, so they do not count.
inline std::string text_of(const State& state, std::string_view below) {
    std::vector<std::string> files;
    for (const auto& [path, file] : state)
        if (path.starts_with(below))
            files.push_back(
                (is_beside(path) ? path.substr(0, path.rfind('/') + 1) + "beside" : path) + '\0' +
                std::to_string(file.mode) + '\0' + std::to_string(file.bytes.size()) + '\0' +
                file.bytes);
    std::sort(files.begin(), files.end());
    std::string text;
    for (const std::string& file : files)
        text += file;
    return text;
}

// The same of what was called: a file on its way is the first, the second, ...
inline std::string text_of(const std::vector<PlayedRun>& runs) {
    std::map<std::string, std::size_t> on_their_way;
    std::string text;
    const auto add = [&](const std::string& path) {
        text +=
            is_beside(path)
                ? path.substr(0, path.rfind('/') + 1) + '\1' +
                      std::to_string(on_their_way.emplace(path, on_their_way.size()).first->second)
                : path;
        text += '\0';
    };
    for (const PlayedRun& run : runs) {
        text += run.success ? "done" : "not done";
        text += run.at_fault ? " at fault\0" : "\0";
        for (const Call& call : run.calls) {
            text += call.name + ' ' + (call.result < 0 ? "-" : std::to_string(call.result)) + '\0';
            add(call.path);
            add(call.second);
        }
    }
    return text;
}

struct NextRun {
    std::string fault;
    std::vector<Call> calls;
};

class Judged {
  public:
    template <class Judge> std::string book(const State& state, Judge judge) {
        return once(books_, text_of(state, "book/"), judge);
    }
    template <class Judge>
    NextRun next(const std::string& command, const State& state, Judge judge) {
        return once(nexts_, command + '\0' + text_of(state, ""), judge);
    }
    std::string cut(const State& before, const std::vector<PlayedRun>& runs) {
        std::string names;
        for (const auto& [path, file] : before)
            names += path + '\0';
        return once(cuts_, names + text_of(runs), [&] { return after_power_cut(before, runs); });
    }
    std::string counts() const {
        return std::to_string(nexts_.size()) + " different things left, " +
               std::to_string(books_.size()) + " books, " + std::to_string(cuts_.size()) +
               " ways of calls";
    }

  private:
    template <class Map, class Judge>
    typename Map::mapped_type once(Map& known, const std::string& what, Judge judge) {
        {
            const std::lock_guard lock(guard_);
            if (const auto found = known.find(what); found != known.end())
                return found->second;
        }
        const auto made = judge();
        const std::lock_guard lock(guard_);
        return known.emplace(what, made).first->second;
    }

    std::mutex guard_;
    std::unordered_map<std::string, std::string> books_, cuts_;
    std::unordered_map<std::string, NextRun> nexts_;
};

} // namespace acre::tests
