// A job, then its season, then values of the command line (NAME=VALUE, one a line), then what a
// field layout sets, then the firm that the season may name ("kestrel"); between them a line of
// three dashes. Priced against small models, with every option, and once more from its own record.
#include "tests/fuzz/properties.h"
#include "tests/fuzz/small_files.h"
#include "tests/fuzz/target.h"
#include "tests/support/memory_loader.h"

namespace job_fuzz {

ACREWRIGHT_TARGET(job, text) {
    using namespace acre;
    const auto [job, season, values, layout, firm] = fuzz::pieces<5>(text);
    fuzz::hold_syntax(job, lang::FileKind::Job);
    tests::Files files = fuzz::small_files();
    if (!season.empty()) {
        fuzz::hold_syntax(season, lang::FileKind::Season);
        files["2027.season"] = season;
    }
    if (!firm.empty()) {
        fuzz::hold_syntax(firm, lang::FileKind::Firm);
        files["kestrel.firm"] = firm;
    }
    lang::Request request;
    request.name = "f.job";
    request.text = job;
    request.kind = lang::FileKind::Job;
    request.field_sets = layout;
    for (std::size_t at = 0; at < values.size() && request.sets.size() < 20;) {
        const std::size_t end = std::min(values.find('\n', at), values.size());
        const std::string set = values.substr(at, end - at);
        const std::size_t equals = std::min(set.find('='), set.size());
        request.sets.emplace_back(set.substr(0, equals),
                                  equals < set.size() ? set.substr(equals + 1) : "");
        at = end + 1;
    }
    tests::MemoryLoader loader(files);
    const lang::Outcome<engine::Job> made = fuzz::hold_job(request, loader);
    if (!made)
        return;
    const std::vector<std::string> options = (*made)->sheet().job.options;
    for (std::size_t i = 0; i < std::min<std::size_t>(options.size(), 2); ++i) {
        request.option = options[i];
        (void)fuzz::hold_job(request, loader);
    }
}

} // namespace job_fuzz
