#include "cli/editor/scope_names.h"

#include <map>

#include "lang/syntax/parse.h"

namespace acre::cli {

namespace {

// The prefixes under which `text` sees other files: what it says after `as`, or what the lines of
// that file are called.
std::map<std::string, std::string> prefixes(const engine::Outline& outline, const std::string& file,
                                            std::string_view text, lang::FileKind kind) {
    lang::SourceMap sources;
    lang::Diagnostics unsaid;
    const lang::FileId id = sources.add(file, std::string(text));
    const lang::ast::Module module = lang::parse(sources, id, kind, unsaid);
    std::map<std::string, std::string> found;
    for (const lang::ast::Statement& statement : module.statements) {
        const auto* use = std::get_if<lang::ast::Use>(&statement.node);
        if (use == nullptr)
            continue;
        for (const engine::Reference& reference : outline.uses)
            if (reference.from == file && reference.written == use->path.text)
                found[reference.file] = use->alias ? std::string(use->alias->text) : "";
    }
    return found;
}

} // namespace

std::vector<ScopeName> names_in(const engine::Outline& outline, const std::string& file,
                                std::string_view text, lang::FileKind kind) {
    std::vector<ScopeName> names;
    const bool model = kind == lang::FileKind::Model;
    const auto seen =
        model ? prefixes(outline, file, text, kind) : std::map<std::string, std::string>();
    for (const engine::Symbol& symbol : outline.symbols) {
        if (symbol.lines.empty())
            continue;
        const auto used = seen.find(symbol.at.file);
        if (model && symbol.at.file != file && used == seen.end())
            continue;
        for (const engine::LineNow& line : symbol.lines) {
            std::string name = line.name;
            const std::size_t at = name.rfind(symbol.name);
            if (model && at == std::string::npos)
                continue;
            if (model && symbol.at.file == file)
                name.erase(0, at);
            else if (model && !used->second.empty())
                name.replace(0, at, used->second + ".");
            const bool there =
                !names.empty() && names.back().symbol == &symbol && names.back().text == name;
            if (!there)
                names.push_back({std::move(name), line.text, &symbol});
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
