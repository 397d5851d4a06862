// The models and jobs of this repository, priced in process: models/*.rate, examples/*.season,
// examples/*.job.
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
#include "tests/support/value_of.h"

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
        const lang::LineId id = sheet().find(line);
        REQUIRE_MESSAGE(id != lang::none, "no line " << line);
        const engine::Slot slot = compiled_->plan.line_slot[id];
        REQUIRE_MESSAGE(slot != engine::no_slot, line << " has no value");
        return values_.slot[slot];
    }
    const engine::Estimate& estimate() {
        if (!estimate_) {
            estimate_ =
                engine::estimate(*c_.sheet, *compiled_, values_, *c_.sources, c_.diagnostics);
            REQUIRE_MESSAGE(estimate_.has_value(), c_.rendered());
        }
        return *estimate_;
    }
    // What stops the price, as codes; empty when it prices.
    std::vector<lang::Code> faults() {
        engine::report_faults(*c_.sheet, *compiled_, values_, *c_.sources, {}, c_.diagnostics);
        std::vector<lang::Code> out;
        for (const lang::Diagnostic& d : c_.diagnostics.all())
            if (lang::severity_of(d.code) == lang::Severity::Error)
                out.push_back(d.code);
        return out;
    }
    const lang::Sheet& sheet() const { return **c_.sheet; }

  private:
    Demo(const std::string& text, const std::string& option, Sets sets, int) {
        Choices choices;
        choices.option = option;
        choices.sets = std::move(sets);
        for (const auto& path : demo_files("models", ".rate"))
            choices.files[path.filename().string()] = text_of(path);
        for (const auto& path : demo_files("examples", ".season"))
            choices.files[path.filename().string()] = text_of(path);
        c_ = compile_ok(text, choices);
        compiled_ = engine::compile_plan(*c_.sheet, *c_.sources, c_.diagnostics);
        REQUIRE_MESSAGE(compiled_.has_value(), c_.rendered());
        values_ = engine::evaluate(compiled_->plan);
    }

    Compilation c_;
    std::optional<engine::Compiled> compiled_;
    engine::Values values_;
    std::optional<engine::Estimate> estimate_;
};

} // namespace acre::tests
