#include "tests/faults/run.h"

#include <filesystem>
#include <fstream>
#include <iterator>
#include <sstream>
#include <stdexcept>

#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

namespace acre::tests {

namespace fs = std::filesystem;

namespace {

constexpr char beside[] = ".acrewright-";

std::string bytes_of(const fs::path& path) {
    std::string bytes(fs::file_size(path), '\0');
    std::ifstream(path, std::ios::binary)
        .read(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    return bytes;
}

std::string below(const std::string& path, const std::string& folder) {
    if (path == "stdout" || path.empty())
        return path;
    const fs::path full = fs::path(path).is_absolute() ? fs::path(path) : fs::path(folder) / path;
    const std::string relative =
        full.lexically_normal().lexically_relative(fs::path(folder).lexically_normal()).string();
    return relative == "." ? "" : relative;
}

std::vector<Call> read_calls(const std::string& log, const std::string& folder) {
    std::vector<Call> calls;
    std::ifstream in(log);
    for (std::string line; std::getline(in, line);) {
        std::istringstream cells(line);
        Call& call = calls.emplace_back();
        std::string result;
        std::getline(cells, call.name, '\t');
        std::getline(cells, result, '\t');
        std::getline(cells, call.path, '\t');
        std::getline(cells, call.second, '\t');
        call.result = std::stol(result);
        call.path = below(call.path, folder);
        call.second = below(call.second, folder);
    }
    return calls;
}

} // namespace

Ended run_program(const std::string& folder, const std::string& aside,
                  const std::vector<std::string>& words, const Fault& fault,
                  const std::string& out) {
    const std::string said = out.empty() ? aside + "/out" : out;
    const std::string faults = aside + "/err";
    const std::string log = aside + "/calls";
    ::unlink(log.c_str());
    // Its own and empty: a library that draws names for temporary files by the clock draws again
    // where one is taken, and then every later call has another number.
    const std::string temporary = aside + "/temporary";
    fs::remove_all(temporary);
    fs::create_directory(temporary);
    std::vector<std::string> arguments = {ACREWRIGHT_PROGRAM};
    arguments.insert(arguments.end(), words.begin(), words.end());
    std::vector<std::string> environment = {
        "LD_PRELOAD=" ACREWRIGHT_FAULT_SHIM,
        "FAULT_LOG=" + log,
        "FAULT_AT=" + std::to_string(fault.at),
        "FAULT_IS=" + fault.is,
        "TMPDIR=" + temporary,
        "SOURCE_DATE_EPOCH=1804420800"}; // what is done twice is the same
    if (fault.on)
        environment.emplace_back("FAULT_ON=yes");
    const auto pointers = [](std::vector<std::string>& texts) {
        std::vector<char*> all;
        for (std::string& text : texts)
            all.push_back(text.data());
        all.push_back(nullptr);
        return all;
    };
    posix_spawn_file_actions_t actions;
    ::posix_spawn_file_actions_init(&actions);
    ::posix_spawn_file_actions_addopen(&actions, STDIN_FILENO, "/dev/null", O_RDONLY, 0);
    ::posix_spawn_file_actions_addopen(&actions, STDOUT_FILENO, said.c_str(),
                                       O_WRONLY | O_CREAT | O_TRUNC, 0600);
    ::posix_spawn_file_actions_addopen(&actions, STDERR_FILENO, faults.c_str(),
                                       O_WRONLY | O_CREAT | O_TRUNC, 0600);
    ::posix_spawn_file_actions_addchdir_np(&actions, folder.c_str());
    pid_t child = 0;
    const int spawned = ::posix_spawn(&child, ACREWRIGHT_PROGRAM, &actions, nullptr,
                                      pointers(arguments).data(), pointers(environment).data());
    ::posix_spawn_file_actions_destroy(&actions);
    int status = 0;
    if (spawned != 0 || ::waitpid(child, &status, 0) != child)
        throw std::runtime_error("the program could not be started");
    Ended ended;
    ended.code = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    ended.out = out.empty() ? bytes_of(said) : "";
    ended.err = bytes_of(faults);
    ended.calls = read_calls(log, folder);
    return ended;
}

State state_of(const std::string& folder) {
    State state;
    for (const auto& entry : fs::recursive_directory_iterator(folder))
        if (entry.is_regular_file())
            state[entry.path().lexically_relative(folder).string()] = {
                static_cast<unsigned>(entry.status().permissions()), bytes_of(entry.path())};
    return state;
}

bool is_beside(const std::string& path) {
    return path.compare(path.rfind('/') + 1, std::size(beside) - 1, beside) == 0;
}

} // namespace acre::tests
