#include "tests/bench/readers/model.h"

#include <cstdlib>
#include <fstream>
#include <iterator>

#include <fmt/format.h>

#include "engine/questions/risk/draw.h"
#include "engine/questions/risk/points.h"
#include "engine/questions/risk/shapes.h"
#include "lang/diag/render.h"
#include "tests/bench/readers/rip_native.h"

namespace acre::bench {
namespace {

class NoFiles : public lang::Loader {
  public:
    lang::Outcome<lang::Loaded> load(lang::ReferenceKind kind, std::string_view reference,
                                     std::string_view) override {
        return lang::cannot_load(lang::Code::F701, kind, reference, "");
    }
};

lang::Outcome<engine::Job> open(const std::string& text) {
    lang::Request request;
    request.name = "rip.rate";
    request.text = text;
    request.kind = lang::FileKind::Model;
    NoFiles files;
    return engine::make_job(request, files);
}

} // namespace

Model open_model() {
    std::ifstream file(ACREWRIGHT_ROOT "/tests/bench/readers/rip.rate");
    const std::string text{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
    Model model;
    model.compile_seconds = best_of(50, [&] { (void)open(text); });
    const lang::Outcome<engine::Job> made = open(text);
    if (!made) {
        fmt::print("{}\n", lang::render(made.said.diagnostics, *made.said.sources));
        std::exit(1);
    }
    model.job = *made;
    for (const char* name : given_name) {
        const auto axis = engine::find_axis(*model.job, name);
        if (!axis) {
            fmt::print("{}\n", axis.said.diagnostics.all().front().title);
            std::exit(1);
        }
        model.axes.push_back(*axis);
        model.inputs.push_back(axis->input);
    }
    for (const char* name : answer_name)
        model.answers.push_back(model.plan().line_slot[model.job->sheet().find(name)]);
    return model;
}

Columns::Columns(std::size_t columns, std::size_t lanes)
    : lanes_(lanes),
      memory_(columns * lanes + 8) {
    double* at = memory_.data();
    while (reinterpret_cast<std::uintptr_t>(at) % 64 != 0)
        ++at;
    for (std::size_t k = 0; k < columns; ++k) {
        write_.push_back(at + k * lanes);
        read_.push_back(at + k * lanes);
    }
}

void draw_givens(const Model& model, Columns& columns, std::size_t lanes) {
    const engine::SobolSequence sequence(given_count);
    const engine::ScrambledPoints points(sequence, 1, 0);
    std::vector<std::uint64_t> offset(given_count);
    for (std::size_t batch = 0; batch < lanes / engine::points_in_batch; ++batch) {
        points.offsets(batch, offset);
        for (std::size_t k = 0; k < given_count; ++k)
            engine::draw_kernels().shaped(engine::shape_of(model.axes[k]), points.base(k),
                                          offset[k], engine::points_in_batch,
                                          columns.out()[k] + batch * engine::points_in_batch);
    }
}

} // namespace acre::bench
