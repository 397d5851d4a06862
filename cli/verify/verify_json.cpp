#include "cli/shared/json/value.h"
#include "cli/verify/verify_page.h"

namespace acre::cli {

Document verify_json(const Verified& verified) {
    Json json = {{"schema", "acrewright.verify/1"},
                 {"records", verified.records},
                 {"faults", Json::array()},
                 {"quotes", Json::array()}};
    for (const engine::BookFault& fault : verified.faults)
        json["faults"].push_back({{"file", fault.file}, {"what", fault.what}});
    for (const engine::PricedAgain& quote : verified.quotes)
        json["quotes"].push_back({{"quote", quote.quote},
                                  {"file", quote.file},
                                  {"same", quote.differences.empty()},
                                  {"differences", quote.differences}});
    return answered(std::move(json));
}

} // namespace acre::cli
