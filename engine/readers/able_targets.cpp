#include "engine/readers/able_targets.h"

#include "hwy/detect_targets.h"

namespace acre::engine {

std::int64_t able_targets() {
    std::int64_t able = 0;
#if HWY_ARCH_X86
    __builtin_cpu_init();
    if (__builtin_cpu_supports("sse4.2") != 0 && __builtin_cpu_supports("pclmul") != 0 &&
        __builtin_cpu_supports("aes") != 0)
        able |= HWY_SSE4;
    const bool avx2 = __builtin_cpu_supports("avx2") != 0 && __builtin_cpu_supports("fma") != 0 &&
                      __builtin_cpu_supports("bmi") != 0 && __builtin_cpu_supports("bmi2") != 0;
    if (avx2)
        able |= HWY_AVX2;
    if (avx2 && __builtin_cpu_supports("avx512f") != 0 && __builtin_cpu_supports("avx512vl") != 0 &&
        __builtin_cpu_supports("avx512dq") != 0 && __builtin_cpu_supports("avx512bw") != 0 &&
        __builtin_cpu_supports("avx512cd") != 0)
        able |= HWY_AVX3;
#endif
    return able;
}

} // namespace acre::engine
