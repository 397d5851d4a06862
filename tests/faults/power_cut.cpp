#include "tests/faults/power_cut.h"

#include <algorithm>
#include <cstdlib>
#include <optional>
#include <set>

namespace acre::tests {

namespace {

// Of the paths that calls are written down with; they are asked for millions of times.
std::string folder_of(const std::string& path) {
    const std::size_t slash = path.rfind('/');
    return slash == std::string::npos ? "" : path.substr(0, slash);
}

std::string name_of(const std::string& path) {
    return path.substr(path.rfind('/') + 1); // without a slash all of it
}

// The number of a record's file; 0 for others.
int record_number(const std::string& path) {
    const std::string name = name_of(path);
    return name.size() == 11 && name.ends_with(".json") ? std::atoi(name.c_str()) : 0;
}

std::string record_path(const std::string& folder, int number) {
    const std::string digits = std::to_string(number);
    return folder + "/" + std::string(6 - digits.size(), '0') + digits + ".json";
}

struct Content {
    long written = 0, flushed = 0;
    std::string needs; // a file that must be there if this one is
};

using Names = std::map<std::string, int>; // path → number of its content; -1: a folder

struct Change {
    std::string path;
    std::optional<int> content; // nothing: the name goes
};

class Disk {
  public:
    explicit Disk(const State& before) {
        for (const auto& [path, file] : before) {
            for (std::string folder = folder_of(path); !folder.empty(); folder = folder_of(folder))
                kept_[folder] = -1;
            kept_[path] = fresh();
        }
        seen_ = kept_;
    }

    void begin_run(bool at_fault) {
        changed_.clear();
        early_.clear();
        changed_since_ = true;
        at_fault_ = at_fault;
    }

    // What the call does to the disk, and to what is still on its way.
    void play(const Call& call) {
        if (call.result < 0 || name_of(call.path) == "lock" || is_outside(call.path))
            return;
        if (call.name == "open") {
            changed_since_ = changed_since_ || is_named(call.path);
            seen_[call.path] = fresh();
        } else if (call.name == "write" && call.path != "stdout") {
            content_at(at(call.path)).written += call.result;
            changed_since_ = changed_since_ || is_named(call.path);
        } else if (call.name == "fsync") {
            flush(call.path);
            changed_since_ = true;
        } else if (call.name == "mkdir") {
            change({call.path, -1});
        } else if (call.name == "link" || call.name == "rename") {
            const int content = at(call.path);
            if (record_number(call.second) > 0)
                need_texts(call.second, content);
            if (name_of(call.second) == "head")
                content_at(content).needs = newest_record(folder_of(call.second));
            change({call.second, content});
            if (call.name == "rename")
                change({call.path, std::nullopt});
        } else if (call.name == "unlink") {
            change({call.path, std::nullopt});
        }
    }

    // Every choice of what made it. `all`: everything this run changed must be there. What was
    // judged and has not changed since is not judged again.
    std::string judge(bool all) {
        if (!early_.empty())
            return early_;
        if (!changed_since_ && all == judged_all_)
            return {};
        changed_since_ = false;
        judged_all_ = all;
        for (unsigned choice = 0; choice < 1U << pending_.size(); ++choice) {
            Names names = kept_;
            for (std::size_t i = 0; i < pending_.size(); ++i)
                if ((choice >> i & 1U) != 0)
                    apply(pending_[i], names);
            if (const std::string fault = fault_of(names, all); !fault.empty())
                return fault;
        }
        return {};
    }

  private:
    Names kept_; // on the disk for good
    Names seen_; // as running programs see them
    std::vector<Change> pending_;
    std::vector<Content> contents_;
    std::set<std::string> changed_; // in this run
    bool at_fault_ = false;
    bool changed_since_ = true, judged_all_ = false;
    Names loose_;       // texts of a book that are not flushed: no record may name them yet
    std::string early_; // a record that does
    int fresh() {
        contents_.emplace_back();
        return static_cast<int>(contents_.size()) - 1;
    }
    Content& content_at(int number) { return contents_[static_cast<std::size_t>(number)]; }
    int at(const std::string& path) const { return seen_.at(path); }

