#include "cli/editor/scope_names.h"

#include <map>

#include "lang/syntax/parse.h"

namespace acre::cli {

namespace {

// The prefixes under which `text` sees other files: what it says after `as`, or what the lines of
// that file are called (empty). A file that is used twice has several.
using Prefixes = std::map<std::string, std::vector<std::string>>;
Prefixes prefixes(const engine::Outline& outline, const std::string& file, std::string_view text,
                  lang::FileKind kind) {
    lang::SourceMap sources;
    lang::Diagnostics unsaid;
    const lang::FileId id = sources.add(file, std::string(text));
    const lang::ast::Module module = lang::parse(sources, id, kind, unsaid);
    Prefixes found;
    for (const lang::ast::Statement& statement : module.statements) {
        const auto* use = std::get_if<lang::ast::Use>(&statement.node);
        if (use == nullptr)
            continue;
        for (const engine::Reference& reference : outline.uses)
            if (reference.from == file && reference.written == use->path.text)
                found[reference.file].emplace_back(use->alias ? use->alias->text : "");
    }
    return found;
}

} // namespace

std::vector<ScopeName> names_in(const engine::Outline& outline, const std::string& file,
                                std::string_view text, lang::FileKind kind) {
    std::vector<ScopeName> names;
    const bool model = kind == lang::FileKind::Model;
    const Prefixes seen = model ? prefixes(outline, file, text, kind) : Prefixes();
    for (const engine::Symbol& symbol : outline.symbols) {
        const bool own = !model || symbol.at.file == file;
        const auto used = seen.find(symbol.at.file);
        if (!own && used == seen.end())
            continue;
        std::map<std::string, std::size_t> there; // into names
        const auto add = [&](std::string name, const engine::LineNow& line) {
            const auto [at, is_new] = there.emplace(name, names.size());
            if (is_new)
                names.push_back({std::move(name), line.text, &symbol});
            else if (line.name == at->first) // this one and no copy of it
                names[at->second].value = line.text;
        };
        for (const engine::LineNow& line : symbol.lines) {
            const std::size_t at = model ? line.name.rfind(symbol.name) : 0;
            if (at == std::string::npos)
                continue;
            const std::string last = line.name.substr(at);
            if (own)
                add(last, line);
            else
                for (const std::string& prefix : used->second)
                    add(prefix.empty() ? line.name : prefix + "." + last, line);
        }
    }
    return names;
}

const engine::Symbol* named(const engine::Outline& outline, const std::string& file,
                            std::string_view name) {
    const engine::Symbol* found = nullptr;
    const std::size_t dot = name.rfind('.');
    const std::string_view last = dot == std::string_view::npos ? name : name.substr(dot + 1);
    for (const engine::Symbol& symbol : outline.symbols) {
        for (const engine::LineNow& line : symbol.lines)
            if (line.name == name)
                return &symbol;
        if (symbol.name != last)
            continue;
        if (symbol.at.file == file && dot == std::string_view::npos)
            return &symbol;
        found = &symbol;
    }
    return found;
}

} // namespace acre::cli
