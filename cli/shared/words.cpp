#include "cli/shared/words.h"

#include <cmath>

#include "lang/diag/safe_text.h"
#include "lang/units/clock.h"
#include "lang/units/number_text.h"

namespace acre::cli {

std::string shown(const engine::Subject& subject, double value) {
    return lang::terminal_text(subject.text(value));
}

std::string shown_change(double change, std::string_view unit) {
    if (!std::isfinite(change))
        return "no answer";
    if (change == 0)
        return "no change";
    return (change > 0 ? "+" : "") +
           lang::terminal_text(lang::quantity_text(change, lang::unit_of_difference(unit)));
}

std::string called(const engine::Subject& subject) {
    return lang::terminal_text(subject.called);
}

std::string charged_words(const engine::Subject& subject, double charged) {
    return "`price` shows " + shown(subject, charged) +
           ": there quantities are rounded as they are charged; here they are exact.";
}

std::string capital(std::string text) {
    if (!text.empty() && text[0] >= 'a' && text[0] <= 'z')
        text[0] = static_cast<char>(text[0] - 'a' + 'A');
    return text;
}

} // namespace acre::cli
