#include "lang/kept_trees.h"

#include <functional>
#include <utility>

#include "lang/check/resolve/begun.h"
#include "lang/syntax/parse.h"

namespace acre::lang {
namespace {

std::size_t hash_of(std::string_view text) {
    return std::hash<std::string_view>()(text);
}

} // namespace

KeptTrees::KeptTrees() : sheets_(std::make_shared<KeptSheets>()) {}

std::optional<KeptTrees::Tree> KeptTrees::find(const Place& place, std::string_view name,
                                               std::string_view text) const {
    const std::size_t hash = hash_of(text);
    const std::lock_guard lock(mutex_);
    const auto [first, last] = by_text_.equal_range(hash);
    for (auto entry = first; entry != last; ++entry) {
        const auto& [there, tree] = entry->second;
        if (there == place && tree.source->name() == name && tree.source->text() == text)
            return tree;
    }
    return std::nullopt;
}

void KeptTrees::keep(const Place& place, Tree tree) {
    const std::string_view text = tree.source->text();
    if (text.size() > kept_tree_bytes)
        return;
    const std::size_t hash = hash_of(text);
    const std::lock_guard lock(mutex_);
    if (bytes_ + text.size() > kept_tree_bytes) {
        by_text_.clear();
        bytes_ = 0;
    }
    bytes_ += text.size();
    by_text_.emplace(hash, Entry{place, std::move(tree)});
}

std::size_t KeptTrees::size() const {
    const std::lock_guard lock(mutex_);
    return by_text_.size();
}

std::shared_ptr<const ast::Module> tree_of(KeptTrees* kept, SourceMap& sources, std::string name,
                                           std::string text, FileKind kind, std::uint32_t notation,
                                           Diagnostics& diagnostics) {
    const KeptTrees::Place place{static_cast<FileId>(sources.size()), kind, notation};
    if (kept != nullptr)
        if (std::optional<KeptTrees::Tree> tree = kept->find(place, name, text)) {
            sources.add(std::move(tree->source));
            return std::move(tree->module);
        }
    const auto said = [&] { return diagnostics.error_count() + diagnostics.warning_count(); };
    const std::size_t before = said();
    const FileId file = sources.add(std::move(name), std::move(text));
    auto module = std::make_shared<const ast::Module>(parse(sources, file, kind, diagnostics));
    if (kept != nullptr && said() == before)
        kept->keep(place, {sources.shared(file), module});
    return module;
}

} // namespace acre::lang
