#include "engine/job/job_fields.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <set>
#include <string_view>

#include <fmt/format.h>

#include "engine/field/boundary_reference.h"
#include "engine/field/soils.h"
#include "engine/job/field_of_job.h"
#include "lang/units/convert.h"
#include "lang/units/number_text.h"

namespace acre::engine {
namespace {

constexpr std::size_t steps_of_point = 300; // to read it, lay it flat and check it

class Fields {
  public:
    Fields(const PricedJob& job, lang::Loader& loader, std::vector<JobField>& fields,
           std::string& sets, lang::SourceMap& sources, lang::Diagnostics& diagnostics)
        : job_(job),
          loader_(loader),
          fields_(fields),
          sets_(sets),
          sources_(sources),
          diagnostics_(diagnostics) {}

    bool all() {
        const lang::Sheet& sheet = job_.sheet();
        const auto laid = [&](const std::string& name, const auto& of) {
            return of.field_path.empty() ||
                   one({name, of.field_path, of.field_within, of.field_heading});
        };
        return laid("", sheet.job) &&
               std::all_of(sheet.entries.begin(), sheet.entries.end(),
                           [&](const lang::Entry& entry) { return laid(entry.name, entry); });
    }

  private:
    const PricedJob& job_;
    lang::Loader& loader_;
    std::vector<JobField>& fields_;
    std::string& sets_;
    lang::SourceMap& sources_;
    lang::Diagnostics& diagnostics_;
    std::set<std::string> drawn_;              // fields of which a part was laid out
    std::map<std::string, std::string> names_; // of loaded files, by how the job names them
    KnownBoundaries known_;
    std::size_t bytes_ = 0, effort_ = 0;

    // The heading is a constant of the job; its node holds the number in degrees.
    std::optional<double> heading(lang::NodeId node) const {
        if (node == lang::none)
            return std::nullopt;
        const lang::Sheet& sheet = job_.sheet();
        double sign = 1;
        const lang::Node* at = &sheet.nodes[node];
        while (at->op == lang::Op::Negate || at->op == lang::Op::Convert) {
            sign = at->op == lang::Op::Negate ? -sign : sign;
            at = &sheet.nodes[at->a];
        }
        return sign * at->number;
    }

    // A compass has 360 degrees; more is a slip of the finger.
    bool heading_is_lawful(lang::NodeId node) {
        const std::optional<double> is = heading(node);
        if (!is || (*is >= 0 && *is <= 360))
            return true;
        diagnostics_.add({lang::Code::B910,
                          fmt::format("the heading is {}, outside 0 deg .. 360 deg",
                                      lang::quantity_text(*is, "deg")),
                          {job_.sheet().nodes[node].span, "a compass has 360 deg"},
                          {},
                          {},
                          {}});
        return false;
    }

    struct Said { // of one piece of ground
        std::string entry, path, within;
        lang::NodeId heading;
    };
    // What is ripped of a field one way: all of it, or what lies within some ground.
    struct Ripped {
        LaidField field;
        double area = 0, travel = 0, pulls = 0; // m², m
        double outer_area = 0;                  // m², holes not taken off a whole field
        double run() const { return pulls > 0 ? travel / pulls : field.layout.mean; }
    };

    std::optional<BoundaryText> text_of(const std::string& path) {
        const BoundaryReference from = split_reference(path);
        if (const auto loaded = names_.find(from.file); loaded != names_.end())
            return BoundaryText{loaded->second, {}, from.feature};
        lang::Outcome<lang::Loaded> text =
            loader_.load(lang::ReferenceKind::Boundary, from.file, job_.request().name);
        if (!text) {
            for (lang::Diagnostic failed : text.said.diagnostics.all()) {
                failed.primary.span = {0, 0, 0};
                diagnostics_.add(std::move(failed));
            }
            return std::nullopt;
        }
        bytes_ += text->text.size();
        if (bytes_ > max_boundaries_bytes) {
            diagnostics_.add(
                too_much(fmt::format("come to more than {} MiB", max_boundaries_bytes >> 20U)));
            return std::nullopt;
        }
        names_.emplace(from.file, text->name);
        return BoundaryText{text->name, std::move(text->text), from.feature};
    }

