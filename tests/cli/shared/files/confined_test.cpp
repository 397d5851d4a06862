// Which references stay below their folder, and how folders and names are put together.
#include "cli/shared/files/confined.h"

#include <doctest/doctest.h>

#include <string>

namespace confined_test {

using namespace acre::cli;

TEST_CASE("a reference is names joined by a slash, 400 bytes at most, and leads nowhere else") {
    for (const std::string& reference :
         {std::string("a"), std::string("library/draft"), std::string("..."),
          std::string("a..b/.c"), std::string("caf\xc3\xa9 ~ 1"), std::string(400, 'a')})
        CHECK_MESSAGE(is_confined(reference), reference);
    for (const std::string& reference :
         {std::string(), std::string("/"), std::string("/a"), std::string("a/"),
          std::string("a//b"), std::string("."), std::string("./a"), std::string("a/."),
          std::string(".."), std::string("../a"), std::string("a/../b"), std::string("a/.."),
          std::string("a\\b"), std::string("a\nb"), std::string("a\x1f"), std::string("a\x7f"),
          std::string(1, '\0'), std::string(401, 'a')})
        CHECK_MESSAGE(!is_confined(reference), reference);
    CHECK(is_confined("a\x20"));
}

TEST_CASE("the folder of a path, the folder above one, and a name in it") {
    CHECK(folder_of("a") == ".");
    CHECK(folder_of("/a") == "/");
    CHECK(folder_of("a/b") == "a");
    CHECK(folder_of("/a/b/c") == "/a/b");
    CHECK(folder_of("a/") == "a");

    CHECK(folder_above("/") == "/");
    CHECK(folder_above("/a") == "/");
    CHECK(folder_above("a") == ".");
    CHECK(folder_above("a/b") == "a");
    CHECK(folder_above(".") == "..");
    CHECK(folder_above("") == "..");
    CHECK(folder_above("..") == "../..");
    CHECK(folder_above("a/..") == "a/../..");
    CHECK(folder_above("a/.") == "a/./..");

    CHECK(joined(".", "a") == "a");
    CHECK(joined("", "a") == "a");
    CHECK(joined("a", "b") == "a/b");
    CHECK(joined("a/", "b") == "a/b");
    CHECK(joined("/", "b") == "/b");
}

} // namespace confined_test
