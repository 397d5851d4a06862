#include "lang/diag/code_page.h"

namespace acre::lang {
namespace {

constexpr std::string_view cause_lead = "Cause: ";

std::optional<CodePage> read_page(std::string_view text) {
    CodePage page;
    page.meaning = take_paragraph(text);
    page.cause = take_paragraph(text);
    if (page.meaning.empty() || !page.cause.starts_with(cause_lead))
        return std::nullopt;
    page.cause.erase(0, cause_lead.size());
    if (!take_example(text, "Wrong", page.wrong) || !take_example(text, "Right", page.right))
        return std::nullopt;
    skip_empty_lines(text);
    return text.empty() ? std::optional(std::move(page)) : std::nullopt;
}

} // namespace

std::optional<CodePage> page_of(Code code) {
    std::string_view head;
    std::string_view body;
    for (std::string_view text : code_page_texts())
        while (take_page(text, head, body))
            if (head == name_of(code))
                return read_page(body);
    return std::nullopt;
}

} // namespace acre::lang
