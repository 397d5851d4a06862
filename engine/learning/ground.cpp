// The ground of a job by its layers: lines of the choice `ground_class`, each with a thickness
// beside it, under the depth of their block.
#include <cmath>
#include <map>
#include <string>
#include <vector>

#include "engine/learning/readings.h"
#include "engine/words/words.h"

namespace acre::engine {
namespace {

struct Layer {
    std::size_t hardness; // the option's index: classes are written from soft to hard
    double thick;
};

// "home.top.ground" to "home.": the block's lines begin so.
std::string block_of(const std::string& line) {
    const std::size_t last = line.rfind('.');
    const std::size_t before =
        last == std::string::npos || last == 0 ? std::string::npos : line.rfind('.', last - 1);
    return before == std::string::npos ? std::string() : line.substr(0, before + 1);
}

double value_of(const PricedJob& job, const std::string& name) {
    return job.value(job.sheet().find(name));
}

// The hardest layer that begins above the depth.
std::size_t hardest(const std::vector<Layer>& layers, double depth) {
    std::size_t hardness = 0;
    double top = 0;
    for (std::size_t i = 0; i < layers.size(); ++i) {
        const bool bottom = i + 1 == layers.size();
        if (top < depth && (bottom || layers[i].thick > 0))
            hardness = std::max(hardness, layers[i].hardness);
        top += layers[i].thick;
    }
    return hardness;
}

} // namespace

Ground ground_of(const PricedJob& job) {
    const lang::Sheet& sheet = job.sheet();
    std::map<std::string, std::vector<Layer>> blocks;
    const std::vector<std::string>* classes = nullptr;
    for (lang::LineId id = 0; id < sheet.lines.size(); ++id) {
        const lang::Line& line = sheet.lines[id];
        if (line.given == lang::none || line.type.kind != lang::Type::Kind::Choice ||
            sheet.choices[line.type.choice].name != "ground_class" ||
            !line.name.ends_with(".ground"))
            continue;
        classes = &sheet.choices[line.type.choice].options;
        const std::string layer = line.name.substr(0, line.name.rfind('.') + 1);
        const double choice = job.value(id), thick = value_of(job, layer + "thick");
        if (std::isfinite(choice) && std::isfinite(thick))
            blocks[block_of(line.name)].push_back({static_cast<std::size_t>(choice), thick});
    }
    Ground ground;
    double most = -1;
    for (const auto& [block, layers] : blocks) {
        const double area = value_of(job, block + "area"), depth = value_of(job, block + "depth");
        if (!std::isfinite(depth) || !(area > most))
            continue;
        most = area;
        ground.depth = depth;
        ground.depth_unit = unit_text(sheet, sheet.lines[sheet.find(block + "depth")]);
        const std::size_t hardness = hardest(layers, depth);
        ground.layer = hardness < classes->size() ? (*classes)[hardness] : std::string();
    }
    return ground;
}

} // namespace acre::engine
