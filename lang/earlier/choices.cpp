#include "lang/earlier/choices.h"

#include <fmt/format.h>

#include "lang/syntax/signs.h"

namespace acre::lang {

void report_compared_choices(const Sheet& sheet, const SourceMap& sources,
                             Diagnostics& diagnostics) {
    for (const Node& node : sheet.nodes) {
        if ((node.op != Op::Equal && node.op != Op::NotEqual) || node.a == none || node.b == none ||
            node.span.file == no_file)
            continue;
        const Node& left = sheet.nodes[node.a];
        const Node& right = sheet.nodes[node.b];
        const std::string_view sign = sources.text(node.op_span);
        if ((left.op != Op::Choice) == (right.op != Op::Choice) || (sign != "==" && sign != "!="))
            continue;
        const Node& value = left.op == Op::Choice ? right : left;
        const Node& option = left.op == Op::Choice ? left : right;
        const std::string written =
            fmt::format("{} {} {}", sources.text(value.span),
                        node.op == Op::Equal ? "is" : "is not", sources.text(option.span));
        diagnostics.add(
            {Code::L835,
             fmt::format("a choice is compared with `{}`", node.op == Op::Equal ? "is" : "is not"),
             {node.op_span, "earlier"},
             {},
             {"the next version of the language does not read it"},
             {{fmt::format("write  {}", shortened(written)),
               Edit{{node.span.file, std::min(left.span.begin, right.span.begin),
                     std::max(left.span.end, right.span.end)},
                    written}}}});
    }
}

} // namespace acre::lang
