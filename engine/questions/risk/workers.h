// Work on numbered pieces by several threads; which thread does which piece is nobody's business.
#pragma once

#include <algorithm>
#include <atomic>
#include <cstddef>
#include <thread>
#include <vector>

namespace acre::engine {

// work(piece) for every piece below `pieces`, each once. `make_work` is called once in every
// thread.
template <class MakeWork>
void in_threads(unsigned threads, std::size_t pieces, MakeWork make_work) {
    std::atomic<std::size_t> next{0};
    const auto run = [&] {
        auto work = make_work();
        for (std::size_t piece = next++; piece < pieces; piece = next++)
            work(piece);
    };
    std::vector<std::thread> others;
    const std::size_t count = std::min<std::size_t>(std::max(1U, threads), pieces);
    for (std::size_t k = 1; k < count; ++k)
        others.emplace_back(run);
    run();
    for (std::thread& other : others)
        other.join();
}

} // namespace acre::engine
