/* The days' only hot loop; see core.h. The plain-Python twin is twin.py, the formulas are in science/.
 *
 * Every loop over lanes is plain, branch-free and of fixed length, so that a compiler turns it into vector
 * instructions. No lane looks at another: shortcuts are taken only where they leave every digit as it is.
 */
#include "core.h"

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

/* Unrolling comes after vectors, not before them. */
#if defined(__GNUC__) && !defined(__clang__)
#define EACH _Pragma("GCC unroll 1") for (int l = 0; l < DW_LANES; l++)
#else
#define EACH for (int l = 0; l < DW_LANES; l++)
#endif

typedef double lanes[DW_LANES];

enum { /* rows of the inputs, in the order of layout.py */
    GASSING, GROWTH, LAG, AT_MIXING, HOLD, AIR, VOLUME, PRESSURE, CEILING, RETENTION,
    GASSING_MINIMUM, GASSING_NORM, GROWTH_RATE, GROWTH_LAG, GROWTH_CAP, MALTOSE_RATE, MALTOSE_LIMIT,
    SUGAR_HALF, GAS_YIELD, WARMING, SLACK_25, DEATH, MASS, UNRISEN, SKIN, SIDE, HEAT, CONDUCTIVITY, SLOPE,
    GAS_CONDUCTIVITY, AIR_SHARE, FILM, RESISTANCE, HOURS, MEAN, SWING, PERIOD, PHASE, DAILY, DAILY_PHASE,
    STOP
};
enum { TEMPERATURE, YEAST, SUGAR, MALTOSE, GAS, MADE, LEAKED, WOKEN, GROWN };
enum { R_TIME, R_CORE, R_EDGE, R_MEAN, R_RISE, R_GAS, R_DISSOLVED, R_SUGAR, R_TIGHT, R_MADE, R_LEAKED };

static const double COLDEST = -12.0, PER_DEGREE = 8.0; /* the temperature table's first row and spacing */
static const double ZERO_CELSIUS = 273.15, BASIS_KELVIN = 298.15;
static const double AWAKE = 12.0; /* lags after which the yeast is taken as wholly awake: exp(-12) is 6e-6 */
static const double TWO_PI = 6.283185307179586;

/* One shell of a block: its state, and what a step leaves for the next. */
typedef struct {
    _Alignas(64) lanes state[DW_STATES];
    lanes sleep;         /* exp(-woken / lag), 0 once AWAKE */
    lanes top, bottom;   /* its conductivity is solid * top / bottom */
    lanes dissolved;     /* mL */
    lanes warming;       /* W over its share of the mass */
    lanes after;         /* its temperature a step later */
    lanes factor, value; /* of the elimination */
    lanes before[DW_STATES];
} shell;

_Static_assert(sizeof(shell) == sizeof(double) * DW_WORK * DW_LANES, "the work space is counted in core.h");

/* Two doubles side by side; lanes that look up different rows are gathered two by two. */
#if defined(__GNUC__)
typedef double pair __attribute__((vector_size(16), may_alias));
#else
typedef double pair[2];
#endif

/* A row of the temperature table and the way to the next one, so that one index finds all. */
typedef struct {
    pair first, first_rise; /* gassing, growth */
    pair last, last_rise;   /* maltose, solubility */
    pair solubility;        /* and its rise */
    pair spare[3];
} table_row;

_Static_assert(sizeof(table_row) == sizeof(double) * DW_TABLE, "the table is counted in core.h");

/* What one block needs while it waits. */
typedef struct {
    const dw_plan *plan;
    const table_row *table;
    shell *shells;
    int nodes, swings;
    int sleepy, hasty, growing, brisk, malty, deadly; /* what a step need not look at, each 0 for not */
    double most_malting; /* the highest of its column */
    double shares[DW_MOST_NODES], faces[DW_MOST_NODES];
    lanes in[DW_INPUTS];
    lanes tightness, rise, mean, mean_before, solid, pace, hottest, drowsy, grown;
    /* What follows from the inputs once and for all. */
    lanes air, lift, most_share, most_bubbles, per_lag, capacity, per_cap, per_period, longest, gas_top;
    /* What follows from the length of a step. */
    lanes hours, gassing, growth, malting, warming, length, over, over_top, solid_bottom;
} dough;

INLINE double least(double a, double b) { return a < b ? a : b; }
INLINE double most(double a, double b) { return a > b ? a : b; }

INLINE uint64_t bits_of(double x) {
    union { double number; uint64_t bits; } both = {x};
    return both.bits;
}

INLINE double of_bits(uint64_t bits) {
    union { uint64_t bits; double number; } both = {bits};
    return both.number;
}

/* Adding this rounds to a whole number, which is then in the low bits. */
#define ROUNDER 0x1.8p52

