#include "engine/book/chain.h"

#include <algorithm>
#include <charconv>
#include <utility>

#include <fmt/format.h>

#include "engine/book/texts.h"

namespace acre::engine {

std::string record_file(std::uint64_t index) {
    return fmt::format("{:06}.json", index);
}

std::optional<Head> read_head(std::string_view text) {
    Head head;
    const char* const end = text.data() + text.size();
    const auto [rest, error] = std::from_chars(text.data(), end, head.record);
    std::string_view seal(rest, static_cast<std::size_t>(end - rest));
    seal.remove_prefix(std::min(seal.find_first_not_of(" \n"), seal.size()));
    head.seal = seal.substr(0, seal.find_first_of(" \r\n"));
    if (error != std::errc() || !is_seal(head.seal))
        return std::nullopt;
    return head;
}

std::string head_text(const Head& head) {
    return fmt::format("{} {}", head.record, head.seal);
}

void Chain::expect(const Head& head, std::string called) {
    heads_.push_back({head, std::move(called), false});
}

void Chain::fault(std::string file, std::string what) {
    if (faults_.size() < max_book_faults)
        faults_.push_back({std::move(file), std::move(what)});
}

void Chain::missing_before(std::uint64_t index) {
    for (; expected_ < index && faults_.size() < max_book_faults; ++expected_) {
        fault(record_file(expected_), "is missing");
        whole_before_ = complete_ = false;
    }
    expected_ = index + 1;
}

void Chain::unreadable(std::uint64_t index, const std::string& reason) {
    ++records_;
    missing_before(index);
    fault(record_file(index), "cannot be read: " + reason);
    whole_before_ = complete_ = false;
}

// Empty: the record is in order.
std::string Chain::fault_of(std::uint64_t index) {
    const Record& record = current_.record;
    // Taken in whatever is wrong with it, so that what follows is not blamed for it.
    const Event event = event_of(record);
    std::string by_keys = keys_.add(event);
    std::string by_rules = lives_.add(event);
    for (const std::string& seal : seals_in(record))
        if (!is_seal(seal))
            return "names a text by a seal that is none";
    if (static_cast<std::uint64_t>(record.index) != index)
        return "is in the place of another record";
    if (whole_before_ && record.previous != previous_)
        return "does not follow the record before it";
    if (!by_keys.empty())
        return by_keys;
    // What a lost record said, as a count or a quote, is missed by those after it.
    return complete_ ? by_rules : std::string();
}

void Chain::check_heads(std::uint64_t index, const std::string& seal) {
    for (Expected& expected : heads_)
        if (expected.head.record == index) {
            expected.met = true;
            if (expected.head.seal != seal)
                fault(record_file(index), "is not the record that " + expected.called + " names");
        }
}

const Record* Chain::add(std::uint64_t index, ReadRecord read) {
    ++records_;
    missing_before(index);
    current_ = std::move(read);
    if (!current_.whole) {
        fault(record_file(index), current_.fault);
        whole_before_ = complete_ = false;
        return nullptr;
    }
    std::string broken = fault_of(index);
    if (!current_.fault.empty())
        broken = current_.fault;
    if (!broken.empty())
        fault(record_file(index), std::move(broken));
    previous_ = current_.record.seal;
    whole_before_ = true;
    check_heads(index, previous_);
    return &current_.record;
}

std::vector<BookFault> Chain::finish() {
    for (const Expected& expected : heads_)
        if (expected.head.record >= expected_)
            missing_before(
                std::min<std::uint64_t>(expected.head.record + 1, expected_ + max_book_faults));
    for (const std::string& key : keys_.given_and_missing())
        fault("", "the key " + key + ", which was given, is not in the book");
    return std::move(faults_);
}

} // namespace acre::engine
