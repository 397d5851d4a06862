// How the models and examples of the repository are written: what a reader may rely on in every one
// of them.
#include "lang/diag/render.h"
#include "lang/syntax/tidy.h"
#include "tests/support/demo.h"

namespace acre::tests {
namespace {

std::vector<std::filesystem::path> all_demo_files() {
    std::vector<std::filesystem::path> out = demo_files("models", ".rate");
    for (const char* ending : {".season", ".values", ".job", ".firm"})
        for (auto& path : demo_files("examples", ending))
            out.push_back(std::move(path));
    return out;
}

TEST_CASE("every model, season and job stands in its canonical layout") {
    for (const auto& path : all_demo_files()) {
        CAPTURE(path.filename().string());
        lang::SourceMap sources;
        lang::Diagnostics diagnostics;
        const lang::FileKind kind = path.extension() == ".rate"     ? lang::FileKind::Model
                                    : path.extension() == ".season" ? lang::FileKind::Season
                                    : path.extension() == ".firm"   ? lang::FileKind::Firm
                                    : path.extension() == ".values" ? lang::FileKind::Values
                                                                    : lang::FileKind::Job;
        const std::string text = text_of(path);
        const lang::FileId file = sources.add(path.filename().string(), text);
        const std::optional<std::string> tidy = lang::tidy(sources, file, kind, diagnostics);
        REQUIRE_MESSAGE(tidy.has_value(), lang::render(diagnostics, sources));
        CHECK_MESSAGE(*tidy == text, "acrewright tidy --write " << path.filename().string());
    }
}

// A text cannot be broken: one that stands alone after its word may be longer, to name its source.
bool is_one_text(std::string_view line) {
    line.remove_prefix(std::min(line.find_first_not_of(' '), line.size()));
    return line.starts_with('"') || line.starts_with("because \"") ||
           line.starts_with("caution \"");
}

TEST_CASE("no file is longer than 350 lines, no line of a model longer than 140 characters") {
    for (const auto& path : all_demo_files()) {
        CAPTURE(path.filename().string());
        const std::string text = text_of(path);
        CHECK(std::count(text.begin(), text.end(), '\n') < 350);
        for (std::size_t at = 0; at < text.size();) {
            const std::size_t end = std::min(text.find('\n', at), text.size());
            const std::string line = text.substr(at, end - at);
            CHECK_MESSAGE(line.size() <= (is_one_text(line) ? 420 : 140), line);
            at = end + 1;
        }
    }
}

TEST_CASE("every given of every model has a label, and a value only with a reason") {
    Choices choices;
    for (const auto& path : demo_files("models", ".rate"))
        choices.files[path.filename().string()] = text_of(path);
    for (const auto& path : demo_files("models", ".rate")) {
        CAPTURE(path.filename().string());
        const Compilation c = compile_ok(text_of(path), choices);
        const lang::Sheet& sheet = **c.sheet;
        for (const lang::Given& given : sheet.givens) {
            const lang::Line& line = sheet.lines[given.line];
            CAPTURE(line.name);
            CHECK(!line.label.empty());
            if (!given.settings.empty() && given.settings.front().layer == lang::Layer::Model)
                CHECK(!given.settings.front().because.empty());
        }
    }
}

TEST_CASE("a price that digs, hauls or burns says what to ask before") {
    const std::vector<std::pair<const char*, const char*>> says = {
        {"01-first-price", "utility locating service"},
        {"01-first-price", "Wetlands"},
        {"01-first-price", "Overhead lines"},
        {"01-first-price", "dry ground only"},
        {"06-far-away", "every county on the way"},
        {"10-trees-out", "utility locating service"},
        {"12-level", "utility locating service"},
        {"14-old-block-to-rows", "air district"},
    };
    for (const auto& [name, words] : says) {
        CAPTURE(name);
        CAPTURE(words);
        Demo job(name);
        const auto& cautions = job.estimate().cautions;
        CHECK(std::any_of(cautions.begin(), cautions.end(), [&](const engine::CautionRow& row) {
            return row.text.find(words) != std::string::npos;
        }));
    }
}

TEST_CASE("no example leaves the tested range of a formula") {
    for (const auto& path : demo_files("examples", ".job")) {
        const std::string name = path.stem().string();
        if (text_of(path).find("\nfield ") != std::string::npos)
            continue; // laid out from a boundary, which is not read here
        CAPTURE(name);
        Demo job(name);
        for (const engine::CautionRow& row : job.estimate().cautions)
            CHECK_MESSAGE(!row.tested_range, row.text);
    }
}

} // namespace
} // namespace acre::tests
