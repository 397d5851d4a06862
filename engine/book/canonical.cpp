#include "engine/book/canonical.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <iterator>
#include <utility>
#include <vector>

#include <nlohmann/json.hpp>

namespace acre::engine {
namespace {

constexpr std::string_view no_character = "\xef\xbf\xbd"; // U+FFFD

// How many bytes of UTF-8 begin here; 0: none.
std::size_t utf8_length(std::string_view text) {
    const auto at = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    const auto follows = [&](std::size_t i, unsigned low, unsigned high) {
        return i < text.size() && at(i) >= low && at(i) <= high;
    };
    const unsigned lead = at(0);
    if (lead < 0x80)
        return 1;
    if (lead >= 0xc2 && lead <= 0xdf)
        return follows(1, 0x80, 0xbf) ? 2 : 0;
    if (lead >= 0xe0 && lead <= 0xef)
        return follows(1, lead == 0xe0 ? 0xa0 : 0x80, lead == 0xed ? 0x9f : 0xbf) &&
                       follows(2, 0x80, 0xbf)
                   ? 3
                   : 0;
    if (lead >= 0xf0 && lead <= 0xf4)
        return follows(1, lead == 0xf0 ? 0x90 : 0x80, lead == 0xf4 ? 0x8f : 0xbf) &&
                       follows(2, 0x80, 0xbf) && follows(3, 0x80, 0xbf)
                   ? 4
                   : 0;
    return 0;
}

// UTF-8 sorts as its code points do; in UTF-16 those past the basic plane come before U+E000.
bool before_in_utf16(const std::string* a, const std::string* b) {
    const auto [left, right] = std::mismatch(a->begin(), a->end(), b->begin(), b->end());
    if (left == a->end() || right == b->end())
        return left == a->end() && right != b->end();
    const auto one = static_cast<unsigned char>(*left);
    const auto other = static_cast<unsigned char>(*right);
    if (one >= 0xee && other >= 0xee && (one >= 0xf0) != (other >= 0xf0))
        return one >= 0xf0;
    return one < other;
}

// Bytes that stand for themselves go over in one piece.
void put_text(std::string_view text, std::string& out) {
    constexpr std::string_view digits = "0123456789abcdef";
    constexpr std::string_view short_ones = "\b\t\n\f\r\"\\";
    constexpr std::string_view letters = "btnfr\"\\";
    out += '"';
    std::size_t from = 0, at = 0;
    const auto put_before = [&](std::size_t passed) {
        out += text.substr(from, at - from);
        from = at += passed;
    };
    while (at < text.size()) {
        const auto byte = static_cast<unsigned char>(text[at]);
        if (byte >= 0x80) {
            if (const std::size_t length = utf8_length(text.substr(at)); length != 0) {
                at += length;
            } else {
                put_before(1);
                out += no_character;
            }
        } else if (byte >= 0x20 && byte != '"' && byte != '\\') {
            ++at;
        } else {
            put_before(1);
            out += '\\';
            if (const std::size_t known = short_ones.find(static_cast<char>(byte));
                known != std::string_view::npos) {
                out += letters[known];
            } else {
                out += "u00";
                out += digits[byte >> 4U];
                out += digits[byte & 15U];
            }
        }
    }
    put_before(0);
    out += '"';
}

void put(const nlohmann::json& value, std::string& out);

bool is_outside_the_seal(std::string_view name) {
    return name == "seal" || name == "signature";
}

// `sealed`: gets the same without the members that are outside the seal.
void put_object(const nlohmann::json& value, std::string& out, std::string* sealed = nullptr) {
    using Member = nlohmann::json::const_iterator;
    const auto before = [](const Member& a, const Member& b) {
        return before_in_utf16(&a.key(), &b.key());
    };
    std::vector<Member> members;
    members.reserve(value.size());
    for (auto it = value.begin(); it != value.end(); ++it)
        members.push_back(it);
    if (!std::is_sorted(members.begin(), members.end(), before))
        std::sort(members.begin(), members.end(), before);
    out += '{';
    std::string_view comma;
    for (const Member& member : members) {
        if (out.back() != '{')
            out += ',';
        const std::size_t from = out.size();
        put_text(member.key(), out);
        out += ':';
        put(member.value(), out);
        if (sealed != nullptr && !is_outside_the_seal(member.key())) {
            *sealed += comma;
            sealed->append(out, from);
            comma = ",";
        }
    }
    out += '}';
}

void put(const nlohmann::json& value, std::string& out) {
    if (value.is_object()) {
        put_object(value, out);
    } else if (value.is_array()) {
        out += '[';
        for (const nlohmann::json& one : value) {
            if (out.back() != '[')
                out += ',';
            put(one, out);
        }
        out += ']';
    } else if (value.is_string()) {
        put_text(value.get_ref<const std::string&>(), out);
    } else if (value.is_number()) {
        out += number_as_printed(value.get<double>());
    } else {
        out += value.dump();
    }
}

// Whether values stand more than so many levels deep: seen before a tree is made of the text.
// Brackets that do not belong together are left to the parser.
bool is_deeper_than(int levels, std::string_view text) {
    int depth = 0;
    bool in_text = false;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        if (in_text) {
            i += c == '\\' ? 1 : 0;
            in_text = c != '"';
        } else if (c == '"') {
            in_text = true;
        } else if (c == '{' || c == '[') {
            const char next = i + 1 < text.size() ? text[i + 1] : ' ';
            if (++depth > levels && next != '}' && next != ']')
                return true;
        } else if (c == '}' || c == ']') {
            --depth;
        }
    }
    return false;
}

} // namespace

