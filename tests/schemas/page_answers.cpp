// Prints what a page holds and what its module answers that no command prints: one JSON document a
// line, for validate.py. `page_answers JOB...`
#include <cstdio>
#include <string>
#include <vector>

#include "cli/module/session.h"
#include "cli/page/collect.h"

namespace {

// The texts are ASCII JSON, so the name of a text stands in them as it is.
std::vector<std::string> questions_of(const std::string& texts, const std::string& job) {
    std::vector<std::string> all = {R"({"ask": "texts", "texts": )" + texts + "}",
                                    R"({"ask": "text", "name": ")" + job +
                                        R"(", "text": "job \"a\"\nmodel \"deep-rip\"\n"})"};
    for (const char* sets : {"[]", R"([["area", "40 ac"]])"})
        all.push_back(std::string(R"({"ask": "givens", "job": 0, "sets": )") + sets + "}");
    all.emplace_back(R"({"ask": "nothing"})");
    return all;
}

} // namespace

int main(int count, char** words) {
    const std::vector<std::string> jobs(words + 1, words + count);
    const auto collected = acre::cli::collect(jobs, {});
    if (!collected || jobs.empty()) {
        std::fputs("these jobs have no page\n", stderr);
        return 1;
    }
    const std::string texts = acre::cli::page_texts_json(collected->texts);
    std::puts(texts.c_str());
    acre::cli::Session session;
    const std::string job = collected->texts.jobs.back().name;
    for (const std::string& question : questions_of(texts, job)) {
        std::string answer = session.answer(question);
        for (char& c : answer)
            c = c == '\n' ? ' ' : c; // no line end stands in a text of JSON
        std::puts(answer.c_str());
    }
}
