#include "engine/book/sealed.h"

#include "engine/book/canonical.h"
#include "engine/book/json.h"
#include "engine/book/members.h"
#include "engine/book/seal.h"
#include "engine/book/shape.h"

namespace acre::engine {

std::string seal_of(const Json& record) {
    Json open = record;
    open.erase("seal");
    open.erase("signature");
    return sha256(canonical(open));
}

Json sealed(Json body, std::uint64_t index, const Json* before, std::string_view key) {
    body["record"] = index;
    body["previous"] = before != nullptr ? text_at(*before, "seal") : std::string();
    body.erase("seal");
    body.erase("signature");
    if (!key.empty())
        body["signer"] = key.substr(key.size() / 2); // the second half of a secret key is open
    const std::string seal = seal_of(body);
    body["seal"] = seal;
    if (!key.empty())
        body["signature"] = sign(seal, key).value_or("");
    return body;
}

lang::Outcome<Json> read_sealed(std::string_view bytes, std::string_view file) {
    const auto refused = [&](const std::string& what, std::vector<std::string> notes) {
        return lang::placeless(lang::Code::R004, std::string(file) + " " + what, std::move(notes),
                               {"`acrewright verify` checks every record of the book"});
    };
    std::optional<Json> record = read_canonical(bytes);
    if (!record || !record->is_object() || text_at(*record, "seal") != seal_of(*record))
        return refused("has changed since it was written", {});
    if (std::string fault = shape_fault(*record); !fault.empty())
        return refused("is not a record of this program", {std::move(fault)});
    return std::move(*record);
}

} // namespace acre::engine
