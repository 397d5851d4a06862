// Prices a model held in a text, with nothing but the installed headers and libraries.
#include <cstdio>

#include "engine/driver.h"
#include "engine/questions/estimate.h"

namespace {

class NoFiles : public acre::lang::Loader {
  public:
    acre::lang::Outcome<acre::lang::Loaded>
    load(acre::lang::ReferenceKind kind, std::string_view reference, std::string_view) override {
        return acre::lang::cannot_load(acre::lang::Code::F701, kind, reference, "");
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
    const auto job = acre::engine::make_job(request, loader);
    if (!job)
        return 1;
    const auto estimate = acre::engine::estimate(**job);
    if (!estimate)
        return 1;
    // 8 h at $30 and a quarter on top.
    std::printf("%lld\n", static_cast<long long>(estimate->price_cents));
    return estimate->price_cents == 30000 ? 0 : 1;
}
