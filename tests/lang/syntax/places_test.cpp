// What may begin a file, and where statements go.
#include "lang/syntax/places.h"

#include <algorithm>
#include <utility>
#include <vector>

#include <doctest/doctest.h>

namespace places_test {

using namespace acre::lang;

TEST_CASE("a file begins by saying what it is, and by nothing else") {
    const std::vector<std::pair<FileKind, std::vector<Keyword>>> rows = {
        {FileKind::Model, {Keyword::Model, Keyword::Library}},
        {FileKind::Library, {Keyword::Model, Keyword::Library}},
        {FileKind::Season, {Keyword::Season}},
        {FileKind::Values, {Keyword::Values}},
        {FileKind::Job, {Keyword::Job}},
        {FileKind::Firm, {Keyword::Firm}},
        {FileKind::CommandLine, {}}};
    for (const auto& [kind, heads] : rows)
        for (const Keyword head :
             {Keyword::Model, Keyword::Library, Keyword::Season, Keyword::Values, Keyword::Job,
              Keyword::Firm, Keyword::Set, Keyword::None}) {
            const auto listed =
                static_cast<std::size_t>(std::count(heads.begin(), heads.end(), head));
            CHECK(may_begin_file(head, kind) == (listed > 0));
        }
}

TEST_CASE("places are listed as people say them") {
    CHECK(list_of_places(InPrice) == "in a price");
    CHECK(list_of_places(InModel | InPart) == "in a model or in a part");
    CHECK(list_of_places(InModel | InLibrary | InPart) == "in a model, in a library or in a part");
    CHECK(name_of_place(InFirm) == "in a firm's file");
    CHECK(may_begin(Keyword::Set, FileKind::Job, Keyword::None));
    CHECK(may_begin(Keyword::Set, FileKind::Job, Keyword::Option));
    CHECK_FALSE(may_begin(Keyword::Option, FileKind::Job, Keyword::Option));
    CHECK_FALSE(may_begin(Keyword::Set, FileKind::Model, Keyword::None));
    CHECK_FALSE(may_begin(Keyword::Job, FileKind::Job, Keyword::None)); // only first
}

} // namespace places_test
