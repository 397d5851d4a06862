#include "engine/field/read_json.h"

#include <iterator>

namespace acre::engine {
namespace {

using Json = nlohmann::json;

// Lets the reader of the JSON say where it is: arrays are met in the order in which they begin.
class CountingIterator {
  public:
    using iterator_category = std::input_iterator_tag;
    using value_type = char;
    using difference_type = std::ptrdiff_t;
    using pointer = const char*;
    using reference = const char&;

    CountingIterator(const char* at, const char** seen) : at_(at), seen_(seen) {}
    reference operator*() const { return *at_; }
    CountingIterator& operator++() {
        ++at_;
        *seen_ = at_;
        return *this;
    }
    CountingIterator operator++(int) {
        CountingIterator old = *this;
        ++*this;
        return old;
    }
    friend bool operator==(const CountingIterator& a, const CountingIterator& b) {
        return a.at_ == b.at_;
    }

  private:
    const char* at_;
    const char** seen_;
};

struct TooDeep {};

} // namespace

ReadJson read_json(std::string_view text, int most_depth) {
    ReadJson read;
    const char* seen = text.data();
    const auto offset = [&] { return static_cast<std::size_t>(seen - text.data()); };
    const auto on_event = [&](int depth, Json::parse_event_t event, Json&) {
        if (depth > most_depth)
            throw TooDeep{};
        if (event == Json::parse_event_t::array_start)
            read.array_starts.push_back(static_cast<std::uint32_t>(offset()) - 1);
        return true;
    };
    try {
        const char* end = text.data() + text.size();
        read.root = Json::parse(CountingIterator(text.data(), &seen), CountingIterator(end, &seen),
                                on_event);
    } catch (const TooDeep&) {
        read.fault = JsonFault::TooDeep;
    } catch (const Json::exception&) {
        read.fault = JsonFault::NotJson; // the library's own words speak of its states
    }
    read.stopped_at = offset() == 0 ? 0 : offset() - 1;
    return read;
}

} // namespace acre::engine