/* exp(x) for x <= 0 to 1e-15: x = k ln 2 + r, and exp(r) by a polynomial fitted at Chebyshev's points. */
INLINE double exp_series(double r) {
    double r2 = r * r, r4 = r2 * r2;
    double low = (1.0 + r * 0x1.000000000001ep+0) + r2 * (0x1.0000000000005p-1 + r * 0x1.555555554b756p-3);
    double mid = (0x1.55555555520afp-5 + r * 0x1.1111112dd687ap-7) +
                 r2 * (0x1.6c16c17f43ad0p-10 + r * 0x1.a01978c697102p-13);
    double high = (0x1.a019a66a5defap-16 + r * 0x1.72faf04a14bf2p-19) + r2 * 0x1.28a2c0c0079ddp-22;
    return low + r4 * (mid + r4 * high);
}

INLINE double exp_down(double x) {
    x = x > -700.0 ? x : -700.0;
    double shifted = x * 1.4426950408889634 + ROUNDER;
    double k = shifted - ROUNDER;
    double r = (x - k * 0x1.62e42fefa0000p-1) - k * 0x1.cf79abc9e3b3ap-40;
    return exp_series(r) * of_bits((bits_of(shifted) + 1023) << 52);
}

/* Down to here exp_down is its series alone, digit for digit: no whole ln 2 is in it. */
static const double SHORT = -0.34;

/* (1 - exp(-y)) / y for 0 <= y <= 1/2, by its series at y / 4 and two doublings. */
INLINE double mean_decay_short(double y) {
    double z = y * 0.25, z2 = z * z, z4 = z2 * z2;
    double sum = ((1.0 - z * (1.0 / 2)) + z2 * (1.0 / 6 - z * (1.0 / 24))) +
                 z4 * ((1.0 / 120 - z * (1.0 / 720)) + z2 * (1.0 / 5040 - z * (1.0 / 40320))) +
                 z4 * z4 * (1.0 / 362880 - z * (1.0 / 3628800));
    sum = sum * (1.0 - 0.5 * z * sum);
    return sum * (1.0 - z * sum);
}

/* The same for any y >= 0. */
INLINE double mean_decay(double y) {
    double far = y > 0.5 ? y : 0.5, near = mean_decay_short(y < 0.5 ? y : 0.5);
    return y > 0.5 ? (1.0 - exp_down(-far)) / far : near;
}

/* sin(x) to 1e-15 for |x| up to a million: x = n pi + r, then the series of sin(r), its sign by n. */
INLINE double sine(double x) {
    double shifted = x * 0.3183098861837907 + ROUNDER;
    double n = shifted - ROUNDER;
    double r = ((x - n * 0x1.921fb50000000p+1) - n * 0x1.110b460000000p-25) - n * 0x1.1a62633145c07p-53;
    double s = r * r, sum = 1.0 / 51090942171709440000.0;
    sum = s * sum - 1.0 / 121645100408832000.0;
    sum = s * sum + 1.0 / 355687428096000.0;
    sum = s * sum - 1.0 / 1307674368000.0;
    sum = s * sum + 1.0 / 6227020800.0;
    sum = s * sum - 1.0 / 39916800.0;
    sum = s * sum + 1.0 / 362880.0;
    sum = s * sum - 1.0 / 5040.0;
    sum = s * sum + 1.0 / 120.0;
    sum = s * sum - 1.0 / 6.0;
    return of_bits(bits_of(r + r * s * sum) ^ (bits_of(shifted) << 63));
}

/* The cube root of x > 0: a guess from its exponent, then three steps of Halley. */
INLINE double cube_root(double x) {
    double y = of_bits(bits_of(x) / 3 + 0x2a9f7893782da1ceu);
    for (int n = 0; n < 3; n++) {
        double cube = y * y * y;
        y = y * (cube + 2.0 * x) / (2.0 * cube + x);
    }
    return y;
}

/* ---- the temperature table ---- */

/* Where temperatures are in the table: a row, and the part of the way to the next. */
INLINE void place(const dw_plan *plan, const double *temperature, int *row, double *part) {
    const double last = plan->curve_rows - 1;
    EACH {
        double x = (temperature[l] - COLDEST) * PER_DEGREE;
        x = x > 0.0 ? x : 0.0;
        x = x < last ? x : last;
        row[l] = (int)x;
        part[l] = x - (double)row[l];
    }
}

/* One column at one temperature of each lane. */
INLINE void look_up(const dw_plan *plan, const double *temperature, int column, double *found) {
    int row[DW_LANES];
    lanes part;
    place(plan, temperature, row, part);
    EACH {
        const double *low = plan->curves + (ptrdiff_t)row[l] * DW_CURVES + column;
        const double *high = low + (row[l] + 1 < plan->curve_rows ? DW_CURVES : 0);
        found[l] = low[0] + part[l] * (high[0] - low[0]);
    }
}

INLINE void find_one(const dough *d, const double *temperature, double *found) {
    int row[DW_LANES];
    lanes part;
    place(d->plan, temperature, row, part);
#if defined(__GNUC__)
    for (int l = 0; l < DW_LANES; l += 2) {
        const pair a = d->table[row[l]].solubility, b = d->table[row[l + 1]].solubility;
        const pair value = {a[0], b[0]}, rise = {a[1], b[1]}, way = {part[l], part[l + 1]};
        *(pair *)(found + l) = value + way * rise;
    }
#else
    EACH found[l] = d->table[row[l]].solubility[0] + part[l] * d->table[row[l]].solubility[1];
#endif
}

