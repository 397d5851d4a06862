// How far long work has come, on a terminal: one line of standard error that is gone when the work
// is done.
#pragma once

#include <atomic>
#include <condition_variable>
#include <cstdint>
#include <mutex>
#include <string>
#include <thread>

namespace acre::cli {

class Progress {
  public:
    // `on`: false when standard error is no terminal. `what`: "trials". Nothing is shown in the
    // first half second.
    Progress(bool on, std::string what, const std::atomic<std::uint64_t>& done, std::uint64_t all);
    ~Progress();
    Progress(const Progress&) = delete;
    Progress& operator=(const Progress&) = delete;

  private:
    void show() const;

    std::string what_;
    const std::atomic<std::uint64_t>& done_;
    std::uint64_t all_;
    bool over_ = false;
    std::mutex mutex_;
    std::condition_variable ends_;
    std::thread thread_;
};

} // namespace acre::cli
