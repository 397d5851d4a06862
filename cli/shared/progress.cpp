#include "cli/shared/progress.h"

#include <algorithm>
#include <chrono>

#include "cli/shared/console.h"
#include "lang/units/number_text.h"

namespace acre::cli {

Progress::Progress(bool on, std::string what, const std::atomic<std::uint64_t>& done,
                   std::uint64_t all)
    : what_(std::move(what)),
      done_(done),
      all_(std::max<std::uint64_t>(all, 1)) {
    if (!on)
        return;
    thread_ = std::thread([this] {
        using namespace std::chrono_literals;
        std::unique_lock lock(mutex_);
        bool shown = false;
        for (auto pause = 500ms; !ends_.wait_for(lock, pause, [this] { return over_; });
             pause = 200ms) {
            show();
            shown = true;
        }
        if (shown)
            say_over("");
    });
}

Progress::~Progress() {
    if (!thread_.joinable())
        return;
    {
        const std::lock_guard lock(mutex_);
        over_ = true;
    }
    ends_.notify_all();
    thread_.join();
}

void Progress::show() const {
    const std::uint64_t done = std::min(done_.load(std::memory_order_relaxed), all_);
    // Past the last trial the spread is divided among the givens.
    const std::string text = done == all_
                                 ? "splitting up the spread"
                                 : std::to_string(done * 100 / all_) + " % of " +
                                       lang::number_text(static_cast<double>(all_)) + " " + what_;
    say_over(text);
}

} // namespace acre::cli
