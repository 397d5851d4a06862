#include "engine/field/other_formats.h"

#include <algorithm>

namespace acre::engine {

std::string other_format(std::string_view text) {
    if (text.starts_with("\xEF\xBB\xBF"))
        text.remove_prefix(3);
    text.remove_prefix(std::min(text.find_first_not_of(" \t\r\n"), text.size()));
    const std::string_view beginning = text.substr(0, 1'000);
    if (beginning.starts_with("<")) {
        if (beginning.find("<kml") != std::string_view::npos)
            return "a KML file";
        return beginning.find("<gpx") != std::string_view::npos ? "a GPX file" : "an XML file";
    }
    const std::string_view line = beginning.substr(0, beginning.find_first_of("\r\n"));
    if (line.find_first_of("{}[]\"") == std::string_view::npos &&
        line.find_first_of(",;\t") != std::string_view::npos)
        return "a table";
    return {};
}

} // namespace acre::engine