/* ---- heat: science/heat.conduct ---- */

INLINE void skin(const dough *d, double *area, double *step, double *film) {
    const int shape = d->plan->shape;
    const double ways = shape == DW_SLAB ? 1.0 : 3.0, nodes = d->nodes;
    if (shape == DW_BALL)
        EACH {
            double root = cube_root(d->rise[l]);
            area[l] = d->in[SKIN][l] * (root * root);
        }
    else
        EACH area[l] = d->in[SKIN][l] + d->in[SIDE][l] * d->rise[l];
    EACH {
        step[l] = ways * d->in[UNRISEN][l] * d->rise[l] / (area[l] * nodes);
        /* What lies outside the film acts as a weaker film. */
        film[l] = d->in[FILM][l] / (1.0 + d->in[FILM][l] * area[l] * d->in[RESISTANCE][l]);
    }
}

INLINE double conductivity_last(const dough *d, int l) {
    const shell *last = &d->shells[d->nodes - 1];
    return d->solid[l] * last->top[l] / last->bottom[l];
}

/* Temperatures a step later, into each shell's `after`. Two shells with conductivities solid a / b and solid c / e
 * are joined by reach p / q, p = face a c and q = a e + c b: the elimination is written so as to divide once. */
INLINE void conduct(dough *d, const double *seconds, const double *ambient, double implicit) {
    const int nodes = d->nodes;
    lanes area, step, film, reach, store, pivot = {0}, factor = {0}, value = {0};
    skin(d, area, step, film);
    EACH {
        reach[l] = 2.0 * area[l] / step[l] * d->solid[l];
        store[l] = d->in[HEAT][l] / (implicit * seconds[l]) * d->in[MASS][l];
    }
    for (int i = 0; i + 1 < nodes; i++) {
        const double share = d->shares[i], face = d->faces[i];
        shell *here = &d->shells[i];
        const shell *next = here + 1;
        EACH {
            double a = here->top[l], b = here->bottom[l], c = next->top[l], e = next->bottom[l];
            double p = reach[l] * face * (a * c), q = a * e + c * b;
            double right = share * (store[l] * here->state[TEMPERATURE][l] + here->warming[l]);
            double open = store[l] * share + pivot[l], over = 1.0 / (open * q + p);
            value[l] = right + factor[l] * value[l];
            factor[l] = p * over;
            pivot[l] = open * factor[l];
            here->factor[l] = factor[l];
            here->value[l] = value[l] * (q * over);
        }
    }
    shell *outer = &d->shells[nodes - 1];
    lanes x;
    EACH {
        double share = d->shares[nodes - 1], half = 2.0 * conductivity_last(d, l) / step[l];
        double out = area[l] * half * film[l] / (half + film[l]);
        double right = share * (store[l] * outer->state[TEMPERATURE][l] + outer->warming[l]);
        x[l] = (right + out * ambient[l] + factor[l] * value[l]) / (store[l] * share + pivot[l] + out);
        d->mean_before[l] = d->mean[l];
        d->mean[l] = 0.0;
        d->hottest[l] = COLDEST;
    }
    const double along = 1.0 / implicit;
    for (int i = nodes - 1;; i--) {
        const double share = d->shares[i];
        shell *here = &d->shells[i];
        EACH {
            here->after[l] = here->state[TEMPERATURE][l] + (x[l] - here->state[TEMPERATURE][l]) * along;
            d->mean[l] += share * here->after[l];
            d->hottest[l] = most(d->hottest[l], most(here->state[TEMPERATURE][l], here->after[l]));
        }
        if (i == 0) return;
        EACH x[l] = here[-1].value[l] + here[-1].factor[l] * x[l];
    }
}

/* ---- gas, and what it means for heat: science/gas.split_gas, science/properties.conductivity_maxwell ---- */

INLINE void begin_look(dough *d) {
    EACH {
        d->solid[l] = d->in[CONDUCTIVITY][l] + d->in[SLOPE][l] * d->mean[l];
        d->over[l] = (d->solid[l] - d->in[GAS_CONDUCTIVITY][l]) * (1.0 - d->in[AIR_SHARE][l]);
        d->over_top[l] = 2.0 * d->over[l];
        d->solid_bottom[l] = 3.0 * d->solid[l];
        d->rise[l] = 0.0;
    }
}

/* One shell: `room` is what its water holds [mL], `kelvin` its temperature. Both sides of the root are times that. */
INLINE void look_at(dough *d, int i, const double *room, const double *kelvin) {
    const double share = d->shares[i];
    shell *here = &d->shells[i];
    EACH {
        double gas = here->state[GAS][l], t = kelvin[l];
        double linear = (room[l] + gas) * t + d->air[l], twice = 2.0 * room[l] * gas * t;
        here->dissolved[l] = twice / (linear + sqrt(linear * linear - 2.0 * twice * t));
    }
    EACH {
        double rise = 1.0 + d->lift[l] * kelvin[l] * (here->state[GAS][l] - here->dissolved[l]);
        d->rise[l] += share * rise;
        here->top[l] = d->gas_top[l] * rise + d->over_top[l];
        here->bottom[l] = d->solid_bottom[l] * rise - d->over[l];
    }
}

