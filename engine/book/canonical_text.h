// Canonical JSON (RFC 8785) read where it stands: nothing is copied, nothing written out again to
// compare, and what can be read at all is canonical to the last byte.
#pragma once

#include <cstddef>
#include <cstdint>
#include <forward_list>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace acre::engine {

// A value in a text; those within it stand behind it.
struct JsonValue {
    enum class Kind : std::uint8_t { Null, False, True, Number, Text, List, Object };
    class Iterator {
      public:
        explicit Iterator(const JsonValue* at) : at_(at) {}
        const JsonValue& operator*() const { return *at_; }
        Iterator& operator++() {
            at_ += at_->size;
            return *this;
        }
        friend bool operator==(const Iterator&, const Iterator&) = default;

      private:
        const JsonValue* at_;
    };

    std::string_view name;  // of a member
    std::string_view text;  // what a text says
    std::string_view bytes; // all of it as it stands, with the name of a member
    double number = 0;
    std::uint32_t size = 1; // with the values within it
    Kind kind = Kind::Null;
    bool is_integer = false; // a number without point and exponent

    bool is(Kind other) const { return kind == other; }
    bool is_text(std::string_view said) const { return is(Kind::Text) && text == said; }
    const JsonValue* find(std::string_view member) const; // null: it has none, or is no object
    // Of a list or an object; others have none.
    Iterator begin() const { return Iterator(this + 1); }
    Iterator end() const { return Iterator(this + size); }
};

class CanonicalText {
  public:
    // Empty if it is not JSON, not canonical to the last byte, or more than max_record_depth deep.
    // The text must stay where it is.
    static std::optional<CanonicalText> read(std::string_view text);
    // The same of a text that it keeps.
    static std::optional<CanonicalText> read_and_keep(std::string text);

    const JsonValue& root() const { return values_.front(); }

  private:
    friend class CanonicalReader;
    std::vector<JsonValue> values_;
    std::forward_list<std::string> kept_; // texts with escapes, as they read
};

// Whether `a` goes before `b`: by the UTF-16 units.
bool is_before_in_utf16(std::string_view a, std::string_view b);
// How many bytes of UTF-8 begin a text that is not empty; 0: none.
std::size_t utf8_length(std::string_view text);

} // namespace acre::engine
