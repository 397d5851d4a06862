// What every fuzz target has in common. A target is one file with
//
//   ACREWRIGHT_TARGET(notation, text) { … }
//
// a function of one text that ends the program when something that must hold does not. Built for
// the fuzzer it is LLVMFuzzerTestOneInput; built into `replay` (ACREWRIGHT_REPLAY) it enters a
// list.
#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <string_view>

#include "lang/diag/safe_text.h"
#include "lang/source/utf8.h"

namespace acre::fuzz {

using Run = void (*)(std::string_view text);

struct Target {
    const char* name;
    Run run;
    Target* next;
};
void enter(Target& target); // replay.cpp

[[noreturn]] inline void broken(const char* what, const char* file, int line,
                                std::string_view detail = {}) {
    std::fprintf(stderr, "%s:%d: does not hold: %s\n%.*s\n", file, line, what,
                 static_cast<int>(detail.size()), detail.data());
    std::abort();
}

// For a person who looks at what an input comes to.
inline bool talkative() {
    static const bool on = std::getenv("ACREWRIGHT_FUZZ_SHOW") != nullptr;
    return on;
}
inline void show(std::string_view what) {
    if (talkative())
        std::fprintf(stderr, "%.*s\n", static_cast<int>(what.size()), what.data());
}

// Text for a terminal: line ends, and else nothing that terminal_text would have to make visible.
inline bool is_safe(std::string_view text) {
    for (std::size_t at = 0; at < text.size();)
        if (const char32_t character = lang::next_character(text, at);
            character != '\n' &&
            (character == lang::not_utf8 || lang::is_unsafe_character(character)))
            return false;
    return true;
}

// Whether an input is looked at for one thing of so many: the replay looks for everything, the
// fuzzer for one each time, or most of its time would go to what the mutation has nothing to do
// with.
inline bool looks_at([[maybe_unused]] std::size_t what, [[maybe_unused]] std::size_t of,
                     [[maybe_unused]] std::string_view bytes) {
#ifdef ACREWRIGHT_REPLAY
    return true;
#else
    std::size_t sum = bytes.size();
    for (const char c : bytes)
        sum = sum * 31 + static_cast<unsigned char>(c);
    return (sum >> 7U) % of == what;
#endif
}

// The pieces of an input of several texts: a line of three dashes stands between them. Missing
// pieces are empty.
template <std::size_t count> std::array<std::string, count> pieces(std::string_view text) {
    std::array<std::string, count> parts;
    for (std::size_t i = 0; i < count; ++i) {
        const std::size_t rule = i + 1 < count ? text.find("\n---\n") : std::string_view::npos;
        parts[i] = rule == std::string_view::npos ? text : text.substr(0, rule + 1);
        text = rule == std::string_view::npos ? std::string_view() : text.substr(rule + 5);
    }
    return parts;
}

} // namespace acre::fuzz

#define HOLDS(condition)                                                                           \
    ((condition) ? (void)0 : acre::fuzz::broken(#condition, __FILE__, __LINE__))
#define HOLDS_FOR(condition, detail)                                                               \
    ((condition) ? (void)0 : acre::fuzz::broken(#condition, __FILE__, __LINE__, detail))

#ifdef ACREWRIGHT_REPLAY
#define ACREWRIGHT_TARGET(name, text)                                                              \
    static void name##_target(std::string_view text);                                              \
    namespace {                                                                                    \
    struct name##_entry {                                                                          \
        acre::fuzz::Target target{#name, name##_target, nullptr};                                  \
        name##_entry() { acre::fuzz::enter(target); }                                              \
    } name##_entered;                                                                              \
    }                                                                                              \
    static void name##_target(std::string_view text)
#else
#define ACREWRIGHT_TARGET(name, text)                                                              \
    static void name##_target(std::string_view text);                                              \
    extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {            \
        name##_target({reinterpret_cast<const char*>(data), size});                                \
        return 0;                                                                                  \
    }                                                                                              \
    static void name##_target(std::string_view text)
#endif