    static lang::Diagnostic too_much(const std::string& what) {
        return lang::placeless(
            lang::Code::B907, "the boundaries of this job " + what, {},
            {"thin them out: a point every few feet is enough",
             "and say headings, as in `heading 12 deg`: the search for the best takes most"});
    }

    static std::size_t points_of(const Boundary& boundary) {
        std::size_t points = 0;
        for (const BoundaryPolygon& polygon : boundary.polygons) {
            points += polygon.outer.size();
            for (const LonLatRing& hole : polygon.holes)
                points += hole.size();
        }
        return points;
    }
    static std::size_t steps_of(const LaidField& field) {
        const std::size_t points = points_of(field.boundary);
        const std::size_t headings = std::max<std::size_t>(1, field.ranked.size());
        const std::size_t steps_of_pull = field.request.turn_diameter > 0 ? 160 : 20;
        return points * steps_of_point +
               headings * (points + field.layout.pulls.size() * steps_of_pull);
    }
    // Each field is bounded by itself; a job may have a thousand of them.
    bool spend(std::size_t steps) {
        effort_ += steps;
        if (effort_ <= most_job_field_effort)
            return true;
        diagnostics_.add(too_much("are too much to lay out"));
        return false;
    }

    std::optional<SoilGround> within(const Said& said, const LaidField& field) {
        std::optional<BoundaryText> map = text_of(said.within);
        if (!map)
            return std::nullopt;
        const std::string name = map->name;
        std::optional<SoilGround> part =
            ground_within(field, std::move(*map), sources_, diagnostics_, known_);
        if (!part || !spend(points_of(*known_.find(name)) * steps_of_point))
            return std::nullopt;
        return part;
    }

    // m of the rows that are planted, `spacing` apart and as the pulls run: the same of every
    // pattern of ripping. Empty: not even one row fits, and the model's own figure counts.
    std::optional<double> rows(const Said& said, const LaidField& ripped, double spacing) {
        LaidField planted = ripped;
        planted.request.spacing = spacing;
        planted.request.passes_per_row = 1;
        planted.ranked.clear();
        lang::Outcome<Layout> layout = lay_out(planted.plane, planted.request);
        if (!layout)
            return std::nullopt;
        planted.layout = std::move(*layout);
        if (!spend(steps_of(planted)))
            return std::nullopt;
        if (said.within.empty())
            return planted.layout.travel;
        const std::optional<SoilGround> part = within(said, planted);
        return part ? std::optional(part->travel) : std::nullopt;
    }

    std::optional<Ripped> rip(const Said& said, const LayoutRequest& request,
                              std::optional<double> heading) {
        std::optional<BoundaryText> text = text_of(said.path);
        if (!text)
            return std::nullopt;
        std::optional<LaidField> field =
            lay_texts({std::move(*text)}, request, heading, sources_, diagnostics_, &known_);
        if (!field || !spend(steps_of(*field)))
            return std::nullopt;
        const Layout& layout = field->layout;
        Ripped ripped{{},
                      layout.ripped_area,
                      layout.travel,
                      static_cast<double>(layout.pulls.size()),
                      field->plane.outer_area};
        if (!said.within.empty()) {
            const std::optional<SoilGround> part = within(said, *field);
            if (!part)
                return std::nullopt;
            ripped = {{}, part->ripped_area, part->travel, part->pulls, part->ground};
        }
        ripped.field = std::move(*field);
        return ripped;
    }

