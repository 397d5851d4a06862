#include "engine/book/canonical_text.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <utility>

#include "engine/book/canonical.h"

namespace acre::engine {

using Kind = JsonValue::Kind;

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
bool is_before_in_utf16(std::string_view a, std::string_view b) {
    const auto [left, right] = std::mismatch(a.begin(), a.end(), b.begin(), b.end());
    if (left == a.end() || right == b.end())
        return left == a.end() && right != b.end();
    const auto one = static_cast<unsigned char>(*left);
    const auto other = static_cast<unsigned char>(*right);
    if (one >= 0xee && other >= 0xee && (one >= 0xf0) != (other >= 0xf0))
        return one >= 0xf0;
    return one < other;
}

class CanonicalReader {
  public:
    CanonicalReader(std::string_view text, CanonicalText& to) : text_(text), to_(to) {
        to_.values_.reserve(text.size() / 20 + 1);
    }

    bool run() { return value({}, 0, 0) && at_ == text_.size(); }

  private:
    std::string_view text_;
    CanonicalText& to_;
    std::size_t at_ = 0;

    bool next_is(char c) const { return at_ < text_.size() && text_[at_] == c; }

    // `from`: where its bytes begin, with those of its name; `depth`: what it stands within.
    bool value(std::string_view name, std::size_t from, int depth) {
        if (at_ == text_.size())
            return false;
        const std::size_t here = to_.values_.size();
        JsonValue& value = to_.values_.emplace_back();
        value.name = name;
        bool read = false;
        switch (text_[at_]) {
        case '{':
            value.kind = Kind::Object;
            read = object(depth);
            break;
        case '[':
            value.kind = Kind::List;
            read = within(']', depth, [&] { return this->value({}, at_, depth + 1); });
            break;
        case '"':
            value.kind = Kind::Text;
            read = text(value.text);
            break;
        case 't':
            read = word("true", Kind::True, value);
            break;
        case 'f':
            read = word("false", Kind::False, value);
            break;
        case 'n':
            read = word("null", Kind::Null, value);
            break;
        default:
            read = number(value);
        }
        JsonValue& whole = to_.values_[here]; // those within it may have moved it
        whole.bytes = text_.substr(from, at_ - from);
        whole.size = static_cast<std::uint32_t>(to_.values_.size() - here);
        return read;
    }

    bool word(std::string_view word, Kind kind, JsonValue& to) {
        to.kind = kind;
        if (text_.substr(at_, word.size()) != word)
            return false;
        at_ += word.size();
        return true;
    }

    // What is empty may stand one deeper.
    template <class One> bool within(char close, int depth, One one) {
        ++at_;
        if (!next_is(close)) {
            if (depth >= max_record_depth || !one())
                return false;
            while (next_is(',')) {
                ++at_;
                if (!one())
                    return false;
            }
        }
        const bool closed = next_is(close);
        ++at_;
        return closed;
    }

    bool object(int depth) {
        std::optional<std::string_view> before;
        return within('}', depth, [&] {
            const std::size_t from = at_;
            std::string_view name;
            if (!next_is('"') || !text(name) || !next_is(':') ||
                (before && !is_before_in_utf16(*before, name)))
                return false;
            before = name;
            ++at_;
            return value(name, from, depth + 1);
        });
    }

    // Up to its closing quote; bytes that stand for themselves are not copied.
    bool text(std::string_view& to) {
        const std::size_t from = ++at_;
        std::string* read = nullptr; // with escapes
        std::size_t copied = from;
        for (; at_ < text_.size(); ++at_) {
            const auto byte = static_cast<unsigned char>(text_[at_]);
            if (byte == '"') {
                to = text_.substr(from, at_ - from);
                if (read != nullptr)
                    to = read->append(text_, copied, at_ - copied);
                ++at_;
                return true;
            }
            if (byte < 0x20)
                return false;
            if (byte >= 0x80) {
                const std::size_t length = utf8_length(text_.substr(at_));
                if (length == 0)
                    return false;
                at_ += length - 1;
            } else if (byte == '\\') {
                if (read == nullptr)
                    read = &to_.kept_.emplace_front();
                read->append(text_, copied, at_ - copied);
                char meant = 0;
                if (!escape(meant))
                    return false;
                *read += meant;
                copied = at_ + 1;
            }
        }
        return false;
    }

    // The one way in which each character is written. Leaves its last byte to be passed.
    bool escape(char& meant) {
        constexpr std::string_view letters = "btnfr\"\\", meanings = "\b\t\n\f\r\"\\";
        if (++at_ == text_.size())
            return false;
        if (const std::size_t known = letters.find(text_[at_]); known != std::string_view::npos) {
            meant = meanings[known];
            return true;
        }
        constexpr std::string_view digits = "0123456789abcdef";
        if (text_.substr(at_, 4) != "u000" && text_.substr(at_, 4) != "u001")
            return false;
        const std::size_t low =
            at_ + 4 < text_.size() ? digits.find(text_[at_ + 4]) : std::string_view::npos;
        if (low == std::string_view::npos)
            return false;
        meant = static_cast<char>((text_[at_ + 3] - '0') * 16 + static_cast<int>(low));
        at_ += 4;
        return meanings.find(meant) == std::string_view::npos;
    }

    bool number(JsonValue& to) {
        to.kind = Kind::Number;
        const auto is_digit = [&](std::size_t i) {
            return i < text_.size() && text_[i] >= '0' && text_[i] <= '9';
        };
        const std::size_t from = at_, first = at_ + (next_is('-') ? 1 : 0);
        if (!is_digit(first))
            return false;
        const char* const end = text_.data() + text_.size();
        const auto [rest, error] = std::from_chars(text_.data() + from, end, to.number);
        if (error != std::errc())
            return false;
        at_ = static_cast<std::size_t>(rest - text_.data());
        const std::string_view written = text_.substr(from, at_ - from);
        to.is_integer = written.find_first_of(".e") == std::string_view::npos;
        return is_as_printed(written, to.number);
    }
};

std::optional<CanonicalText> CanonicalText::read(std::string_view text) {
    CanonicalText read;
    return CanonicalReader(text, read).run() ? std::optional(std::move(read)) : std::nullopt;
}

std::optional<CanonicalText> CanonicalText::read_and_keep(std::string text) {
    CanonicalText read;
    const std::string& kept = read.kept_.emplace_front(std::move(text));
    return CanonicalReader(kept, read).run() ? std::optional(std::move(read)) : std::nullopt;
}

const JsonValue* JsonValue::find(std::string_view member) const {
    if (is(Kind::Object))
        for (const JsonValue& one : *this)
            if (one.name == member)
                return &one;
    return nullptr;
}

} // namespace acre::engine
