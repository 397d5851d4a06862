#include "lang/kept_trees.h"

#include <functional>
#include <utility>

namespace acre::lang {
namespace {

std::size_t hash_of(std::string_view text) {
    return std::hash<std::string_view>()(text);
}

} // namespace

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

} // namespace acre::lang