    // A map may say how deep each of its blocks is ripped; the job would be priced at one depth.
    // What the layout itself finds out, such as acres, it need not say.
    void look_for_untaken(const FieldOfJob& job, const Said& said, const LaidField& field) {
        static const std::set<std::string> laid_out = {"gross",  "area",  "run", "cross_run",
                                                       "travel", "pulls", "rows"};
        std::set<std::string> untaken;
        for (const BoundaryBlock& block : field.boundary.blocks)
            for (const BoundaryProperty& property : block.properties)
                if (!laid_out.contains(property.name) && job.is_given(property.name) &&
                    !job.is_said(property.name))
                    untaken.insert(property.name);
        if (untaken.empty())
            return;
        std::string names;
        for (const std::string& name : untaken)
            names += (names.empty() ? "`" : ", `") + name + "`";
        diagnostics_.add(lang::placeless(
            lang::Code::L838,
            fmt::format("\"{}\" says {} of its ground, and the job does not take it", said.path,
                        names),
            {},
            {fmt::format(
                 "`acrewright field {} --spacing … --blocks blocks.values` makes a block of "
                 "each feature, with what it says",
                 split_reference(said.path).file),
             fmt::format("or say `set {} = …` in the job", job.full(untaken.begin()->c_str()))}));
    }

    bool one(const Said& said) {
        FieldOfJob job(job_, said.entry.empty() ? "" : said.entry + ".");
        LayoutRequest request;
        if (!heading_is_lawful(said.heading) || !job.request(request, {0, 0, 0}, diagnostics_))
            return false;
        std::optional<Ripped> along = rip(said, request, heading(said.heading));
        if (!along)
            return false;
        std::optional<Ripped> across;
        if (const std::optional<double> spacing = job.value("layout_cross_spacing", "m");
            spacing && *spacing > 0) {
            request.spacing = *spacing;
            across = rip(said, request, std::fmod(along->field.request.heading + 90, 180));
            if (!across)
                return false;
        }
        std::optional<double> planted;
        if (const std::optional<double> spacing = job.value("layout_row_spacing", "m");
            spacing && *spacing > 0 && job.is_given("rows"))
            planted = rows(said, along->field, *spacing);
        look_for_untaken(job, said, along->field);
        set_all(job, said, *along, across ? &*across : nullptr, planted);
        const std::string drawn = fmt::format("{} {}", said.path, along->field.request.heading);
        if (said.within.empty() || drawn_.insert(drawn).second) // a picture of each field is enough
            fields_.push_back({said.entry, std::move(along->field)});
        return true;
    }

    void set_all(const FieldOfJob& job, const Said& said, const Ripped& along, const Ripped* across,
                 std::optional<double> planted) {
        std::string from = along.field.file + (said.within.empty() ? "" : " within " + said.within);
        for (char& c : from)
            c = c == '"' || c == '\n' || c == '\r' ? ' ' : c;
        const std::string because =
            fmt::format("because \"laid out from {}, heading {:.1f} deg{}\"", from,
                        along.field.request.heading, across != nullptr ? " and across" : "");
        const auto set = [&](const char* name, double value, const char* unit_of,
                             const char* unit) {
            if (job.is_given(name))
                sets_ += fmt::format("set {} = {:.10g}{}{}  {}\n", job.full(name),
                                     lang::convert(value, unit_of, unit), *unit == '1' ? "" : " ",
                                     *unit == '1' ? "" : unit, because);
        };
        set("gross", along.outer_area, "m^2", "ac");
        // Paid by the acres that are ripped, whichever way more of them are.
        set("area", std::max(along.area, across != nullptr ? across->area : 0), "m^2", "ac");
        set("run", along.run(), "m", "ft");
        if (across != nullptr)
            set("cross_run", across->run(), "m", "ft");
        set("travel", along.travel + (across != nullptr ? across->travel : 0), "m", "mi");
        set("pulls", along.pulls + (across != nullptr ? across->pulls : 0), "1", "1");
        if (planted)
            set("rows", *planted, "m", "mi");
    }
};

} // namespace

bool names_boundaries(const lang::Sheet& sheet) {
    if (!sheet.job.field_path.empty())
        return true;
    return std::any_of(sheet.entries.begin(), sheet.entries.end(),
                       [](const lang::Entry& entry) { return !entry.field_path.empty(); });
}

bool lay_job_fields(const PricedJob& job, lang::Loader& loader, std::vector<JobField>& fields,
                    std::string& sets, lang::SourceMap& sources, lang::Diagnostics& diagnostics) {
    return Fields(job, loader, fields, sets, sources, diagnostics).all();
}

} // namespace acre::engine