INLINE void look(dough *d) {
    EACH d->mean[l] = 0.0;
    /* From the skin inwards, as conduct sums it: the same digits. */
    for (int i = d->nodes - 1; i >= 0; i--) EACH d->mean[l] += d->shares[i] * d->shells[i].state[TEMPERATURE][l];
    begin_look(d);
    for (int i = 0; i < d->nodes; i++) {
        const double *temperature = d->shells[i].state[TEMPERATURE];
        lanes room, kelvin;
        find_one(d, temperature, room);
        EACH {
            room[l] = d->in[HOLD][l] * room[l];
            kelvin[l] = temperature[l] + ZERO_CELSIUS;
        }
        look_at(d, i, room, kelvin);
    }
}

/* ---- the ferment: science/ferment.ferment_step ---- */

/* What one shell is to its yeast in this step. */
typedef struct {
    _Alignas(64) lanes mid;
    lanes warmth, speed, malting, room; /* from the table */
    lanes kelvin, rate, growth, awake, made;
} moment;

INLINE void find_three(const dough *d, moment *m) {
    int row[DW_LANES];
    lanes part;
    place(d->plan, m->mid, row, part);
#if defined(__GNUC__)
    for (int l = 0; l < DW_LANES; l += 2) {
        const table_row *a = d->table + row[l], *b = d->table + row[l + 1];
        const pair way_a = {part[l], part[l]}, way_b = {part[l + 1], part[l + 1]};
        const pair a0 = a->first + way_a * a->first_rise, a1 = a->last + way_a * a->last_rise;
        const pair b0 = b->first + way_b * b->first_rise, b1 = b->last + way_b * b->last_rise;
        *(pair *)(m->warmth + l) = (pair){a0[0], b0[0]};
        *(pair *)(m->speed + l) = (pair){a0[1], b0[1]};
        *(pair *)(m->malting + l) = (pair){a1[0], b1[0]};
    }
#else
    EACH {
        const table_row *low = d->table + row[l];
        m->warmth[l] = low->first[0] + part[l] * low->first_rise[0];
        m->speed[l] = low->first[1] + part[l] * low->first_rise[1];
        m->malting[l] = low->last[0] + part[l] * low->last_rise[0];
    }
#endif
}

INLINE void find(const dough *d, int i, moment *m) {
    const shell *here = &d->shells[i];
    EACH m->mid[l] = 0.5 * (here->state[TEMPERATURE][l] + here->after[l]);
    find_three(d, m);
    find_one(d, here->after, m->room);
}

/* How far the shell's clocks have run, how fast it gasses and how much it grows. */
INLINE void wake(dough *d, shell *here, moment *m) {
    const double low = d->plan->growth_minimum, span = d->plan->growth_maximum - low;
    EACH {
        double root = most(m->mid[l] - d->in[GASSING_MINIMUM][l], 0.0) * m->warmth[l] * d->in[GASSING_NORM][l];
        m->rate[l] = root * root;
        m->awake[l] = m->rate[l];
        here->state[WOKEN][l] += m->rate[l] * d->hours[l];
    }
    EACH {
        double above = least(most(m->mid[l] - low, 0.0), span);
        double step = d->growth[l] * m->speed[l] * (above * above);
        double grown = here->state[GROWN][l] + step;
        here->state[GROWN][l] = grown;
        m->growth[l] = least(grown - d->in[GROWTH_LAG][l], step);
        d->grown[l] = most(d->grown[l], grown);
    }
    if (!d->sleepy) return;
    lanes mean;
    if (d->hasty) {
        EACH mean[l] = mean_decay(m->rate[l] * d->length[l]);
    } else {
        EACH mean[l] = mean_decay_short(m->rate[l] * d->length[l]);
    }
    EACH {
        double sleep = here->sleep[l], woken = here->state[WOKEN][l] * d->per_lag[l];
        m->awake[l] = m->rate[l] * (1.0 - sleep * mean[l]);
        double left = sleep * (1.0 - m->rate[l] * d->length[l] * mean[l]);
        here->sleep[l] = woken > AWAKE ? 0.0 : left;
        d->drowsy[l] = most(d->drowsy[l], here->sleep[l]);
    }
}

/* The yeast of one shell grows; `made` is what it wants of sugar [%] while it does. */
INLINE void grow(const dough *d, shell *here, moment *m) {
    double *yeast = here->state[YEAST];
    if (!d->growing) {
        EACH m->made[l] = d->gassing[l] * m->awake[l] * (yeast[l] + yeast[l]);
        return;
    }
    lanes left;
    if (d->brisk) {
        EACH left[l] = exp_down(-most(m->growth[l], 0.0) * d->per_cap[l]);
    } else {
        EACH left[l] = exp_series(-most(m->growth[l], 0.0) * d->per_cap[l]);
    }
    EACH {
        double capacity = d->capacity[l], alive = yeast[l];
        double grown = capacity * alive / (alive + (capacity - alive) * left[l]);
        grown = m->growth[l] > 0.0 ? grown : alive;
        m->made[l] = d->gassing[l] * m->awake[l] * (alive + grown);
        yeast[l] = grown;
    }
}

