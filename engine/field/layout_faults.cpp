#include "engine/field/layout_faults.h"

#include <string>

#include <fmt/format.h>

#include "lang/diag/outcome.h"
#include "lang/units/convert.h"
#include "lang/units/number_text.h"

namespace acre::engine {
namespace {

std::string feet(double meters) {
    return lang::quantity_text(lang::convert(meters, "m", "ft"), "ft");
}
} // namespace

lang::Diagnostic bad_request(const LayoutRequest& request) {
    return lang::placeless(
        lang::Code::B910, fmt::format("pulls {} apart cannot be laid out", feet(request.spacing)),
        {"the spacing must be above zero; headland, row ends, speed and turns must not be "
         "negative; each row takes one pass or more, and its passes fit into the spacing"});
}
lang::Diagnostic nothing_left(const LayoutRequest& request) {
    return lang::placeless(
        lang::Code::B909,
        fmt::format("a headland of {} leaves nothing of the field", feet(request.headland)));
}
lang::Diagnostic no_pull_fits(const LayoutRequest& request) {
    return lang::placeless(
        lang::Code::B909, fmt::format("no pull fits the field at {} apart", feet(request.spacing)),
        {},
        {"try closer pulls, a first pull nearer to the edge, shorter row ends, or another "
         "heading"});
}
lang::Diagnostic too_many_pulls(const LayoutRequest& request) {
    return lang::placeless(lang::Code::B910,
                           fmt::format("more than {} pulls", lang::number_text(max_pulls)), {},
                           {fmt::format("the pulls are {} apart", feet(request.spacing))});
}
lang::Diagnostic too_ragged() {
    return lang::placeless(
        lang::Code::B910, "a headland along so ragged a boundary takes too long to work out", {},
        {"thin the boundary out, a point every few feet is enough; or leave no headland"});
}
lang::Diagnostic too_much_to_search() {
    return lang::placeless(lang::Code::B910,
                           "finding the best heading takes too long on this boundary", {},
                           {"give the heading, or thin the boundary out: a point every few feet is "
                            "enough"});
}

} // namespace acre::engine
