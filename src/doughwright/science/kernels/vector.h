/* What a kernel's loops over lanes share: plain C that a compiler turns into vector instructions.
 *
 * No digit depends on a neighbour, on the width of the registers or on the compiler: no contraction, no reordering.
 */
#ifndef DOUGHWRIGHT_VECTOR_H
#define DOUGHWRIGHT_VECTOR_H

#include <float.h>
#include <math.h>
#include <stdint.h>

#if FLT_EVAL_METHOD != 0
#error "lanes are equal to the last digit only where a double stays a double"
#endif

#if defined(__GNUC__)
#define INLINE static inline __attribute__((always_inline))
#else
#define INLINE static inline
#endif

/* The same source for wider registers where the machine has them; contraction is off, so digits agree. */
#if defined(__x86_64__) && defined(__ELF__) && defined(__GLIBC__) && defined(__GNUC__) && \
    !defined(__clang__) && !defined(DW_PLAIN)
#define WIDE __attribute__((target_clones("avx512f", "avx2", "default")))
#else
#define WIDE
#endif

/* For `count` lanes that never meet; unrolling comes after vectors, not before them. */
#if defined(__GNUC__) && !defined(__clang__)
#define EACH_OF(count) _Pragma("GCC ivdep") _Pragma("GCC unroll 1") for (int l = 0; l < (count); l++)
#else
#define EACH_OF(count) for (int l = 0; l < (count); l++)
#endif

INLINE double least_of(double a, double b) { return a < b ? a : b; }
INLINE double most_of(double a, double b) { return a > b ? a : b; }

INLINE uint64_t vector_bits(double x) {
    union { double number; uint64_t bits; } both = {x};
    return both.bits;
}

INLINE double vector_of_bits(uint64_t bits) {
    union { uint64_t bits; double number; } both = {bits};
    return both.number;
}

/* exp(x) to 1e-15 from -700 to 700, held there beyond: x = k ln 2 + r, exp(r) by a polynomial fitted at
 * Chebyshev's points. Adding 1.5 * 2^52 rounds to a whole number, which is then in the low bits. */
INLINE double exp_of(double x) {
    x = x > -700.0 ? x : -700.0;
    x = x < 700.0 ? x : 700.0;
    double shifted = x * 1.4426950408889634 + 0x1.8p52;
    double k = shifted - 0x1.8p52;
    double r = (x - k * 0x1.62e42fefa0000p-1) - k * 0x1.cf79abc9e3b3ap-40;
    double r2 = r * r, r4 = r2 * r2;
    double low = (1.0 + r * 0x1.000000000001ep+0) + r2 * (0x1.0000000000005p-1 + r * 0x1.555555554b756p-3);
    double mid = (0x1.55555555520afp-5 + r * 0x1.1111112dd687ap-7) +
                 r2 * (0x1.6c16c17f43ad0p-10 + r * 0x1.a01978c697102p-13);
    double high = (0x1.a019a66a5defap-16 + r * 0x1.72faf04a14bf2p-19) + r2 * 0x1.28a2c0c0079ddp-22;
    return (low + r4 * (mid + r4 * high)) * vector_of_bits((vector_bits(shifted) + 1023) << 52);
}

/* (exp(x) - 1) / x for 0 < x <= 700, to 1e-15 of it. */
INLINE double mean_growth(double x) {
    double y = x < 0.5 ? x : 0.5, y2 = y * y, y4 = y2 * y2;
    double low = (1.0 + y * (1.0 / 2)) + y2 * (1.0 / 6 + y * (1.0 / 24));
    double mid = (1.0 / 120 + y * (1.0 / 720)) + y2 * (1.0 / 5040 + y * (1.0 / 40320));
    double high = (1.0 / 362880 + y * (1.0 / 3628800)) + y2 * (1.0 / 39916800 + y * (1.0 / 479001600));
    double last = 1.0 / 6227020800.0 + y * (1.0 / 87178291200.0);
    double near = low + y4 * (mid + y4 * (high + y4 * last));
    return x < 0.5 ? near : (exp_of(x) - 1.0) / most_of(x, 0.5);
}

/* ln(x) to 1e-15 for a positive normal x: x = 2^k m with m near 1, ln m by its series in (m - 1)/(m + 1). */
INLINE double log_of(double x) {
    const uint64_t root_half = 0x3fe6a09e667f3bcdu;
    uint64_t bits = vector_bits(x) + (0x3ff0000000000000u - root_half);
    double k = vector_of_bits((bits >> 52) | 0x4330000000000000u) - (0x1p52 + 1023.0);
    double f = vector_of_bits((bits & 0x000fffffffffffffu) + root_half) - 1.0;
    double s = f / (2.0 + f), z = s * s, z2 = z * z, z4 = z2 * z2;
    double low = (1.0 / 3 + z * (1.0 / 5)) + z2 * (1.0 / 7 + z * (1.0 / 9));
    double high = (1.0 / 11 + z * (1.0 / 13)) + z2 * (1.0 / 15 + z * (1.0 / 17)) + z4 * (1.0 / 19);
    double sum = 2.0 * s * (1.0 + z * (low + z4 * high));
    return k * 0x1.62e42fee00000p-1 + (sum + k * 0x1.a39ef35793c76p-33);
}

#endif
