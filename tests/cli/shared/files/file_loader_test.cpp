#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <string>
#include <vector>

#include "cli/shared/files/file_loader.h"
#include "models/library_texts.h"
#include "tests/support/scratch_folder.h"

namespace file_loader_test {

using namespace acre;
using namespace acre::cli;
using lang::Code;
using lang::ReferenceKind;
using tests::ScratchFolder;

namespace {

struct Answer {
    bool good = false;
    lang::Loaded loaded;
    struct {
        Code code = Code::F701;
        std::string detail;
    } failure;
};
Answer load(FileLoader& loader, const std::string& reference, const std::string& from,
            ReferenceKind kind = ReferenceKind::Model) {
    lang::Outcome<lang::Loaded> outcome = loader.load(kind, reference, from);
    if (outcome)
        return {true, *outcome, {}};
    const lang::Diagnostic& why = outcome.said.diagnostics.all().front();
    return {false, {}, {why.code, why.notes.empty() ? "" : why.notes.front()}};
}

} // namespace

TEST_CASE("models are found beside the file, then in the models folder above, then where the user "
          "says, then where they are installed") {
    const ScratchFolder folder;
    const std::string job = folder.write("valley/jobs/spring/a.job", "");
    folder.write("valley/models/crawler.rate", "valley");
    folder.write("models/haul.rate", "further up, behind a nearer models folder");
    folder.write("extra/haul.rate", "extra");
    folder.write("extra/crawler.rate", "extra");
    folder.write("share/crawler.rate", "share");
    folder.write("share/plant.rate", "share");
    FileLoader loader(folder.path("extra"), folder.path("share"));
    CHECK(load(loader, "crawler", job).loaded.text == "valley");
    CHECK(load(loader, "haul", job).loaded.text == "extra");
    CHECK(load(loader, "plant", job).loaded.text == "share");
    CHECK(load(loader, "plant.rate", job).loaded.text == "share");
    folder.write("valley/jobs/spring/crawler.rate", "beside");
    CHECK(load(loader, "crawler", job).loaded.text == "valley"); // read once
    FileLoader fresh("", "");
    CHECK(load(fresh, "crawler", job).loaded.text == "beside");
    const Answer missing = load(loader, "boat", job);
    CHECK(missing.failure.code == Code::F701);
    CHECK(missing.failure.detail == "no `boat.rate` in `" + folder.path("valley/jobs/spring") +
                                        "`, `" + folder.path("valley/models") + "`, `" +
                                        folder.path("extra") + "` or the built-in library");
}

TEST_CASE("seasons are found in a seasons folder as well") {
    const ScratchFolder folder;
    const std::string job = folder.write("jobs/a.job", "");
    folder.write("seasons/2027.season", "seasons");
    folder.write("models/2027.season", "models");
    folder.write("models/2026.season", "models");
    FileLoader loader("", "");
    CHECK(load(loader, "2027", job, ReferenceKind::Season).loaded.text == "seasons");
    CHECK(load(loader, "2026", job, ReferenceKind::Season).loaded.text == "models");
    CHECK(load(loader, "2027", job).failure.code == Code::F701);
}

TEST_CASE("one file has one name, whichever way leads to it") {
    const ScratchFolder folder;
    folder.write("models/library/soil.rate", "soil");
    const std::string job = folder.write("jobs/a.job", "");
    FileLoader loader("", "");
    const Answer first = load(loader, "library/soil", job);
    const Answer second = load(loader, "soil", folder.path("models/library/draft.rate"));
    CHECK(first.loaded.name == folder.path("models/library/soil.rate"));
    CHECK(second.loaded.name == first.loaded.name);
}

TEST_CASE("the library is part of the program") {
    REQUIRE(!models::library_texts().empty());
    const auto& text = models::library_texts().front();
    FileLoader loader("", "");
    const ScratchFolder folder;
    folder.write("models/other.rate", ""); // the search ends here
    const Answer outcome = load(loader, std::string(text.reference), folder.path("a.job"));
    CHECK(outcome.good);
    CHECK(outcome.loaded.text == text.text);
    CHECK(outcome.loaded.name == "(built in) " + std::string(text.reference) + ".rate");
    // What the library refers to is looked for in the library, not in whatever folder the program
    // was started in.
    CHECK(load(loader, std::string(text.reference), outcome.loaded.name).loaded.name ==
          outcome.loaded.name);
}

TEST_CASE("no reference leaves its folder") {
    const ScratchFolder folder;
    const std::string job = folder.write("jobs/a.job", "");
    folder.write("secret.rate", "secret");
    folder.write("jobs/inner/b.rate", "inner");
    std::filesystem::create_symlink("../secret.rate", folder.path("jobs/out.rate"));
    std::filesystem::create_directory_symlink("..", folder.path("jobs/up"));
    std::filesystem::create_symlink("inner/b.rate", folder.path("jobs/within.rate"));
    std::filesystem::create_directory_symlink("inner", folder.path("jobs/linked"));
    FileLoader loader("", "");
    for (const char* reference :
         {"../secret", "/etc/passwd", "inner/../../secret", "..", ".", "", "./a", "a//b", "a/",
          "a\\b", "inner\\..\\b", "a\nb", "out", "up/secret", "within", "linked/b"}) {
        const Answer outcome = load(loader, reference, job);
        CHECK_MESSAGE(!outcome.good, reference);
        CHECK_MESSAGE(outcome.failure.code == Code::F705, reference);
    }
    CHECK(load(loader, "inner/b", job).loaded.text == "inner");
    CHECK(load(loader, std::string(5000, 'a'), job).failure.code == Code::F705);
}

TEST_CASE("a file in the place of a folder leads nowhere, and is no link") {
    const ScratchFolder folder;
    const std::string job = folder.write("jobs/a.job", "");
    folder.write("jobs/boat", "a file");
    std::filesystem::create_symlink("nowhere", folder.path("jobs/lost"));
    std::filesystem::create_symlink("nowhere.rate", folder.path("jobs/gone.rate"));
    FileLoader loader("", "");
    for (const char* reference : {"boat/inner", "boat/inner/deeper", "lost/inner", "gone"}) {
        const Answer outcome = load(loader, reference, job);
        CHECK_MESSAGE(outcome.failure.code == Code::F701, reference);
    }
}

TEST_CASE("a model that is a folder, or no text, is not skipped") {
    const ScratchFolder folder;
    const std::string job = folder.write("jobs/a.job", "");
    std::filesystem::create_directory(folder.path("jobs/boat.rate"));
    folder.write("jobs/bad.rate", "\xff");
    folder.write("models/boat.rate", "never reached");
    FileLoader loader("", "");
    CHECK(load(loader, "boat", job).failure.code == Code::F702);
    CHECK(load(loader, "bad", job).failure.code == Code::F703);
}

TEST_CASE("models that can be named are listed: those beside, above, said and installed") {
    const ScratchFolder folder;
    const std::string job = folder.write("jobs/2027.season", "");
    folder.write("jobs/beside.rate", "");
    folder.write("models/above.rate", "");
    folder.write("said/there.rate", "");
    folder.write("installed/shipped.rate", "");
    folder.write("installed/shipped.season", "");
    FileLoader loader(folder.path("said"), folder.path("installed"));
    const std::vector<std::string> models = loader.references(ReferenceKind::Model, job);
    for (const char* name : {"beside", "above", "there", "shipped"})
        CHECK_MESSAGE(std::count(models.begin(), models.end(), name) == 1, name);
    CHECK(models.size() == 4 + models::library_texts().size());
    CHECK(loader.references(ReferenceKind::Season, job) == std::vector<std::string>{"2027"});
}

TEST_CASE("of the models of a folder that has very many a thousand are listed") {
    const ScratchFolder folder;
    for (int i = 0; i < 999; ++i)
        folder.write("jobs/" + std::to_string(1'000 + i) + ".rate", "");
    const std::string job = folder.write("jobs/a.job", "");
    folder.write("jobs/models/a.rate", "");
    CHECK(FileLoader("", "").references(ReferenceKind::Model, job).size() == 1'000);
    folder.write("jobs/more.rate", "");
    folder.write("jobs/yet_more.rate", "");
    CHECK(FileLoader("", "").references(ReferenceKind::Model, job).size() == 1'000);
}

TEST_CASE("the kind of a file is the ending of its name") {
    lang::FileKind kind{};
    CHECK(file_kind("a/b.rate", kind));
    CHECK(kind == lang::FileKind::Model);
    CHECK(file_kind("b.season", kind));
    CHECK(kind == lang::FileKind::Season);
    CHECK(file_kind("b.job", kind));
    CHECK(kind == lang::FileKind::Job);
    CHECK(!file_kind(".job", kind));
    CHECK(!file_kind("job", kind));
    CHECK(!file_kind("b.JOB", kind));
}

} // namespace file_loader_test