/* Gas made in this step in one shell; what was there before is aged in place. */
INLINE void ferment(dough *d, int i, moment *m) {
    shell *here = &d->shells[i];
    lanes left, root, twice;
    int64_t leaks = 0;
    wake(d, here, m);
    grow(d, here, m);
    EACH {
        m->room[l] = d->in[HOLD][l] * m->room[l];
        m->kelvin[l] = here->after[l] + ZERO_CELSIUS;
    }
    if (d->malty) {
        EACH left[l] = exp_down(-d->malting[l] * m->malting[l]);
    } else {
        EACH left[l] = exp_series(-d->malting[l] * m->malting[l]);
    }
    EACH {
        double limit = d->in[MALTOSE_LIMIT][l], formed = here->state[MALTOSE][l], half = d->in[SUGAR_HALF][l];
        double malted = limit - (limit - formed) * left[l];
        double available = here->state[SUGAR][l] + (malted - formed), linear = half + m->made[l] - available;
        here->state[MALTOSE][l] = malted;
        here->state[SUGAR][l] = available;
        twice[l] = 2.0 * half * available;
        root[l] = linear + sqrt(linear * linear + 2.0 * twice[l]);
    }
    EACH {
        /* wanted S / (S + half) with S = twice / root */
        double used = m->made[l] * twice[l] / (twice[l] + d->in[SUGAR_HALF][l] * root[l]);
        here->state[SUGAR][l] = most(here->state[SUGAR][l] - used, 0.0);
        m->made[l] = d->in[GAS_YIELD][l] * used;
    }
    EACH {
        double now = here->state[GAS][l] + m->made[l];
        here->state[MADE][l] += m->made[l];
        here->state[TEMPERATURE][l] = here->after[l];
        here->warming[l] = m->made[l] * d->warming[l];
        here->state[GAS][l] = now;
        d->pace[l] = most(d->pace[l], m->made[l]);
        leaks |= now * m->kelvin[l] > d->most_share[l] * (m->room[l] * m->kelvin[l] + d->most_bubbles[l]) ? 1 : 0;
    }
    if (leaks) EACH {
            double now = here->state[GAS][l];
            double kept = least(now, d->most_share[l] * (m->room[l] + d->most_bubbles[l] / m->kelvin[l]));
            here->state[LEAKED][l] += now - kept;
            here->state[GAS][l] = kept;
        }
    look_at(d, i, m->room, m->kelvin);
}

/* Yeast in a shell that is too hot is dead for good. */
INLINE void kill(dough *d) {
    for (int i = 0; i < d->nodes; i++) {
        shell *here = &d->shells[i];
        EACH {
            double hottest = most(here->state[TEMPERATURE][l], here->after[l]);
            here->state[YEAST][l] = hottest < d->in[DEATH][l] ? here->state[YEAST][l] : 0.0;
        }
    }
}

/* Bounds of what the step to come will do in any shell: what cannot happen is not computed, and what is left out
 * would have changed no digit. */
INLINE void foresee(dough *d) {
    int64_t sleepy = 0, hasty = 0, growing = 0, brisk = 0, malty = 0, deadly = 0;
    EACH {
        double root = most(d->hottest[l] - d->in[GASSING_MINIMUM][l], 0.0) * d->in[GASSING_NORM][l];
        sleepy |= d->drowsy[l] > 0.0 ? 1 : 0;
        hasty |= root * root * d->length[l] < 0.49 ? 0 : 1;
        /* No rate between two rows of the table is over the best one by as much as a hundredth. */
        double most_growth = 1.01 * d->growth[l];
        growing |= d->grown[l] + most_growth < d->in[GROWTH_LAG][l] ? 0 : 1;
        brisk |= -most_growth * d->per_cap[l] > SHORT ? 0 : 1;
        malty |= -d->malting[l] * d->most_malting > SHORT ? 0 : 1;
        deadly |= d->hottest[l] < d->in[DEATH][l] ? 0 : 1;
    }
    d->sleepy = sleepy != 0;
    d->hasty = hasty != 0;
    d->growing = growing != 0;
    d->brisk = brisk != 0;
    d->malty = malty != 0;
    d->deadly = deadly != 0;
}

/* All of a dough a step later, its temperatures known. */
INLINE void age(dough *d, const double *seconds) {
    lanes middle, slack;
    moment ahead[2];
    EACH middle[l] = 0.5 * (d->mean_before[l] + d->mean[l]);
    look_up(d->plan, middle, 4, slack);
    EACH {
        double hours = seconds[l] / 3600.0;
        d->hours[l] = hours;
        d->length[l] = hours * d->per_lag[l];
        d->gassing[l] = d->in[GASSING][l] * hours / d->in[GAS_YIELD][l] * 0.5;
        d->growth[l] = d->in[GROWTH_RATE][l] * (d->in[GROWTH][l] * hours);
        d->malting[l] = d->in[MALTOSE_RATE][l] * hours / d->in[MALTOSE_LIMIT][l];
        d->warming[l] = d->in[WARMING][l] / hours * d->in[MASS][l];
        d->tightness[l] *= exp_down(-hours * d->in[SLACK_25][l] * slack[l]);
        d->pace[l] = 0.0;
    }
    foresee(d);
    EACH d->drowsy[l] = d->grown[l] = 0.0;
    if (d->deadly) kill(d);
    begin_look(d);
    /* The look-ups of a shell come well before their use. */
    find(d, 0, &ahead[0]);
    for (int i = 0; i < d->nodes; i++) {
        if (i + 1 < d->nodes) find(d, i + 1, &ahead[(i + 1) % 2]);
        ferment(d, i, &ahead[i % 2]);
    }
    EACH d->pace[l] = d->pace[l] / d->hours[l];
}

