// Sheets as far as the models alone make them: names, lines and formulas, before any value of a
// season or a job is laid over them. The quotes of a book are of few models and many jobs.
#pragma once

#include <cstddef>
#include <memory>
#include <mutex>
#include <vector>

#include "lang/check/resolve/resolution.h"

namespace acre::lang {
namespace resolving {

// Of a program of which nothing was said so far. It keeps the trees and texts that it points into.
struct Begun {
    Begun(const Resolution& r);

    Program program;
    SourceMap sources;
    Diagnostics diagnostics;
    Resolution r;
};

// Whether it may be kept: the job only sets values and says what it is, so that nothing of the
// sheet is of its making until values are laid; and it is of a size that people write.
bool may_be_kept(const Resolution& r);

// Goes on from there, for the job of r.
void go_on(Resolution& r, const Begun& begun);

} // namespace resolving

inline constexpr std::size_t kept_sheets = 8; // the one used longest ago goes
inline constexpr std::size_t kept_sheet_parts =
    20'000; // lines and steps of one, some 300 bytes each
inline constexpr std::size_t kept_sheet_bytes = 1U << 19U; // of its texts

// One is given for the very trees that it was made of, all but that of the job. To be asked by any
// number of threads.
class KeptSheets {
  public:
    std::shared_ptr<const resolving::Begun> find(const Program& program);
    void keep(std::shared_ptr<const resolving::Begun> begun);
    std::size_t size() const;

  private:
    mutable std::mutex mutex_;
    std::vector<std::shared_ptr<const resolving::Begun>> kept_; // the one used last at the end
};

// `resolve`, going on from what is kept of the same models, and keeping what it makes of others.
Sheet resolve(const Program& program, const SourceMap& sources, Diagnostics& diagnostics,
              KeptSheets& kept);

} // namespace acre::lang
