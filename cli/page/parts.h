// Styles and scripts of the page (cli/page/look, cli/page/script), compiled into the program as
// text, and the stamp of the sources that a module must have been built from.
#pragma once

#include <string_view>

namespace acre::cli {

std::string_view page_style();
std::string_view engine_script(); // the engine alone: the page and its worker run it
std::string_view page_script();   // everything else
std::string_view source_stamp();  // "0.1.0-3f2a…": of the program's version and sources

} // namespace acre::cli
