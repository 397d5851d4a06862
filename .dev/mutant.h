// What .dev/mutate plants asks by these which mistake is on, and tells which it came by.

#pragma once
#include <cstdio>
#include <cstdlib>
#include <fcntl.h>
#include <fstream>
#include <sstream>
#include <string>
#include <unistd.h>
// Tests clear the environment: a variable is that of the nearest process above that has it.
inline std::string acre_said(const std::string& name) {
    for (long process = ::getpid(); process > 1;) {
        const std::string folder = "/proc/" + std::to_string(process);
        std::ifstream file(folder + "/environ", std::ios::binary);
        std::ostringstream all;
        all << file.rdbuf();
        const std::string text = std::string(1, '\0') + all.str();
        const std::size_t at = text.find(std::string(1, '\0') + name + "=");
        if (at != std::string::npos)
            return text.c_str() + at + name.size() + 2;
        std::ifstream stat(folder + "/stat");
        std::string line;
        std::getline(stat, line);
        const std::size_t end = line.rfind(')');
        char state = 0;
        long parent = 0;
        if (end == std::string::npos ||
            std::sscanf(line.c_str() + end + 1, " %c %ld", &state, &parent) != 2)
            break;
        process = parent;
    }
    return {};
}
inline void acre_reached(int one) {
    static const std::string list = acre_said("ACREWRIGHT_REACHED");
    static bool told[100000] = {};
    if (list.empty() || told[one])
        return;
    told[one] = true;
    static const int file = ::open(list.c_str(), O_WRONLY | O_APPEND | O_CREAT | O_CLOEXEC, 0600);
    const std::string line = std::to_string(one) + "\n";
    if (::write(file, line.data(), line.size()) < 0)
        told[one] = false;
}
inline int acre_chosen() {
    static const int chosen = std::atoi(acre_said("ACREWRIGHT_MUTANT").c_str());
    return chosen;
}
inline bool acre_mutant(int one) {
    if (acre_chosen() == 0)
        acre_reached(one);
    return acre_chosen() == one;
}
// Reached where the wrong value is another one.
template <typename Wrong, typename Right> Right acre_value(int one, Wrong wrong, Right right) {
    bool differs = true;
    if constexpr (requires { right == right; })
        differs = !(static_cast<Right>(wrong) == right);
    if (acre_chosen() == 0 && differs)
        acre_reached(one);
    return acre_chosen() == one ? static_cast<Right>(wrong) : right;
}
