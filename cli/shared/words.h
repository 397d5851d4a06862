// What pages call lines and values.
#pragma once

#include <string>
#include <string_view>

#include "engine/questions/subject.h"

namespace acre::cli {

// "80 ac", "$412.80/ac", "one way", "no answer"; safe to show.
std::string shown(const engine::Subject& subject, double value);
// A difference, with its sign: "+$4.20/ac", "-3 ft", "no change".
std::string shown_change(double change, std::string_view unit);
// What people call a line or a given; safe to show.
std::string called(const engine::Subject& subject);

// Of a price that is charged otherwise than its line says: which is which.
std::string charged_words(const engine::Subject& subject, double charged);

// As the first word of a heading.
std::string capital(std::string text);

} // namespace acre::cli