/* ---- one block: forecast/_wait.wait ---- */

/* Where each lane of a block stands in its wait. */
typedef struct {
    lanes done, length, seconds, time; /* s, s, s, h */
    lanes rows[2][DW_ROW];             /* at the start and at the end of the step */
    lanes side, part;                  /* of its stop it began on; of its last step it went */
    int live[DW_LANES], ended[DW_LANES], next[DW_LANES];
    int left; /* lanes still live */
} waiting;

INLINE void air(const dough *d, const double *hours, double *found) {
    EACH found[l] = d->in[MEAN][l];
    /* A sine of no swing adds nothing: leaving it out changes no digit. */
    if (d->swings) EACH {
            double cycle = sine(TWO_PI * hours[l] * d->per_period[l] + d->in[PHASE][l]);
            double daily = sine(TWO_PI / 24.0 * hours[l] + d->in[DAILY_PHASE][l]);
            found[l] = d->in[MEAN][l] + d->in[SWING][l] * cycle + d->in[DAILY][l] * daily;
        }
}

INLINE void mean_of(const dough *d, int which, double *mean) {
    EACH mean[l] = 0.0;
    for (int i = 0; i < d->nodes; i++) EACH mean[l] += d->shares[i] * d->shells[i].state[which][l];
}

/* The dough as it is now, as a row. */
INLINE void describe(const dough *d, const double *time, lanes *row) {
    lanes area, step, film, ambient;
    const double *core = d->shells[0].state[TEMPERATURE], *last = d->shells[d->nodes - 1].state[TEMPERATURE];
    air(d, time, ambient);
    skin(d, area, step, film);
    EACH {
        double half = 2.0 * conductivity_last(d, l) / step[l];
        row[R_TIME][l] = time[l];
        row[R_CORE][l] = core[l];
        row[R_EDGE][l] = (half * last[l] + film[l] * ambient[l]) / (half + film[l]);
        row[R_MEAN][l] = d->mean[l];
        row[R_RISE][l] = d->rise[l];
        row[R_TIGHT][l] = d->tightness[l];
    }
    EACH row[R_DISSOLVED][l] = 0.0;
    for (int i = 0; i < d->nodes; i++) EACH row[R_DISSOLVED][l] += d->shares[i] * d->shells[i].dissolved[l];
    mean_of(d, GAS, row[R_GAS]);
    mean_of(d, SUGAR, row[R_SUGAR]);
    mean_of(d, MADE, row[R_MADE]);
    mean_of(d, LEAKED, row[R_LEAKED]);
}

INLINE void take_inputs(dough *d, const dw_block *block) {
    for (int k = 0; k < DW_INPUTS; k++)
        EACH d->in[k][l] = block->inputs[k * block->stride + (l < block->count ? l : 0)];
    EACH {
        double bubbles = d->in[AIR][l] + (d->in[CEILING][l] - 1.0) * d->in[VOLUME][l] / d->in[RETENTION][l];
        double cycles = d->in[SWING][l] != 0.0;
        d->tightness[l] = block->tightness[l < block->count ? l : 0];
        d->air[l] = d->in[AIR][l] * BASIS_KELVIN * d->in[PRESSURE][l];
        d->lift[l] = d->in[RETENTION][l] / (d->in[VOLUME][l] * BASIS_KELVIN * d->in[PRESSURE][l]);
        d->most_share[l] = 1.0 - d->in[AIR][l] / bubbles;
        d->most_bubbles[l] = bubbles * d->in[PRESSURE][l] * BASIS_KELVIN;
        d->per_lag[l] = 1.0 / d->in[LAG][l];
        d->gas_top[l] = 3.0 * d->in[GAS_CONDUCTIVITY][l];
        d->drowsy[l] = d->grown[l] = 0.0;
        d->capacity[l] = d->in[AT_MIXING][l] + d->in[GROWTH_CAP][l];
        d->per_cap[l] = d->capacity[l] / d->in[GROWTH_CAP][l];
        d->per_period[l] = cycles > 0.0 ? 1.0 / d->in[PERIOD][l] : 0.0;
        d->longest[l] = cycles > 0.0 ? d->in[PERIOD][l] * 300.0 : DBL_MAX;
        d->pace[l] = 0.0;
        d->swings |= d->in[SWING][l] != 0.0 || d->in[DAILY][l] != 0.0;
    }
}

