#include <algorithm>
#include <cmath>

#include "cli/sensitivity/sensitivity_page.h"
#include "lang/units/clock.h"
#include "lang/units/number_text.h"

namespace acre::cli {

using engine::Effect;

std::size_t sensitivity_rows(std::size_t all, SensitivityLook look) {
    constexpr std::size_t most = 15;
    return look.all ? all : std::min(all, most);
}

Bars sensitivity_bars(const engine::SensitivityAnswer& answer, SensitivityLook look) {
    Bars bars{"What moves " + answer.line.called + ": " + answer.title,
              answer.line.called,
              answer.line.unit,
              answer.value,
              {}};
    for (std::size_t row = 0; row < sensitivity_rows(answer.by_swing.size(), look); ++row) {
        const Effect& effect = answer.effects[answer.by_swing[row]];
        Bar bar{effect.given.called,
                NAN,
                NAN,
                "",
                "",
                lang::quantity_text(effect.width(answer.value),
                                    lang::unit_of_difference(answer.line.unit))};
        if (!effect.given.is_choice()) {
            bar.low = effect.at_low.value_or(NAN);
            bar.high = effect.at_high.value_or(NAN);
            bar.at_low = effect.given.text(effect.swing->low);
            bar.at_high = effect.given.text(effect.swing->high);
        } else {
            const std::size_t least = effect.least_option();
            const std::size_t greatest = effect.greatest_option();
            bar.low = effect.at_option[least];
            bar.high = effect.at_option[greatest];
            bar.at_low = effect.given.text(static_cast<double>(least));
            bar.at_high = effect.given.text(static_cast<double>(greatest));
        }
        bars.bars.push_back(std::move(bar));
    }
    return bars;
}

std::string sensitivity_svg(const engine::SensitivityAnswer& answer, SensitivityLook look) {
    return bars_svg(sensitivity_bars(answer, look));
}

} // namespace acre::cli
