#include <doctest/doctest.h>

#include "cli/shared/safe_text.h"

namespace safe_text_test {

using namespace acre::cli;

TEST_CASE("words of a stranger stay words in a page or a drawing") {
    struct Row {
        const char* text;
        const char* safe;
    };
    for (const Row& row :
         {Row{"Quillon & Daughter", "Quillon &amp; Daughter"}, Row{"<script>", "&lt;script&gt;"},
          Row{"\" onload='x'", "&quot; onload=&#39;x&#39;"}, Row{"a\x1b[2J", "a\\x1b[2J"},
          Row{"\xe2\x80\xae"
              "x",
              "\\u{202e}x"},
          Row{"bad \xff byte", "bad \\xff byte"}})
        CHECK(markup_text(row.text) == row.safe);
}

// Quoting: RFC 4180, section 2, rules 5 to 7.
TEST_CASE("a field of a CSV line is quoted where it must be and never a formula") {
    struct Row {
        const char* text;
        const char* field;
    };
    for (const Row& row :
         {Row{"fuel", "fuel"}, Row{"", ""}, Row{"a,b", "\"a,b\""},
          Row{"say \"hi\"", "\"say \"\"hi\"\"\""}, Row{"=1+1", "'=1+1"}, Row{"+cmd", "'+cmd"},
          Row{"-x", "'-x"}, Row{"@sum", "'@sum"}, Row{" 1", "\" 1\""}, Row{" =1", "' =1"},
          Row{"-12.50", "-12.50"}, Row{"\t=1", "' =1"}, Row{"=a,b", "\"'=a,b\""},
          Row{"-12x", "'-12x"}, Row{"-", "'-"}, Row{"+1", "'+1"}, Row{"-1+1", "'-1+1"},
          Row{"a\nb", "a\\x0ab"}})
        CHECK(csv_field(row.text) == row.field);
}

} // namespace safe_text_test
