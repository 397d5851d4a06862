// The texts of a quote: sealed by their SHA-256 and kept once in a book, however many records name
// them.
#pragma once

#include <cstddef>
#include <functional>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <utility>
#include <vector>

#include "engine/book/record.h"
#include "engine/job/used_texts.h"
#include "lang/compile.h"
#include "lang/diag/outcome.h"

namespace acre::engine {

// The text of that seal, or why it cannot be had.
struct FoundText {
    std::string text, fault;
};
using SealedTexts = std::function<FoundText(const std::string& seal)>;

// The texts of a book, each read once for many records that name it: past kept_text_bytes all
// are let go. To be asked by any number of threads.
class KeptTexts {
  public:
    explicit KeptTexts(SealedTexts book) : book_(std::move(book)) {}
    FoundText find(const std::string& seal);

  private:
    SealedTexts book_;
    std::mutex mutex_;
    std::unordered_map<std::string, std::string> texts_; // by seal
    std::size_t bytes_ = 0;
};
inline constexpr std::size_t kept_text_bytes = 4U << 20U;

bool is_seal(std::string_view text); // 64 lower-case hexadecimal digits

// Every seal that a record names.
std::vector<std::string> seals_in(const Record& record);

// Puts a text into `carried` and gives its seal.
std::string carry(QuoteRecord& quote, std::string text);

// A text that is carried; null: it is not.
const std::string* carried_text(const QuoteRecord& quote, const std::string& seal);

// Carries every text that the quote names, from the book. What is wrong with them, or empty.
std::string fetch_texts(QuoteRecord& quote, const SealedTexts& book);

// What it takes to price a quote again: none of the files it was made from.
struct MadeFrom {
    lang::Request request;
    UsedTexts texts;
};
// Empty if the quote lacks what it needs; its texts must be carried. With another option than the
// quote's own, boundaries that are sealed are laid out again: it may have another spacing.
std::optional<MadeFrom> made_from(const QuoteRecord& quote, const std::string& option = {});
bool has_boundary(const QuoteRecord& quote);

// Of a quote whose record lacks its texts (R006).
lang::Diagnostic lacks_texts(std::string_view number);

} // namespace acre::engine
