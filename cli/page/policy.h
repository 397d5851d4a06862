// What a browser may do with a page (Content Security Policy, W3C): run the scripts and use the
// styles that stand in it, and nothing else.
#pragma once

#include <string>
#include <string_view>

namespace acre::cli {

// Of a whole page: the content of its `Content-Security-Policy`. Every script that runs and
// every style is named by the SHA-256 of its text, so that one that somebody else put there does
// not run.
std::string content_policy(std::string_view html);

} // namespace acre::cli