    static void apply(const Change& change, Names& names) {
        if (change.content)
            names[change.path] = *change.content;
        else
            names.erase(change.path);
    }
    // The system's folder for what nobody keeps: it may hold anything after a power cut.
    static bool is_outside(const std::string& path) { return path.starts_with("../"); }
    static bool is_text(const std::string& path) { return name_of(folder_of(path)) == "texts"; }
    // Texts stand before the record that names them, and so does their folder.
    void need_texts(const std::string& record, int content) {
        if (!loose_.empty())
            early_ = record + " may be there without " + loose_.begin()->first;
        for (const auto& [path, number] : seen_)
            if (is_text(path) && folder_of(folder_of(path)) == folder_of(record))
                content_at(content).needs = path;
    }
    // Whether it may stand on the disk under a name that counts.
    bool is_named(const std::string& path) const {
        const auto found = seen_.find(path);
        const auto same = [&](const auto& name) { return name.second == found->second; };
        return !is_beside(path) ||
               (found != seen_.end() &&
                (std::any_of(kept_.begin(), kept_.end(), same) ||
                 std::any_of(pending_.begin(), pending_.end(),
                             [&](const Change& made) { return made.content == found->second; })));
    }
    void change(const Change& made) {
        apply(made, seen_);
        changed_since_ = true;
        if (is_beside(made.path)) // these may come and go as they like
            return;
        if (is_text(made.path) && made.content) {
            loose_[made.path] = *made.content;
            return;
        }
        pending_.push_back(made);
        changed_.insert(made.path);
    }
    void flush(const std::string& path) {
        const auto found = seen_.find(path);
        if (found != seen_.end() && found->second >= 0) {
            Content& content = content_at(found->second);
            content.flushed = content.written;
            return;
        }
        std::erase_if(loose_, [&](const auto& text) {
            const bool here = folder_of(text.first) == path;
            if (here)
                kept_[text.first] = text.second;
            return here;
        });
        std::erase_if(pending_, [&](const Change& change) {
            const bool here = folder_of(change.path) == path;
            if (here)
                apply(change, kept_);
            return here;
        });
    }
    std::string newest_record(const std::string& folder) const {
        int newest = 0;
        for (const auto& [path, content] : seen_)
            if (folder_of(path) == folder)
                newest = std::max(newest, record_number(path));
        return newest == 0 ? "" : record_path(folder, newest);
    }
    static bool is_there(const Names& names, const std::string& path) {
        for (std::string part = path; !part.empty(); part = folder_of(part))
            if (!names.contains(part))
                return false;
        return true;
    }
    std::string fault_of(const Names& names, bool all) const {
        for (const auto& [path, number] : names) {
            if (number < 0 || !is_there(names, path))
                continue;
            const Content& content = contents_[static_cast<std::size_t>(number)];
            if (content.flushed != content.written)
                return path + " is not whole";
            if (!content.needs.empty() && !is_there(names, content.needs))
                return path + " is there and " + content.needs + " is not";
            if (const int record = record_number(path);
                record > 1 && !is_there(names, record_path(folder_of(path), record - 1)))
                return path + " is there and the record before it is not";
        }
        if (all)
            for (const std::string& path : changed_)
                // A head that a fault kept from moving is moved by the next run.
                if ((!at_fault_ || name_of(path) != "head") &&
                    (!is_there(names, path) || names.at(path) != at(path)))
                    return path + " is not there although it was said to be";
        return {};
    }
};

} // namespace

std::string after_power_cut(const State& before, const std::vector<PlayedRun>& runs) {
    Disk disk(before);
    for (const PlayedRun& run : runs) {
        bool said = false;
        disk.begin_run(run.at_fault);
        for (std::size_t i = 0; i < run.calls.size(); ++i) {
            said = said || (run.success && run.calls[i].path == "stdout");
            disk.play(run.calls[i]);
            if (const std::string fault = disk.judge(said); !fault.empty())
                return "a power cut after call " + std::to_string(i + 1) + " (" +
                       run.calls[i].name + "): " + fault;
        }
        if (const std::string fault = disk.judge(run.success); !fault.empty())
            return "a power cut after the end: " + fault;
    }
    return {};
}

} // namespace acre::tests
