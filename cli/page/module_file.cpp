#include "cli/page/module_file.h"

#include <algorithm>
#include <cstdlib>
#include <vector>

#include "cli/page/parts.h"
#include "cli/shared/files/confined.h"
#include "cli/shared/files/read_text.h"

namespace acre::cli {
namespace {

constexpr std::size_t most_module_bytes = 16U << 20U;
constexpr const char* made_by = "`.dev/module` in the program's sources builds it";

std::vector<std::string> usual_places() {
    char* program = ::realpath("/proc/self/exe", nullptr);
    if (program == nullptr)
        return {};
    const std::string folder = folder_of(program);
    std::free(program);
    const std::string above = folder_above(folder);
    return {folder + "/acrewright.module", above + "/share/acrewright/acrewright.module",
            folder_above(above) + "/build-module/acrewright.module"};
}

// Its first line is the stamp of its sources, its second the module.
lang::Outcome<std::string> checked(const std::string& path, std::string text) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    const std::string stamp = text.substr(0, end);
    if (stamp != source_stamp())
        return lang::placeless(
            lang::Code::F706, "`" + path + "` was built from other sources than this program",
            {"it is of " + stamp.substr(0, 40) + ", the program of " + std::string(source_stamp())},
            {made_by});
    text.erase(0, std::min(end + 1, text.size()));
    while (!text.empty() && text.back() == '\n')
        text.pop_back();
    const bool is_base64 = !text.empty() && std::all_of(text.begin(), text.end(), [](char c) {
        return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') ||
               c == '+' || c == '/' || c == '=';
    });
    if (!is_base64)
        return lang::placeless(lang::Code::F706, "`" + path + "` is not a module", {}, {made_by});
    return text;
}

} // namespace

lang::Outcome<std::string> read_module(const std::string& path) {
    const std::vector<std::string> places =
        path.empty() ? usual_places() : std::vector<std::string>{path};
    for (const std::string& place : places) {
        lang::Outcome<std::string> text = read_text(place, false, most_module_bytes);
        if (text)
            return checked(place, std::move(*text));
        const bool absent = text.said.diagnostics.all().front().code == lang::Code::F701;
        if (!absent)
            return text;
    }
    return lang::placeless(lang::Code::F701,
                           path.empty() ? "the engine for pages has not been built"
                                        : "there is no file `" + path + "`",
                           {}, {made_by});
}

} // namespace acre::cli
