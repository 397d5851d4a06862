#include "cli/shared/json/value.h"
#include "cli/verify/verify_page.h"

namespace acre::cli {
namespace {

const char* outcome_name(Compared outcome) {
    switch (outcome) {
    case Compared::Equal:
        return "equal";
    case Compared::ByProgram:
        return "differs by program";
    case Compared::Fault:
        return "fault";
    }
    return "";
}

} // namespace

Document verify_json(const Verified& verified) {
    Json json = {{"schema", "acrewright.verify/1"},
                 {"records", verified.records},
                 {"faults", Json::array()},
                 {"quotes", Json::array()},
                 {"signers", Json::array()},
                 {"remarks", verified.remarks},
                 {"unsigned_records", verified.unsigned_records},
                 {"unknown_records", verified.unknown},
                 {"head", engine::head_text(verified.head)},
                 {"not_proved", verified.not_proved()}};
    for (const engine::BookFault& fault : verified.faults)
        json["faults"].push_back({{"file", fault.file}, {"what", fault.what}});
    for (const ComparedQuote& quote : verified.quotes)
        json["quotes"].push_back({{"quote", quote.quote},
                                  {"file", quote.file},
                                  {"same", quote.differences.empty()},
                                  {"outcome", outcome_name(quote.outcome)},
                                  {"program", quote.program},
                                  {"because", quote.because},
                                  {"differences", quote.differences}});
    for (const engine::Signer& signer : verified.signers)
        json["signers"].push_back(
            {{"key", signer.key},
             {"name", signer.name},
             {"records", signer.signed_here},
             {"admitted", signer.admitted},
             {"retired", signer.retired == 0 ? Json(nullptr) : Json(signer.retired)}});
    return answered(std::move(json));
}

} // namespace acre::cli