INLINE void take_shells(dough *d, const dw_block *block) {
    const int nodes = d->nodes, slab = d->plan->shape == DW_SLAB;
    for (int i = 0; i < nodes; i++) {
        shell *here = &d->shells[i];
        double a = (double)i / nodes, b = (double)(i + 1) / nodes;
        d->shares[i] = slab ? b - a : b * b * b - a * a * a;
        d->faces[i] = slab ? 1.0 : b * b;
        for (int v = 0; v < DW_STATES; v++) {
            const double *from = block->state + ((ptrdiff_t)v * nodes + i) * block->stride;
            EACH here->state[v][l] = from[l < block->count ? l : 0];
        }
        EACH {
            here->warming[l] = 0.0;
            double woken = here->state[WOKEN][l] * d->per_lag[l];
            here->sleep[l] = woken > AWAKE ? 0.0 : exp_down(-woken);
            d->drowsy[l] = most(d->drowsy[l], here->sleep[l]);
            d->grown[l] = most(d->grown[l], here->state[GROWN][l]);
        }
    }
}

/* How long [s] each lane's next step is; a lane that has ended is stepped on in place, and not looked at. */
INLINE void next_length(const dough *d, waiting *c, int taken) {
    const dw_plan *p = d->plan;
    EACH {
        double want = 3600.0 * p->share / most(d->pace[l], 1e-9);
        double slow = least(p->slowest, most(p->longest, want));
        double limit = c->done[l] >= p->settling && p->slowest > p->longest ? slow : p->longest;
        double length = least(c->length[l] * p->growth, least(limit, d->longest[l]));
        c->length[l] = taken < 2 ? c->length[l] : length;
        double left = d->in[HOURS][l] * 3600.0 - c->done[l];
        /* Two like steps at the end, not one and a sliver. */
        double seconds = left <= c->length[l] ? left : least(c->length[l], 0.5 * left);
        c->seconds[l] = c->live[l] ? seconds : p->first;
    }
}

INLINE double stop_gauge(const dough *d, int l) {
    return d->plan->stop == DW_RISE ? d->rise[l] : d->shells[0].state[TEMPERATURE][l];
}

/* Write one lane's sample: on the line between the two rows (and states), `part` of the way. */
INLINE void write_sample(const dough *d, waiting *c, const dw_block *block, int l, double part) {
    const ptrdiff_t k = c->next[l]++;
    for (int r = 0; r < DW_ROW; r++) {
        double a = c->rows[0][r][l], b = c->rows[1][r][l];
        block->rows[(k * DW_ROW + r) * block->stride + l] = part < 1.0 ? a + part * (b - a) : b;
    }
    if (!block->snapshots) return;
    for (int v = 0; v < DW_STATES; v++)
        for (int i = 0; i < d->nodes; i++) {
            double a = d->shells[i].before[v][l], b = d->shells[i].state[v][l];
            ptrdiff_t to = (k * DW_STATES + v) * d->nodes + i;
            block->snapshots[to * block->stride + l] = part < 1.0 ? a + part * (b - a) : b;
        }
}

/* A lane is done: its state goes to the caller, and samples to come repeat the last row. */
INLINE void finish(const dough *d, waiting *c, const dw_block *block, int l, double took) {
    for (int v = 0; v < DW_STATES; v++)
        for (int i = 0; i < d->nodes; i++)
            block->state_after[((ptrdiff_t)v * d->nodes + i) * block->stride + l] = d->shells[i].state[v][l];
    block->tightness_after[l] = d->tightness[l];
    block->took[l] = took;
    while (c->next[l] < d->plan->samples) write_sample(d, c, block, l, 1.0);
    c->live[l] = 0;
    c->left--;
}

/* What there is to say at the wait's start: first samples, and lanes that have nothing to wait for. */
INLINE void begin(dough *d, waiting *c, const dw_block *block) {
    c->left = block->count;
    EACH {
        c->done[l] = c->time[l] = 0.0;
        c->length[l] = d->plan->first;
        c->next[l] = 0;
        c->live[l] = l < block->count;
    }
    if (d->plan->samples) describe(d, c->time, c->rows[1]);
    for (int l = 0; l < block->count; l++) {
        while (c->next[l] < d->plan->samples && d->plan->fractions[c->next[l]] * d->in[HOURS][l] <= 0.0)
            write_sample(d, c, block, l, 1.0);
        double gap = stop_gauge(d, l) - d->in[STOP][l];
        c->side[l] = d->plan->stop == DW_RISE || gap < 0.0 ? -1.0 : 1.0;
        int there = d->plan->stop == DW_RISE ? gap >= 0.0 : d->plan->stop == DW_CORE && gap == 0.0;
        if (there || !(d->in[HOURS][l] * 3600.0 > 1e-6)) finish(d, c, block, l, there ? 0.0 : d->in[HOURS][l]);
    }
}

/* Whether a live lane has a sample to write in the step to come (or may stop, and then write its last). */
INLINE int has_sample(const dough *d, const waiting *c) {
    if (!d->plan->samples) return 0;
    for (int l = 0; l < DW_LANES; l++) {
        if (!c->live[l] || c->next[l] >= d->plan->samples) continue;
        double due = d->plan->fractions[c->next[l]] * d->in[HOURS][l] * 3600.0;
        if (d->plan->stop != DW_NEVER || due <= c->done[l] + c->seconds[l] + 1e-6) return 1;
    }
    return 0;
}

