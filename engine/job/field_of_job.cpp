#include "engine/job/field_of_job.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace acre::engine {

FieldOfJob::FieldOfJob(const PricedJob& job, std::string prefix)
    : job_(job),
      sheet_(job.sheet()),
      prefix_(std::move(prefix)) {}

std::optional<double> FieldOfJob::value(const char* name, const char* unit) const {
    const lang::LineId id = find(name);
    if (id == lang::none || sheet_.lines[id].type.kind != lang::Type::Kind::Number)
        return std::nullopt;
    const double is = job_.value(id);
    if (!std::isfinite(is))
        return std::nullopt;
    lang::UnitError error{};
    const std::optional<lang::Unit> to = lang::read_unit(unit, sheet_.units, error);
    if (!to || to->dim != sheet_.lines[id].type.unit.dim)
        return std::nullopt;
    return lang::conversion(sheet_.lines[id].type.unit, *to).apply(is);
}

bool FieldOfJob::is_given(const std::string& name) const {
    const lang::LineId id = find(name);
    return id != lang::none && sheet_.lines[id].given != lang::none;
}

bool FieldOfJob::is_said(const std::string& name) const {
    const lang::LineId id = find(name);
    const lang::Given& given = sheet_.givens[sheet_.lines[id].given];
    return std::any_of(given.settings.begin(), given.settings.end(), [](const auto& setting) {
        return setting.layer >= lang::Layer::Values && setting.layer != lang::Layer::Field;
    });
}

bool FieldOfJob::request(LayoutRequest& request, lang::Span span,
                         lang::Diagnostics& diagnostics) const {
    const std::optional<double> spacing = value("layout_spacing", "m");
    if (!spacing) {
        diagnostics.add(
            {lang::Code::B910,
             "the model does not say how to lay a field out",
             {span, "a boundary is named here"},
             {},
             {},
             {{"give the model a line `layout_spacing : ft = …`, from line to line", {}}}});
        return false;
    }
    request.spacing = *spacing;
    request.passes_per_row = value("layout_passes", "1").value_or(1);
    request.pass_spacing = value("layout_pass_spacing", "m").value_or(0);
    request.headland = value("layout_headland", "m").value_or(0);
    request.row_ends = value("layout_row_ends", "m").value_or(0);
    request.turn_diameter = value("layout_turn_circle", "m").value_or(0);
    if (const std::optional<double> offset = value("layout_offset", "m"); offset && *offset > 0)
        request.first_offset = offset;
    request.speed = value("speed", "m/s").value_or(0.67);
    request.turn_time = value("turn", "s").value_or(40);
    return true;
}

} // namespace acre::engine
