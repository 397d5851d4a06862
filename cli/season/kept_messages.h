// What is said of the jobs of a season, as much of it as a person or a program can use: thousands
// of jobs may each have much to say, and hold on to the texts they were made from.
#pragma once

#include <cstddef>

#include "cli/shared/reply.h"

namespace acre::cli {

inline constexpr std::size_t max_season_messages =
    std::size_t{1} << 20U; // bytes of what is said of all jobs together
inline constexpr std::size_t max_season_texts = std::size_t{64}
                                                << 20U; // bytes of the texts it points into

class KeptMessages {
  public:
    explicit KeptMessages(Reply& reply) : reply_(reply) {}

    // Keeps what is said of one job, or counts the job as not shown. The first error is always
    // kept: there is one if any was said.
    void keep(lang::Said said);
    std::size_t not_shown() const { return not_shown_; } // jobs

  private:
    Reply& reply_;
    std::size_t messages_ = 0, texts_ = 0, not_shown_ = 0;
};

} // namespace acre::cli
