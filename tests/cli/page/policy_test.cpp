// What a browser may do with a page, worked out by another program: the SHA-256 of each text in
// base64 is what python's hashlib and base64 say.
#include "cli/page/policy.h"

#include <doctest/doctest.h>

#include <string>

namespace policy_test {

using acre::cli::content_policy;

namespace {

const std::string rest =
    " 'wasm-unsafe-eval'; worker-src blob:; base-uri 'none'; form-action 'none'";
const std::string of_nothing = " 'sha256-47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU='";
const std::string of_body = " 'sha256-fJgEClQWV1hGkK4qHMO0KotTsVnMYMXTq7/suurGyUo='"; // body{}
const std::string of_abc = " 'sha256-ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0='";  // abc
const std::string of_a = " 'sha256-qVpDBgj7bpq5hMAcGp3AOc79J3Y1Z4HvySTwKrWDoy4='";    // a()
const std::string of_b = " 'sha256-cf242PFc/kb7xD0Qzhsmd9vvRkc+cWFmbi+k+YvtdKc='";    // b()

} // namespace

TEST_CASE("a page of words alone may run and color nothing") {
    CHECK(content_policy("") == "default-src 'none'; style-src; script-src" + rest);
    CHECK(content_policy("<p>style, script</p>") == content_policy(""));
}

TEST_CASE(
    "each script and style is named once, by the hash of its text, and what is data by none") {
    CHECK(content_policy("<style>body{}</style><style></style><style>body{}</style>"
                         "<script>b()</script><p>c()</p><script>a()</script>\n"
                         "<script id=\"engine\">abc</script>"
                         "<script type=\"text/plain\">d()</script>") ==
          "default-src 'none'; style-src" + of_nothing + of_body + "; script-src" + of_b + of_a +
              of_abc + rest);
    CHECK(content_policy("<script>a()</script><script>abc</script>").find(of_a + of_abc) !=
          std::string::npos);
}

} // namespace policy_test
