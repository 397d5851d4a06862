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
constexpr std::string_view schema_1 = "acrewright.record/1";

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

void put_object(const nlohmann::json& value, std::string& out) {
    using Member = nlohmann::json::const_iterator;
    const auto before = [](const Member& a, const Member& b) {
        return is_before_in_utf16(a.key(), b.key());
    };
    std::vector<Member> members;
    members.reserve(value.size());
    for (auto it = value.begin(); it != value.end(); ++it)
        members.push_back(it);
    if (!std::is_sorted(members.begin(), members.end(), before))
        std::sort(members.begin(), members.end(), before);
    out += '{';
    for (const Member& member : members) {
        if (out.back() != '{')
            out += ',';
        put_text(member.key(), out);
        out += ':';
        put(member.value(), out);
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

// Neither so large nor so small that an exponent or zeros past the digits are called for.
bool is_plain(double value) {
    const double size = std::abs(value);
    return size >= 1e-6 && size < 1e15;
}
using Room = std::array<char, 40>;
std::string_view plain_number(double value, Room& room) {
    const auto end =
        std::to_chars(room.data(), room.data() + room.size(), value, std::chars_format::fixed);
    return {room.data(), static_cast<std::size_t>(end.ptr - room.data())};
}

} // namespace

bool is_as_printed(std::string_view written, double value) {
    Room room;
    return written == (is_plain(value) ? plain_number(value, room) : number_as_printed(value));
}

std::string number_as_printed(double value) {
    if (value == 0)
        return "0"; // minus zero too
    Room room;
    if (is_plain(value))
        return std::string(plain_number(value, room));
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
    if (mark > 1)
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
    return schema == record.end() || *schema == schema_1;
}

bool is_version_1(const JsonValue& record) {
    const JsonValue* schema = record.find("schema");
    return schema == nullptr || schema->is_text(schema_1);
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

std::string sealed_text(const JsonValue& record) {
    std::string sealed;
    sealed.reserve(record.bytes.size());
    for (const JsonValue& member : record)
        if (!is_outside_the_seal(member.name)) {
            sealed += sealed.empty() ? '{' : ',';
            sealed += member.bytes;
        }
    return sealed.empty() ? "{}" : sealed + '}';
}

namespace {

// A record of version 1, as its own rules have it. Handed on as if it had been written by those of
// today.
std::optional<CanonicalText> read_version_1(std::string_view text, std::string* sealed) {
    if (is_deeper_than(max_record_depth, text))
        return std::nullopt;
    const nlohmann::json record = nlohmann::json::parse(text, nullptr, false);
    if (!record.is_object() || !is_version_1(record) || canonical_1(record) != text)
        return std::nullopt;
    if (sealed != nullptr)
        *sealed = sealed_text(record);
    return CanonicalText::read_and_keep(canonical(record));
}

} // namespace

std::optional<CanonicalText> read_canonical(std::string_view text, std::string* sealed) {
    if (text.empty() || text.back() != '\n')
        return std::nullopt;
    text.remove_suffix(1);
    std::optional<CanonicalText> read = CanonicalText::read(text);
    if (!read || (read->root().is(JsonValue::Kind::Object) && is_version_1(read->root())))
        return read_version_1(text, sealed);
    if (sealed != nullptr)
        *sealed = sealed_text(read->root());
    return read;
}

} // namespace acre::engine
