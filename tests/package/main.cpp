// Prices a model held in a text, with nothing but the installed headers and libraries.
#include <cstdio>

#include "engine/questions/estimate.h"
#include "engine/run.h"

namespace {

class NoFiles : public acre::lang::Loader {
  public:
    bool load(acre::lang::ReferenceKind, std::string_view, std::string_view, acre::lang::Loaded&,
              acre::lang::LoadFailure& failure) override {
        failure = {acre::lang::Code::F701, "this program reads no files"};
        return false;
    }
};

} // namespace

int main() {
    acre::lang::Request request;
    request.name = "mowing.rate";
    request.kind = acre::lang::FileKind::Model;
    request.text = "model \"Mowing\"\n"
                   "given area = 40 ac\n"
                   "given pace = 5 ac/h\n"
                   "hours : h = area / pace\n"
                   "cost driver : $/h = $30/h over hours\n"
                   "price \"Mowing\" per ac of area\n"
                   "  markup 25 %\n";
    NoFiles loader;
    acre::engine::Run run;
    if (!acre::engine::run(request, loader, run))
        return 1;
    const auto estimate =
        acre::engine::estimate(*run.sheet, *run.compiled, run.values, run.sources, run.diagnostics);
    if (!estimate)
        return 1;
    // 8 h at $30 and a quarter on top.
    std::printf("%lld\n", static_cast<long long>(estimate->price_cents));
    return estimate->price_cents == 30000 ? 0 : 1;
}
