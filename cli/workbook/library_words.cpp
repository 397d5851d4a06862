#include "cli/workbook/library_words.h"

#include <array>
#include <string_view>

#include <fcntl.h>
#include <sys/mman.h>
#include <unistd.h>

namespace acre::cli {

LibraryWords::LibraryWords()
    : before_(::fcntl(STDERR_FILENO, F_DUPFD_CLOEXEC, STDERR_FILENO + 1)),
      memory_(::memfd_create("words", MFD_CLOEXEC)) {
    if (before_ && memory_)
        ::dup2(memory_.value(), STDERR_FILENO);
}

LibraryWords::~LibraryWords() {
    if (before_ && memory_)
        ::dup2(before_.value(), STDERR_FILENO);
}

std::string LibraryWords::system_reason() const {
    std::array<char, 1024> begin{};
    const ssize_t got =
        memory_ ? ::pread(memory_.value(), begin.data(), begin.size(), 0) : ssize_t{-1};
    std::string_view words(begin.data(), got > 0 ? static_cast<std::size_t>(got) : 0);
    constexpr std::string_view lead = "System error = ";
    const std::size_t at = words.find(lead);
    if (at == std::string_view::npos)
        return {};
    words.remove_prefix(at + lead.size());
    return std::string(words.substr(0, words.find('\n')));
}

} // namespace acre::cli
