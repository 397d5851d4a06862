#include "cli/editor/rename.h"

#include <algorithm>

#include "cli/shared/files/file_loader.h"
#include "lang/syntax/parse.h"
#include "lang/syntax/words.h"

namespace acre::cli {

namespace {

bool is_name(const std::string& name) {
    return !name.empty() && name.size() <= lang::max_name_bytes &&
           lang::end_of_word(name.data(), name.data() + name.size()) == name.data() + name.size();
}

// A file, or a text of the program's library; not what a boundary or the command line sets.
bool is_text(const std::string& file) {
    return file.starts_with('/') || file.starts_with(built_in_mark);
}

void add(Places& places, const engine::Stretch& at) {
    std::vector<engine::Stretch>& list = places[at.file];
    const bool there = std::any_of(list.begin(), list.end(), [&](const engine::Stretch& other) {
        return other.begin == at.begin;
    });
    if (!there)
        list.push_back(at);
}

std::string with(std::string text, const std::vector<Replacement>& replacements) {
    for (auto it = replacements.rbegin(); it != replacements.rend(); ++it)
        if (it->end <= text.size())
            text.replace(it->begin, it->end - it->begin, it->text);
    return text;
}

std::size_t errors_in(const Looked& looked) {
    std::size_t errors = 0;
    for (const lang::Said& said : looked.said)
        errors += said.diagnostics.error_count() + said.diagnostics.warning_count();
    return errors;
}

// The same price and as much to say of it.
bool is_same(Looked& before, Looked after) {
    if (errors_in(before) != errors_in(after))
        return false;
    const auto& was = before.outline();
    const auto& is = after.outline();
    if (was == nullptr || is == nullptr)
        return was == is;
    return was->total == is->total && was->symbols.size() == is->symbols.size();
}

} // namespace

Places mentions_in_folder(const Workspace& workspace, const engine::Outline& outline,
                          std::uint32_t symbol, std::map<std::string, Looked>& seen) {
    const engine::Stretch declared = outline.symbols[symbol].at;
    Places places;
    const auto add_all = [&](const engine::Outline& of) {
        for (const engine::Mention& mention : of.mentions) {
            const engine::Stretch& at = of.symbols[mention.symbol].at;
            if (at.file == declared.file && at.begin == declared.begin && is_text(mention.at.file))
                add(places, mention.at);
        }
    };
    add_all(outline);
    for (const std::string& file : workspace.files()) {
        Looked& looked = seen[file] = workspace.glance(file, workspace.documents);
        if (looked.outline() != nullptr)
            add_all(*looked.outline());
    }
    for (auto& [file, list] : places)
        std::sort(list.begin(), list.end(),
                  [](const auto& a, const auto& b) { return a.begin < b.begin; });
    return places;
}

lang::Outcome<Replacements> renamed(const Workspace& workspace, const engine::Outline& outline,
                                    std::uint32_t symbol, const std::string& name) {
    if (!is_name(name))
        return lang::placeless(lang::Code::C003, "`" + name + "` is not a name",
                               {"a name is a letter, then letters, digits and `_`"});
    if (lang::is_reserved(lang::keyword_of(name)))
        return lang::placeless(lang::Code::C003, "`" + name + "` is a word of the notation");
    Replacements replacements;
    std::map<std::string, Looked> seen;
    for (const auto& [file, list] : mentions_in_folder(workspace, outline, symbol, seen)) {
        if (file.starts_with(built_in_mark))
            return lang::placeless(lang::Code::C003, "a formula of the program's own library "
                                                     "keeps its name");
        for (const engine::Stretch& at : list)
            replacements[file].push_back({at.begin, at.end, name});
    }
    Documents after = workspace.documents;
    for (const auto& [file, list] : replacements)
        after.open(file, uri_of(file), with(workspace.text_of(file), list));
    const auto is_touched = [&](const Looked& looked) {
        return looked.job == nullptr ||
               std::any_of(replacements.begin(), replacements.end(),
                           [&](const auto& replaced) { return looked.names(replaced.first); });
    };
    for (auto& [file, before] : seen)
        if (is_touched(before) && !is_same(before, workspace.glance(file, after)))
            return lang::placeless(lang::Code::C003,
                                   "with the name `" + name + "` the texts would not say the same",
                                   {file + " would be another: is there such a name already?"});
    return replacements;
}

} // namespace acre::cli
