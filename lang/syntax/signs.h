// Signs that the notation does not have, and what to write instead. Texts copied from a letter or a
// web page are full of them.
#pragma once

#include <string>
#include <string_view>

#include "lang/diag/diagnostic.h"

namespace acre::lang {

// Whether no statement can hold this sign (one character) outside of a text.
bool is_foreign_sign(std::string_view sign);
// S100.
Diagnostic describe_foreign_sign(std::string_view sign, Span span);

// Whether money may be shown by it: up to four letters, points and signs of money, which are markup
// and escapes nowhere.
bool may_be_sign_of_money(std::string_view sign);

// A piece of text for a title: at most 40 bytes, cut between characters, with "…" when something is
// left out.
std::string shortened(std::string_view text);

} // namespace acre::lang