std::string number_as_printed(double value) {
    if (value == 0)
        return "0"; // minus zero too
    std::array<char, 40> room{};
    const auto end =
        std::to_chars(room.data(), room.data() + room.size(), value, std::chars_format::scientific);
    std::string_view text(room.data(), static_cast<std::size_t>(end.ptr - room.data()));
    std::string out;
    if (text.front() == '-') {
        out = "-";
        text.remove_prefix(1);
    }
    const std::size_t mark = text.find('e');
    int exponent = 0;
    std::from_chars(text.data() + mark + (text[mark + 1] == '+' ? 2 : 1), end.ptr, exponent);
    std::string digits(1, text[0]);
    if (mark > 2)
        digits += text.substr(2, mark - 2);
    const int size = static_cast<int>(digits.size());
    const int point = exponent + 1; // after so many digits; the names of the standard are k and n
    const auto zeros = [](int count) { return std::string(static_cast<std::size_t>(count), '0'); };
    if (size <= point && point <= 21)
        return out + digits + zeros(point - size);
    if (0 < point && point <= 21)
        return out + digits.insert(static_cast<std::size_t>(point), 1, '.');
    if (-6 < point && point <= 0)
        return out + "0." + zeros(-point) + digits;
    if (size > 1)
        digits.insert(1, 1, '.');
    return out + digits + (exponent < 0 ? "e-" : "e+") + std::to_string(std::abs(exponent));
}

std::string utf8_text(std::string_view text) {
    std::string whole;
    while (!text.empty()) {
        const std::size_t length = utf8_length(text);
        whole += length == 0 ? no_character : text.substr(0, length);
        text.remove_prefix(std::max<std::size_t>(length, 1));
    }
    return whole;
}

bool is_version_1(const nlohmann::json& record) {
    const auto schema = record.find("schema");
    return schema == record.end() || *schema == "acrewright.record/1";
}

std::string canonical(const nlohmann::json& value) {
    std::string out;
    put(value, out);
    return out;
}

std::string canonical_1(const nlohmann::json& value) {
    return value.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

std::string sealed_text(const nlohmann::json& record) {
    nlohmann::json rest = record;
    for (auto member = rest.begin(); member != rest.end();)
        member = is_outside_the_seal(member.key()) ? rest.erase(member) : std::next(member);
    return is_version_1(record) ? canonical_1(rest) : canonical(rest);
}

std::optional<nlohmann::json> read_canonical(std::string_view text, std::string* sealed) {
    if (text.empty() || text.back() != '\n')
        return std::nullopt;
    text.remove_suffix(1);
    if (is_deeper_than(max_record_depth, text))
        return std::nullopt;
    nlohmann::json value = nlohmann::json::parse(text, nullptr, false);
    if (value.is_discarded())
        return std::nullopt;
    std::string written;
    written.reserve(text.size());
    if (value.is_object() && is_version_1(value)) {
        written = canonical_1(value);
        if (sealed != nullptr)
            *sealed = sealed_text(value);
    } else if (value.is_object() && sealed != nullptr) {
        *sealed = "{";
        put_object(value, written, sealed);
        *sealed += '}';
    } else {
        put(value, written);
    }
    return written == text ? std::optional(std::move(value)) : std::nullopt;
}

} // namespace acre::engine
