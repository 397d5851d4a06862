#include "engine/book/chain.h"

#include <algorithm>
#include <charconv>

#include <fmt/format.h>

#include "engine/book/canonical.h"
#include "engine/book/json.h"
#include "engine/book/members.h"
#include "engine/book/seal.h"
#include "engine/book/sealed.h"
#include "engine/book/shape.h"

namespace acre::engine {

std::string record_file(std::uint64_t index) {
    return fmt::format("{:06}.json", index);
}

// Empty: the record is in order.
std::string Chain::fault_of(const Json& record, std::uint64_t index) const {
    const std::string seal = text_at(record, "seal");
    if (seal != seal_of(record))
        return "was changed after it was sealed";
    if (record.contains("signer") &&
        !is_signed(seal, text_at(record, "signature"), text_at(record, "signer")))
        return "is not signed by the key it names";
    if (!record.contains("record") || record["record"] != index)
        return "is in the place of another record";
    if (whole_before_ && text_at(record, "previous") != previous_)
        return "does not follow the record before it";
    const std::string fault = shape_fault(record);
    return fault.empty() ? std::string() : "is not a record of this program: " + fault;
}

void Chain::add(std::uint64_t index, std::string_view bytes) {
    ++records_;
    for (; expected_ < index && faults_.size() < max_book_faults; ++expected_) {
        faults_.push_back({record_file(expected_), "is missing"});
        whole_before_ = false;
    }
    expected_ = index + 1;
    const std::optional<Json> record = read_canonical(bytes);
    if (!record || !record->is_object()) {
        faults_.push_back({record_file(index), "is not a whole record: cut short, or changed"});
        whole_before_ = false;
        return;
    }
    if (std::string fault = fault_of(*record, index); !fault.empty())
        faults_.push_back({record_file(index), std::move(fault)});
    previous_ = text_at(*record, "seal");
    seals_.emplace(index, previous_);
    whole_before_ = true;
}

std::vector<BookFault> Chain::finish(const lang::Outcome<std::string>& head) {
    if (head)
        check_head(*head);
    else if (records_ > 1)
        faults_.push_back(
            {"head", "cannot be read: " + head.said.diagnostics.all().front().notes.front()});
    return std::move(faults_);
}

// "17 9f86d081...", and nothing else is looked at.
void Chain::check_head(std::string_view head) {
    std::uint64_t newest = 0;
    const char* const end = head.data() + head.size();
    const auto [rest, error] = std::from_chars(head.data(), end, newest);
    std::string_view seal(rest, static_cast<std::size_t>(end - rest));
    seal.remove_prefix(std::min(seal.find_first_not_of(" \n"), seal.size()));
    seal = seal.substr(0, seal.find_first_of(" \n"));
    if (error != std::errc() || seal.empty()) {
        faults_.push_back({"head", "is not whole"});
        return;
    }
    for (; expected_ <= newest; ++expected_) {
        faults_.push_back({record_file(expected_), "is missing"});
        if (faults_.size() > max_book_faults)
            return;
    }
    if (const auto record = seals_.find(newest); record != seals_.end() && record->second != seal)
        faults_.push_back({record_file(newest), "is not the record that the head names"});
}

} // namespace acre::engine
