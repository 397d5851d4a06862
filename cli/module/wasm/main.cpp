// The module's two calls. Texts cross as UTF-8 in memory that the page asks for: `room(n)` gives n
// bytes to write to; `ask(n)` reads the question there and leaves the answer, whose length it
// returns, at `answer()`.
#include <exception>
#include <string>

#include "cli/module/session.h"

#define ACRE_CALL(name) extern "C" __attribute__((export_name(#name)))

extern "C" __attribute__((import_module("page"), import_name("passed"))) void passed(double trials);

namespace {

std::string question;
std::string reply;
acre::cli::Session& session() {
    static acre::cli::Session one([](std::uint64_t trials) { passed(double(trials)); });
    return one;
}

} // namespace

ACRE_CALL(room) char* room(std::size_t bytes) {
    question.assign(bytes, '\0');
    return question.data();
}

ACRE_CALL(ask) std::size_t ask() {
    reply = session().answer(question);
    return reply.size();
}

ACRE_CALL(answer) const char* answer() {
    return reply.data();
}