/* How far along its step each lane was when it came to its stop: 1 where it did not, else less, and it is put
 * back to where it was then. */
INLINE void halt(dough *d, waiting *c, const double *gauge, const double *tightness) {
    int any = 0;
    for (int l = 0; l < DW_LANES; l++) {
        double now = stop_gauge(d, l), level = d->in[STOP][l];
        if (!c->live[l] || (now - level) * c->side[l] > 0.0) continue;
        double part = now != gauge[l] ? (level - gauge[l]) / (now - gauge[l]) : 0.0;
        part = least(most(part, 0.0), 1.0 - 1e-12);
        for (int i = 0; i < d->nodes; i++)
            for (int v = 0; v < DW_STATES; v++) {
                double a = d->shells[i].before[v][l], b = d->shells[i].state[v][l];
                d->shells[i].state[v][l] = a + part * (b - a);
            }
        d->tightness[l] = tightness[l] + part * (d->tightness[l] - tightness[l]);
        c->part[l] = part;
        any = 1;
    }
    if (any) look(d);
}

/* One step of all lanes; `described` says whether the row at its start is known. */
INLINE int advance(dough *d, waiting *c, const dw_block *block, int taken, int described) {
    const double implicit = taken < 2 ? 1.0 : 0.5;
    const int stops = d->plan->stop != DW_NEVER;
    lanes when, ambient, gauge, tightness, start;
    next_length(d, c, taken);
    const int wanted = has_sample(d, c);
    if (wanted && !described) describe(d, c->time, c->rows[0]);
    EACH {
        when[l] = (c->done[l] + implicit * c->seconds[l]) / 3600.0;
        gauge[l] = stop_gauge(d, l);
        tightness[l] = d->tightness[l];
        start[l] = c->time[l];
        c->part[l] = 1.0;
    }
    if (stops || block->snapshots)
        for (int i = 0; i < d->nodes; i++)
            for (int v = 0; v < DW_STATES; v++) EACH d->shells[i].before[v][l] = d->shells[i].state[v][l];
    air(d, when, ambient);
    conduct(d, c->seconds, ambient, implicit);
    age(d, c->seconds);
    if (stops) halt(d, c, gauge, tightness);
    EACH {
        c->done[l] = c->done[l] + (c->part[l] < 1.0 ? c->part[l] * c->seconds[l] : c->seconds[l]);
        c->ended[l] = c->part[l] < 1.0 || !(d->in[HOURS][l] * 3600.0 - c->done[l] > 1e-6);
        c->time[l] = c->ended[l] && !(c->part[l] < 1.0) ? d->in[HOURS][l] : c->done[l] / 3600.0;
    }
    if (wanted) describe(d, c->time, c->rows[1]);
    for (int l = 0; l < DW_LANES; l++) {
        if (!c->live[l]) continue;
        for (; c->next[l] < d->plan->samples;) {
            double due = d->plan->fractions[c->next[l]] * d->in[HOURS][l];
            if (due > c->time[l]) break;
            write_sample(d, c, block, l, (due - start[l]) / (c->time[l] - start[l]));
        }
        if (c->ended[l]) finish(d, c, block, l, c->time[l]);
    }
    if (wanted) for (int r = 0; r < DW_ROW; r++) EACH c->rows[0][r][l] = c->rows[1][r][l];
    return wanted;
}

void dw_tabulate(const dw_plan *plan, double *table) {
    /* Where first, last and solubility lie in a row. */
    static const int to[] = {0, 1, 4, 5, 8}, from[] = {0, 1, 2, 3, 3}, rise[] = {2, 3, 6, 7, 9};
    for (int i = 0; i < plan->curve_rows; i++)
        for (int c = 0; c < 5; c++) {
            const double *here = plan->curves + (ptrdiff_t)i * DW_CURVES + from[c];
            table[DW_TABLE * i + to[c]] = here[0];
            table[DW_TABLE * i + rise[c]] = i + 1 < plan->curve_rows ? here[DW_CURVES] - here[0] : 0.0;
        }
}

INLINE void start(dough *d, waiting *c, const dw_plan *plan, const dw_block *block, const double *table, double *work) {
    d->plan = plan;
    d->table = (const table_row *)table;
    d->shells = (shell *)work;
    d->nodes = plan->nodes;
    d->swings = 0;
    d->most_malting = 0.0;
    for (int i = 0; i < plan->curve_rows; i++) d->most_malting = most(d->most_malting, d->table[i].last[0]);
    take_inputs(d, block);
    take_shells(d, block);
    look(d);
    begin(d, c, block);
}

WIDE void dw_wait(const dw_plan *plan, const dw_block *block, const double *table, double *work) {
    dough d;
    waiting c;
    start(&d, &c, plan, block, table, work);
    int described = 0;
    for (int taken = 0; c.left > 0; taken++) described = advance(&d, &c, block, taken, described);
}
