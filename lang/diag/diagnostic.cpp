#include "lang/diag/diagnostic.h"

#include <algorithm>
#include <tuple>
#include <utility>

namespace acre::lang {

void Diagnostics::add(Diagnostic diagnostic) {
    const auto same = [&](const Diagnostic& kept) {
        return kept.code == diagnostic.code && kept.primary.span == diagnostic.primary.span &&
               (diagnostic.primary.span.file != no_file || kept.title == diagnostic.title);
    };
    if (std::any_of(list_.begin(), list_.end(), same))
        return;
    std::size_t& count = diagnostic.severity() == Severity::Error ? errors_ : warnings_;
    ++count;
    if (count <= cap)
        list_.push_back(std::move(diagnostic));
    else
        ++left_out_;
}

void Diagnostics::add_left_out(const Diagnostics& from) {
    const auto kept = static_cast<std::size_t>(
        std::count_if(from.list_.begin(), from.list_.end(),
                      [](const Diagnostic& one) { return one.severity() == Severity::Error; }));
    errors_ += from.errors_ - kept;
    warnings_ += from.warnings_ - (from.list_.size() - kept);
    left_out_ += from.left_out_;
}

void Diagnostics::sort() {
    const auto key = [](const Diagnostic& d) {
        const Span& at = d.primary.span;
        return std::tuple(d.severity(), at.file, at.begin, at.end, d.code);
    };
    const auto place = [](const Diagnostic& d) {
        return std::tuple(d.primary.span.file, d.primary.span.begin);
    };
    std::stable_sort(list_.begin(), list_.end(), [&](const Diagnostic& a, const Diagnostic& b) {
        return std::pair(place(a), key(a)) < std::pair(place(b), key(b));
    });
}

} // namespace acre::lang
