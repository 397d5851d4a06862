#include "cli/new/start.h"

#include <algorithm>
#include <utility>

#include "cli/shared/files/file_loader.h"
#include "engine/questions/quantity.h"
#include "lang/diag/safe_text.h"
#include "lang/source/source_map.h"
#include "lang/syntax/tidy.h"
#include "lang/syntax/words.h"
#include "lang/units/catalog.h"
#include "lang/units/letters.h"
#include "lang/units/number_text.h"

namespace acre::cli {

namespace {

constexpr std::size_t longest = 60; // of a word, so that lines and pages keep their width

lang::Diagnostic wrong(std::string title, std::string help = {}) {
    return lang::placeless(lang::Code::C003, std::move(title), {},
                           help.empty() ? std::vector<std::string>{}
                                        : std::vector<std::string>{std::move(help)});
}

// Whether a text may stand in quotes, in braces of a wording, and on one line.
bool is_plain(const std::string& text) {
    return !text.empty() && text.size() <= longest &&
           text.find_first_of("\"{}<>\\@#") == text.npos && lang::terminal_text(text) == text &&
           text.front() != ' ' && text.back() != ' ';
}

// "Stump grinding" -> "stump-grinding"
std::string file_stem(const std::string& words, const char* otherwise) {
    std::string stem;
    for (const char c : words)
        if (lang::is_letter(c) || lang::is_digit(c))
            stem += lang::to_lower(c);
        else if (!stem.empty() && stem.back() != '-')
            stem += '-';
    while (stem.ends_with('-'))
        stem.pop_back();
    return stem.empty() || !lang::is_letter(stem[0]) ? otherwise : stem;
}

std::string filled(std::string_view text,
                   const std::vector<std::pair<std::string_view, std::string>>& words) {
    std::string out;
    while (!text.empty()) {
        const std::size_t open = std::min(text.find("<<"), text.size());
        out += text.substr(0, open);
        text.remove_prefix(open);
        const std::size_t close = text.find(">>");
        if (close == std::string_view::npos)
            return out.append(text);
        for (const auto& [name, word] : words)
            if (name == text.substr(2, close - 2))
                out += word;
        text.remove_prefix(close + 2);
    }
    return out;
}

// In the standard layout: columns line up whatever the words are. A text that is not the
// notation's stays.
std::string tidied(const StartFile& file) {
    lang::FileKind kind{};
    if (!file_kind(file.name, kind))
        return file.text;
    lang::SourceMap sources;
    lang::Diagnostics unsaid;
    const lang::FileId id = sources.add(file.name, file.text);
    return lang::tidy(sources, id, kind, unsaid).value_or(file.text);
}

// A unit of quantities that is there, or a name that can be counted. Money, shares and clock times
// are no quantities to charge by.
bool is_unit(const std::string& per) {
    lang::UnitError error{};
    return !per.empty() && lang::is_letter(per[0]) && per != "clock" &&
           per.find('/') == std::string::npos &&
           lang::read_unit(per, lang::UnitCatalog(), error).has_value();
}
bool can_be_counted(const std::string& per) {
    return !per.empty() && per.size() <= longest && lang::keyword_of(per) == lang::Keyword::None &&
           lang::end_of_word(per.data(), per.data() + per.size()) == per.data() + per.size() &&
           !lang::UnitCatalog().is_built_in(per);
}

} // namespace

lang::Outcome<std::vector<StartFile>> start_files(const StartWords& words) {
    for (const auto& [option, text] :
         {std::pair("--firm", &words.firm), {"--work", &words.work}, {"--machine", &words.machine}})
        if (!is_plain(*text))
            return wrong(std::string("`") + option +
                         "` takes a text of up to 60 letters without "
                         "quotes, braces and brackets");
    if (file_stem(words.work, "work") == "drive")
        return wrong(
            "`Drive` is what the way there and back is called: give the work another name");
    const std::string per = lang::with_usual_spelling(words.per);
    const bool unit = is_unit(per);
    if (!unit && !can_be_counted(per))
        return wrong("`--per` takes a unit or one word for what is counted; not `" + words.per +
                         "`",
                     "`acrewright measures` lists the units");
    const lang::Outcome<double> paid = engine::QuantityReader("$", "`--paid`: ").read(words.paid);
    if (!paid)
        return paid.said;
    if (words.year.size() != 4 ||
        !std::all_of(words.year.begin(), words.year.end(), lang::is_digit))
        return wrong("`--year` takes a year, as in 2027; not `" + words.year + "`");

    const bool by_hour = per == "h";
    const std::string stem = file_stem(words.work, "work");
    const std::string firm = file_stem(words.firm, "firm");
    std::vector<std::pair<std::string_view, std::string>> fill = {
        {"firm", words.firm},
        {"work", words.work},
        {"machine", words.machine},
        {"per", per},
        {"quantity", by_hour ? "hours" : "amount"},
        {"noun", unit ? "" : "noun " + per + "\n\n"},
        {"paid", lang::quantity_text(*paid, "$")},
        {"model", stem},
        {"firm_file", firm},
        {"year", words.year}};
    const auto texts = start_texts();
    fill.emplace_back("job", filled(texts[by_hour ? 0 : 1], fill));
    std::vector<StartFile> files = {
        {stem + ".rate", filled(texts[2], fill), "the model: what the work costs"},
        {words.year + ".season", filled(texts[3], fill), "what the year's jobs share"},
        {"first.job", filled(texts[4], fill), "a job"},
        {firm + ".firm", filled(texts[5], fill), "the firm that signs, and its money"},
        {"quote.wording", filled(texts[6], fill), "the words of a quote"}};
    for (StartFile& file : files)
        file.text = tidied(file);
    return files;
}

} // namespace acre::cli
