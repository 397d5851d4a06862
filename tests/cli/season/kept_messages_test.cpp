#include "cli/season/kept_messages.h"

#include <doctest/doctest.h>

namespace kept_messages_test {

using namespace acre;
using cli::KeptMessages;

namespace {

lang::Said said(lang::Diagnostic diagnostic) {
    lang::Said said;
    said.diagnostics.add(std::move(diagnostic));
    return said;
}

// A warning that counts for so many bytes: 300 for the text it shows, and its words.
lang::Said sized(std::size_t bytes) {
    return said(lang::placeless(lang::Code::L836, std::string(bytes - 300, 'a')));
}

} // namespace

TEST_CASE("messages are kept up to their limit, and the jobs past it are counted") {
    cli::Reply reply;
    KeptMessages messages(reply);
    messages.keep({}); // nothing was said
    messages.keep(sized(cli::max_season_messages - 1'000));
    messages.keep(sized(600));
    messages.keep(sized(401)); // one byte too many
    CHECK(messages.not_shown() == 1);
    messages.keep(sized(400));
    CHECK(messages.not_shown() == 1);
    messages.keep(sized(300));
    CHECK(messages.not_shown() == 2);
    CHECK(reply.said.size() == 3);
}

TEST_CASE("labels, notes and mends count with the title") {
    const auto fits = [](lang::Diagnostic diagnostic, std::size_t bytes) {
        cli::Reply reply;
        KeptMessages messages(reply);
        messages.keep(sized(cli::max_season_messages - bytes));
        messages.keep(said(std::move(diagnostic)));
        return messages.not_shown() == 0;
    };
    lang::Diagnostic plain = lang::placeless(lang::Code::L836, "title");
    CHECK(fits(plain, 305));
    CHECK_FALSE(fits(plain, 304));
    plain.primary.text = "label";
    CHECK(fits(plain, 310));
    CHECK_FALSE(fits(plain, 309));
    plain.others.emplace_back();
    plain.others.back().text = "other";
    CHECK(fits(plain, 615));
    CHECK_FALSE(fits(plain, 614));
    plain.notes.emplace_back("note");
    plain.helps.push_back({"help", {}});
    CHECK(fits(plain, 623));
    CHECK_FALSE(fits(plain, 622));
}

TEST_CASE("the first error is kept however much was said before it") {
    cli::Reply reply;
    KeptMessages messages(reply);
    messages.keep(sized(cli::max_season_messages));
    messages.keep(said(lang::placeless(lang::Code::F701, "the first error")));
    messages.keep(said(lang::placeless(lang::Code::F701, "the second")));
    CHECK(messages.not_shown() == 1);
    messages.keep(said(lang::placeless(lang::Code::Q006, "too much")));
    CHECK(messages.not_shown() == 1);
    CHECK(reply.said.size() == 3);
    CHECK(reply.failed());
}

TEST_CASE("the texts that messages point into are bounded too") {
    const auto with_text = [](std::size_t bytes) {
        lang::Said one = sized(301);
        auto sources = std::make_shared<lang::SourceMap>();
        sources->add("a.job", std::string(bytes, ' '));
        one.sources = sources;
        return one;
    };
    cli::Reply reply;
    KeptMessages messages(reply);
    messages.keep(with_text(cli::max_season_texts - 10));
    messages.keep(with_text(11));
    CHECK(messages.not_shown() == 1);
    messages.keep(with_text(10));
    CHECK(messages.not_shown() == 1);
}

} // namespace kept_messages_test
