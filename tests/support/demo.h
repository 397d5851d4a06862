// The models and jobs of this repository, priced in process: models/*.rate, examples/*.season,
// examples/*.values, examples/*.job.
#pragma once

#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include "engine/faults/faults.h"
#include "engine/questions/estimate.h"
#include "tests/support/priced.h"

namespace acre::tests {

inline std::string text_of(const std::filesystem::path& path) {
    std::ifstream in(path, std::ios::binary);
    REQUIRE_MESSAGE(in.good(), "cannot read " << path.string());
    return {std::istreambuf_iterator<char>(in), {}};
}

inline std::vector<std::filesystem::path> demo_files(const std::string& folder,
                                                     const std::string& ending) {
    std::vector<std::filesystem::path> out;
    for (const auto& entry :
         std::filesystem::directory_iterator(std::filesystem::path(ACREWRIGHT_ROOT) / folder))
        if (entry.path().extension() == ending)
            out.push_back(entry.path());
    std::sort(out.begin(), out.end());
    return out;
}

// A job or a model of the repository with its numbers.
class Demo {
  public:
    using Sets = std::vector<std::pair<std::string, std::string>>;

    // `job`: "01-first-price", of examples/.
    explicit Demo(const std::string& job, const std::string& option = {}, Sets sets = {})
        : Demo(text_of(std::filesystem::path(ACREWRIGHT_ROOT) / "examples" / (job + ".job")),
               option, std::move(sets), 0) {}
    // A job written in the test.
    static Demo of_text(const std::string& text, Sets sets = {}) {
        return Demo(text, {}, std::move(sets), 0);
    }

    double operator[](std::string_view line) const {
        REQUIRE_MESSAGE(p_.slot(line) != engine::no_slot, line << " has no value");
        return p_.value(line);
    }
    const engine::Estimate& estimate() {
        if (!estimate_) {
            estimate_ = engine::estimate(p_);
            REQUIRE_MESSAGE(estimate_.value.has_value(),
                            lang::render(estimate_.said.diagnostics, p_.sources()));
        }
        return *estimate_;
    }
    // What stops the price, as codes; empty when it prices.
    std::vector<lang::Code> faults() {
        lang::Diagnostics found = p_.job().diagnostics();
        engine::report_faults(p_, {}, found);
        std::vector<lang::Code> out;
        for (const lang::Diagnostic& d : found.all())
            if (lang::severity_of(d.code) == lang::Severity::Error)
                out.push_back(d.code);
        return out;
    }
    const lang::Sheet& sheet() const { return p_.sheet(); }

  private:
    Demo(const std::string& text, const std::string& option, Sets sets, int) {
        Choices choices;
        choices.option = option;
        choices.sets = std::move(sets);
        for (const auto& path : demo_files("models", ".rate"))
            choices.files[path.filename().string()] = text_of(path);
        for (const char* ending : {".season", ".values", ".firm"})
            for (const auto& path : demo_files("examples", ending))
                choices.files[path.filename().string()] = text_of(path);
        for (const auto& path : demo_files("examples/fields", ".geojson"))
            choices.files["fields/" + path.filename().string()] = text_of(path);
        choices.field_sets.reset();
        p_ = priced_ok(text, choices);
    }

    Priced p_;
    lang::Outcome<engine::Estimate> estimate_;
};

} // namespace acre::tests
