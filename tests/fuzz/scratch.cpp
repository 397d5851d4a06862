#include "tests/fuzz/scratch.h"

#include <cstdlib>
#include <filesystem>
#include <fstream>

#include <fcntl.h>
#include <unistd.h>

#include "cli/command.h"
#include "cli/exit_codes.h"
#include "tests/fuzz/properties.h"
#include "tests/fuzz/target.h"

namespace fs = std::filesystem;

namespace acre::fuzz {
namespace {

// Memory where the system has some: a fuzzer makes the folder a thousand times a second.
class Folder {
  public:
    Folder() {
        const fs::path memory = "/dev/shm";
        std::string path =
            (::access(memory.c_str(), W_OK) == 0 ? memory : fs::temp_directory_path()) /
            "acrewright-fuzz-XXXXXX";
        HOLDS(::mkdtemp(path.data()) != nullptr);
        path_ = path;
        HOLDS(::chdir(path.c_str()) == 0);
        const int nothing = ::open("/dev/null", O_RDONLY | O_CLOEXEC);
        HOLDS(nothing >= 0 && ::dup2(nothing, STDIN_FILENO) == STDIN_FILENO);
        ::close(nothing);
    }
    ~Folder() {
        std::error_code ignored;
        fs::remove_all(path_, ignored);
    }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    const fs::path& path() const { return path_; }

  private:
    fs::path path_;
};

bool leads_out(std::string_view path) {
    return path.starts_with('/') || path == ".." || path.starts_with("../") ||
           path.find("/../") != std::string_view::npos || path.ends_with("/..");
}

} // namespace

void set_out(const std::map<std::string, std::string>& files) {
    static const Folder folder;
    HOLDS(fs::current_path() == folder.path());
    for (const auto& entry : fs::directory_iterator(folder.path()))
        fs::remove_all(entry.path());
    for (const auto& [name, text] : files) {
        const fs::path path = folder.path() / name;
        if (path.parent_path() != folder.path())
            fs::create_directories(path.parent_path());
        std::ofstream(path, std::ios::binary) << text;
    }
}

bool stays_inside(const std::vector<std::string>& words) {
    for (const std::string& word : words)
        if (leads_out(word) || (word.find('=') != std::string::npos &&
                                leads_out(std::string_view(word).substr(word.find('=') + 1))))
            return false;
    return true;
}

int hold_command(const std::vector<std::string>& words, cli::Console& console) {
    const int code = cli::run(words, console);
    show(console.out + console.err);
    HOLDS_FOR(code == cli::exit_done || code == cli::exit_at_fault || code == cli::exit_usage ||
                  code == cli::exit_file,
              console.err);
    HOLDS_FOR(is_safe(console.err), console.err);
    HOLDS(code == cli::exit_done || !console.err.empty() ||
          !console.out.empty()); // a failure is told
    if (console.out.starts_with('{') && console.out.ends_with("}\n"))
        hold_json(console.out);
    return code;
}

} // namespace acre::fuzz
