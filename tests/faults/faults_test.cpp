// Every call that changes a disk, of every command that does, goes wrong in every way: what is left
// is the old or the new, the program says which, and the next run works.
#include <doctest/doctest.h>

#include <atomic>
#include <cstring>
#include <mutex>
#include <set>
#include <thread>

#include "tests/faults/power_cut.h"
#include "tests/faults/trial.h"

namespace faults_test {

using namespace acre::tests;

TEST_CASE("whatever call goes wrong, in whatever way, the old is there or the new") {
    const ScratchFolder scratch;
    const std::vector<Prepared> all = prepare_all(scratch);
    std::vector<Trial> trials;
    for (const Prepared& prepared : all)
        for (long at = 1; at <= static_cast<long>(prepared.dry.calls.size()); ++at)
            for (const Kind& kind : kinds) {
                const Trial trial{&prepared, &kind, at};
                const bool fits = (*kind.only == '\0' || trial.call().name == kind.only) &&
                                  (!kind.stdout_alone || trial.call().path == "stdout");
                if (fits)
                    trials.push_back(trial);
            }
    std::atomic<std::size_t> taken{0};
    std::mutex guard;
    std::vector<std::string> faults;
    Judged judged;
    const auto work = [&](std::size_t worker) {
        const std::string room = scratch.path("room" + std::to_string(worker));
        const std::string aside = scratch.path("aside" + std::to_string(worker));
        fs::create_directory(aside);
        for (std::size_t i = taken++; i < trials.size(); i = taken++) {
            const std::string fault = try_out(trials[i], room, aside, judged);
            const std::lock_guard lock(guard);
            if (!fault.empty())
                faults.push_back(trials[i].prepared->command.name + ", call " +
                                 std::to_string(trials[i].at) + " (" + trials[i].call().name + " " +
                                 trials[i].call().path + "), " + trials[i].kind->is +
                                 (trials[i].kind->on ? " from there on" : "") + ": " + fault);
        }
    };
    std::vector<std::thread> workers;
    for (std::size_t worker = 0;
         worker < std::max(1U, std::min(4U, std::thread::hardware_concurrency())); ++worker)
        workers.emplace_back(work, worker);
    for (std::thread& worker : workers)
        worker.join();
    // One of a kind each: a command, and what is wrong with what it leaves.
    std::set<std::string> kinds_seen;
    for (const std::string& fault : faults)
        if (kinds_seen.insert(fault.substr(0, fault.find(',')) + fault.substr(fault.find(": ")))
                .second)
            FAIL_CHECK(fault);
    CHECK(faults.empty());
    CHECK(trials.size() > 2000);
    MESSAGE(trials.size() << " faults in " << all.size() << " commands, " << judged.counts());
}

TEST_CASE("without any one of its flushes a command would lose something in a power cut") {
    const ScratchFolder scratch;
    std::size_t flushes = 0;
    for (const Prepared& p : prepare_all(scratch)) {
        CAPTURE(p.command.name);
        CHECK(after_power_cut(p.before, {{p.dry.calls, true}}) == "");
        for (std::size_t i = 0; i < p.dry.calls.size(); ++i) {
            // Of two files that go to one folder the last flush serves both.
            const auto same = [&](const Call& later) {
                return later.name == "fsync" && later.path.empty() && p.dry.calls[i].path.empty();
            };
            if (p.dry.calls[i].name != "fsync" ||
                std::any_of(p.dry.calls.begin() + static_cast<std::ptrdiff_t>(i) + 1,
                            p.dry.calls.end(), same))
                continue;
            ++flushes;
            std::vector<Call> less = p.dry.calls;
            less.erase(less.begin() + static_cast<std::ptrdiff_t>(i));
            CHECK_MESSAGE(after_power_cut(p.before, {{less, true}}) != "", "call " << i + 1);
        }
    }
    CHECK(flushes > 20);
}

TEST_CASE("what a killed program left beside is removed a day later, and nothing else is") {
    const ScratchFolder scratch;
    const Prepared p = prepare(writing_commands().front(), scratch, 0);
    const auto day_old = fs::file_time_type::clock::now() - std::chrono::hours(25);
    for (const char* name : {".acrewright-Ab12cd", ".acrewright-fresh1", ".acrewright-longer12",
                             ".acrewright", "old.rate"}) {
        scratch.write("prepared0/" + std::string(name), "x");
        if (std::string_view(name) != ".acrewright-fresh1")
            fs::last_write_time(p.folder + "/" + name, day_old);
    }
    CHECK(run_program(p.folder, scratch.path(), p.command.words).code == 0);
    const State state = state_of(p.folder);
    CHECK(!state.contains(".acrewright-Ab12cd"));
    for (const char* name :
         {".acrewright-fresh1", ".acrewright-longer12", ".acrewright", "old.rate"})
        CHECK_MESSAGE(state.contains(name), name);
}

TEST_CASE("standard output on a full disk, and a reader that is gone") {
    const ScratchFolder scratch;
    const Prepared p = prepare(writing_commands().back(), scratch, 0);
    const Ended watched =
        run_program(p.folder, scratch.path(), {"price", "meadow.job", "--watch"}, {}, "/dev/full");
    CHECK(watched.code == 3);
    CHECK(watched.err ==
          "error F707: the result could not be written\n\n  No space left on device\n\n1 error\n");
    for (const Line& line :
         {Line{"price", "meadow.job"}, Line{"tidy", "meadow.job"}, Line{"--help"}}) {
        const Ended ended = run_program(p.folder, scratch.path(), line, {}, "/dev/full");
        CHECK(ended.code == 3);
        CHECK(ended.err ==
              "acrewright: the result could not be written: No space left on device\n");
    }
}

} // namespace faults_test
