// ACRE_WIDEST(name): name() of the widest vectors that this machine has, in a file that Highway
// compiles once for each width. `name` stands in HWY_NAMESPACE, which is used where this is.
#pragma once

#include "engine/readers/able_targets.h"
#include "hwy/highway.h"

#if HWY_TARGETS & HWY_AVX3
#define ACRE_OF_AVX3(name)                                                                         \
    if ((able & HWY_AVX3) != 0)                                                                    \
        return N_AVX3::name();
#else
#define ACRE_OF_AVX3(name)
#endif
#if HWY_TARGETS & HWY_AVX2
#define ACRE_OF_AVX2(name)                                                                         \
    if ((able & HWY_AVX2) != 0)                                                                    \
        return N_AVX2::name();
#else
#define ACRE_OF_AVX2(name)
#endif
#if HWY_TARGETS & HWY_SSE4
#define ACRE_OF_SSE4(name)                                                                         \
    if ((able & HWY_SSE4) != 0)                                                                    \
        return N_SSE4::name();
#else
#define ACRE_OF_SSE4(name)
#endif

#define ACRE_WIDEST(name)                                                                          \
    [] {                                                                                           \
        [[maybe_unused]] const std::int64_t able = able_targets();                                 \
        ACRE_OF_AVX3(name)                                                                         \
        ACRE_OF_AVX2(name)                                                                         \
        ACRE_OF_SSE4(name)                                                                         \
        return HWY_STATIC_DISPATCH(name)();                                                        \
    }()
