// Runs the program with the shim before it, in a folder of its own, and looks at what it left
// there.
#pragma once

#include <map>
#include <string>
#include <vector>

namespace acre::tests {

// A fault as the shim knows it: at which call (0: none), what, and whether it stays.
struct Fault {
    long at = 0;
    std::string is;
    bool on = false;
};

struct Call {
    std::string name; // open folder write fsync fchmod close rename link unlink mkdir flock
    long result = 0;
    std::string path, second; // below the folder, or "stdout"
};

struct Ended {
    int code = 0; // -1: killed
    std::string out, err;
    std::vector<Call> calls;
};

// `aside`: a folder for what is not to be seen in `folder`. `out`: where standard output goes, if
// not to a file beside.
Ended run_program(const std::string& folder, const std::string& aside,
                  const std::vector<std::string>& words, const Fault& fault = {},
                  const std::string& out = {});

struct File {
    unsigned mode = 0;
    std::string bytes;
    friend bool operator==(const File&, const File&) = default;
};
using State = std::map<std::string, File>; // by the path below the folder

State state_of(const std::string& folder);

// A file that is on its way: no name of the user's.
bool is_beside(const std::string& path);

} // namespace acre::tests
