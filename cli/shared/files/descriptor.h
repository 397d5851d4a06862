// An open file, closed when it goes out of scope.
#pragma once

#include <cerrno>

#include <utility>

#include <unistd.h>

namespace acre::cli {

// A call of the system, made again while a signal interrupts it.
template <class Call> auto again(Call call) {
    auto result = call();
    while (result < 0 && errno == EINTR)
        result = call();
    return result;
}

class Descriptor {
  public:
    explicit Descriptor(int value = -1) : value_(value) {}
    ~Descriptor() { take(-1); }
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;
    explicit operator bool() const { return value_ >= 0; }
    int value() const { return value_; }
    void take(int value) { // closes what it held
        if (value_ >= 0)
            ::close(value_);
        value_ = value;
    }
    int release() { return std::exchange(value_, -1); } // who takes it closes it

  private:
    int value_;
};

} // namespace acre::cli
