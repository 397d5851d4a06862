#include "tests/bench/jobs/job.h"

#include <cstdlib>
#include <fstream>
#include <iterator>

#include <fmt/format.h>

#include "cli/shared/files/file_loader.h"
#include "engine/native/native.h"
#include "engine/readers/value.h"
#include "lang/diag/render.h"

namespace acre::bench {

ShippedJob open_job(const std::string& path) {
    std::ifstream file(path);
    lang::Request request;
    request.name = path;
    request.text = {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
    request.kind = lang::FileKind::Job;
    cli::FileLoader loader;
    const lang::Outcome<engine::Job> made = engine::make_job(request, loader);
    if (!made) {
        fmt::print(stderr, "{}\n", lang::render(made.said.diagnostics, *made.said.sources));
        std::exit(1);
    }
    ShippedJob job{*made, {}, {}, {}};
    for (const engine::Axis& axis : engine::all_axes(*job.job))
        if (axis.swing && !axis.chosen && axis.options == 0) {
            job.axes.push_back(axis);
            job.inputs.push_back(axis.input);
        }
    for (const char* name : {"cost.total", "price.total"})
        job.answers.push_back(job.job->plan().line_slot[job.job->sheet().find(name)]);
    return job;
}

engine::lanes::Graph ShippedJob::graph(std::span<const std::uint32_t> varied) const {
    return engine::lanes::reduce(job->plan(), varied, answers,
                                 engine::evaluate(job->plan(), {}).slot);
}

std::vector<Search> searches(const engine::lanes::Graph& graph, std::vector<std::size_t>& of_call) {
    std::vector<Search> all;
    const auto functions = engine::native_functions();
    for (std::size_t call = 0; call < graph.calls.size(); ++call) {
        std::size_t at = 0;
        while (at < all.size() &&
               !(all[at].args == graph.calls[call] &&
                 functions[all[at].function].lanes == functions[graph.functions[call]].lanes))
            ++at;
        if (at == all.size())
            all.push_back({graph.functions[call], graph.calls[call]});
        of_call.push_back(at);
    }
    return all;
}

} // namespace acre::bench
