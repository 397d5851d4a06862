// Whether two records have the same members: most quotes that are worked out again do, and then no
// JSON is made of either.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <type_traits>
#include <vector>

#include "engine/book/fields.h"

namespace acre::engine {

// What is no amount in cents may differ by one part in a billion.
inline bool is_same_number(double a, double b) {
    return std::abs(a - b) <= 1e-9 * std::max({1.0, std::abs(a), std::abs(b)});
}

class SameMembers {
  public:
    // walk(f, record): one of the functions of fields.h.
    template <class T, class Walk> bool operator()(const T& a, const T& b, Walk walk) {
        const std::size_t before = seen_.size();
        Note note{{}, *this};
        walk(note, const_cast<T&>(a)); // a walk that only looks
        Compare compare{{}, *this, before};
        walk(compare, const_cast<T&>(b));
        seen_.resize(before);
        return compare.same;
    }

  private:
    std::vector<const void*> seen_; // members of the first, in the order of the walk

    template <class Self> struct EveryKind { // they are told apart by their types
        template <class T> void cents(const char* name, T& member) { self()(name, member); }
        template <class T> void count(const char* name, T& member) { self()(name, member); }
        template <class T> void maybe(const char* name, T& member) { self()(name, member); }
        template <class T> void named(const char* name, T& member) { self()(name, member); }
        template <class T> void money(const char* name, T& member) { self()(name, member); }
        template <class T> void object(const char* name, T& member) { self()(name, member); }
        template <class Inside> void inside(const char*, Inside inside) { inside(self()); }
        Self& self() { return static_cast<Self&>(*this); }
    };
    struct Note : EveryKind<Note> {
        SameMembers& whole;

        template <class T> void operator()(const char*, T& member) {
            whole.seen_.push_back(&member);
        }
    };
    struct Compare : EveryKind<Compare> {
        SameMembers& whole;
        std::size_t next;
        bool same = true;

        template <class T> void operator()(const char*, T& member) {
            const void* const other = whole.seen_[next++];
            same = same && whole.is_same(*static_cast<const T*>(other), member);
        }
    };

    static bool is_same(double a, double b) { // a number that is none is left out
        return is_same_number(a, b) || (!std::isfinite(a) && !std::isfinite(b));
    }
    template <class T> bool is_same(const std::vector<T>& a, const std::vector<T>& b) {
        bool same = a.size() == b.size();
        for (std::size_t i = 0; same && i < a.size(); ++i)
            same = is_same(a[i], b[i]);
        return same;
    }
    template <class T> bool is_same(const T& a, const T& b) {
        if constexpr (std::is_class_v<T> && requires(Note & f, T & r) { fields(f, r); })
            return (*this)(a, b, [](auto& f, T& r) { fields(f, r); });
        else
            return a == b;
    }
};

inline bool are_priced_alike(const QuoteRecord& a, const QuoteRecord& b) {
    return SameMembers()(
        a, b, [](auto& f, QuoteRecord& r) { priced_fields(f, r); });
}

inline bool are_alike(const RecordRisk& a, const RecordRisk& b) {
    return SameMembers()(
        a, b, [](auto& f, RecordRisk& r) { fields(f, r); });
}

} // namespace acre::engine
