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
#define NOT_UNROLLED _Pragma("GCC unroll 1")
#else
#define NOT_UNROLLED
#endif
#define EACH NOT_UNROLLED for (int l = 0; l < DW_LANES; l++)

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
static const double FULL_AT = 60.0; /* degC; what a dough holds at this it holds at any lower temperature */
static const double TWO_PI = 6.283185307179586;

/* One shell of a block: its state, and what one part of a step leaves for the next. */
typedef struct {
    _Alignas(64) lanes state[DW_STATES];
    lanes sleep;     /* exp(-woken / lag), 0 once AWAKE */
    lanes spot, mid; /* where its temperature is in the table, in rows, and halfway through the step */
    lanes room;      /* what its water holds [mL] */
    lanes dissolved; /* mL */
    lanes warming;   /* W over its share of the mass */
    lanes after;     /* its temperature a step later */
    /* What is done with by the time that the next is written: of the elimination, then of the ferment. */
    union { lanes factor, rate, wanted, gained; };
    union { lanes value, growth, root; };
    union { lanes top, malting; }; /* its conductivity is solid * top / bottom */
    union { lanes bottom, twice; };
    double found[DW_LANES][4]; /* what the table says: gassing, growth, maltose; what its water holds [mL] */
    lanes before[DW_STATES];
} shell;

_Static_assert(sizeof(shell) == sizeof(double) * DW_WORK * DW_LANES, "the work space is counted in core.h");

/* A row of the temperature table and the way to the next one, so that one index finds all: gassing, growth, maltose,
 * solubility; slackening and its rise; of maltose and of growth over its best rate the highest up to here. */
typedef struct {
    double value[4], rise[4], slack[2], highest[2], spare[4];
} table_row;

_Static_assert(sizeof(table_row) == sizeof(double) * DW_TABLE, "the table is counted in core.h");

/* What one block needs while it waits. */
typedef struct {
    const dw_plan *plan;
    const table_row *table;
    shell *shells;
    int nodes, swings;
    int sleepy, hasty, growing, brisk, malty, deadly; /* what a step need not look at, each 0 for not */
    double shares[DW_MOST_NODES], faces[DW_MOST_NODES];
    lanes in[DW_INPUTS];
    lanes tightness, rise, mean, mean_before, solid, pace, hottest, drowsy, grown, gas, holds;
    /* What follows from the inputs once and for all. */
    lanes air, lift, most_share, most_bubbles, per_lag, capacity, per_cap, per_period, longest, gas_top;
    lanes no_gas, norm, awake, half_twice; /* the first in rows of the table, the second per row */
    /* What follows from the length of a step. */
    lanes hours, gassing, growth, malting, warming, length, over, over_top, solid_bottom;
    lanes haste, briskness, maltiness; /* no shell has more */
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


/* Where a lane's bounds are this small it takes a shorter series, whatever its neighbours take. */
static const double TINY = 1.0 / 16.0;

/* exp(x) for -TINY <= x <= 0 to 1e-14. */
INLINE double exp_tiny(double x) {
    double x2 = x * x;
    return ((1.0 + x) + x2 * (1.0 / 2 + x * (1.0 / 6))) +
           (x2 * x2) * ((1.0 / 24 + x * (1.0 / 120)) + x2 * (1.0 / 720 + x * (1.0 / 5040)));
}

/* (1 - exp(-y)) / y for 0 <= y <= TINY. */
INLINE double mean_decay_tiny(double y) {
    double y2 = y * y;
    return ((1.0 - y * (1.0 / 2)) + y2 * (1.0 / 6 - y * (1.0 / 24))) +
           (y2 * y2) * ((1.0 / 120 - y * (1.0 / 720)) + y2 * (1.0 / 5040 - y * (1.0 / 40320)));
}

/* The same for 0 <= y <= 1/2, by its series at y / 4 and two doublings. */
INLINE double mean_decay_short(double y) {
    double z = y * 0.25, z2 = z * z, z4 = z2 * z2;
    double sum = ((1.0 - z * (1.0 / 2)) + z2 * (1.0 / 6 - z * (1.0 / 24))) +
                 z4 * ((1.0 / 120 - z * (1.0 / 720)) + z2 * (1.0 / 5040 - z * (1.0 / 40320))) +
                 z4 * z4 * (1.0 / 362880);
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

/* The cube root of x > 0: a guess from a third of its exponent, then three steps of Halley. */
INLINE double cube_root(double x) {
    uint64_t third = ((bits_of(x) >> 32) * 0x55555556u) >> 32;
    double y = of_bits((third + 0x2a9f7893u) << 32);
    for (int n = 0; n < 3; n++) {
        double cube = y * y * y;
        y = y * (cube + 2.0 * x) / (2.0 * cube + x);
    }
    return y;
}

/* ---- the temperature table ---- */

/* Where temperatures are in the table: in rows from its start. */
INLINE double in_table(const dw_plan *plan, double temperature) {
    const double last = plan->curve_rows - 1;
    double x = (temperature - COLDEST) * PER_DEGREE;
    x = x > 0.0 ? x : 0.0;
    return x < last ? x : last;
}

/* The coefficient of slackening. */
INLINE void find_slack(const dough *d, const double *temperature, double *found) {
    int row[DW_LANES];
    lanes part;
    EACH {
        double x = in_table(d->plan, temperature[l]);
        row[l] = (int)x;
        part[l] = x - (double)row[l];
    }
    for (int l = 0; l < DW_LANES; l++) {
        const table_row *low = d->table + row[l];
        found[l] = low->slack[0] + part[l] * low->slack[1];
    }
}

/* The highest coefficients of maltose and of growth up to a temperature. */
INLINE void find_highest(const dough *d, const double *temperature, double *maltose, double *growth) {
    const int last = d->plan->curve_rows - 1;
    int row[DW_LANES];
    EACH {
        int low = (int)in_table(d->plan, temperature[l]);
        row[l] = low < last ? low + 1 : last;
    }
    for (int l = 0; l < DW_LANES; l++) {
        maltose[l] = d->table[row[l]].highest[0];
        growth[l] = d->table[row[l]].highest[1];
    }
}

/* Lane by lane, for each reads lines of its own: three columns at one place, solubility at another. */
INLINE void gather(const table_row *restrict table, const int *restrict row, const double *restrict part,
                   const int *restrict row_after, const double *restrict part_after, double (*restrict found)[4]) {
    for (int l = 0; l < DW_LANES; l++) {
        const table_row *low = table + row[l], *now = table + row_after[l];
        NOT_UNROLLED for (int c = 0; c < 4; c++) found[l][c] = low->value[c] + part[l] * low->rise[c];
        found[l][3] = now->value[3] + part_after[l] * now->rise[3];
    }
}

/* What the table says of a shell: solubility where it is now, the rest where it was on the way there. */
INLINE void find(const dough *d, shell *here, const double *temperature) {
    int row[DW_LANES], row_after[DW_LANES];
    lanes part, part_after;
    EACH {
        double x = in_table(d->plan, temperature[l]), mid = 0.5 * (here->spot[l] + x);
        here->spot[l] = x;
        here->mid[l] = mid;
        row[l] = (int)mid;
        part[l] = mid - (double)row[l];
        row_after[l] = (int)x;
        part_after[l] = x - (double)row_after[l];
    }
    gather(d->table, row, part, row_after, part_after, here->found);
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

/* The gas of every shell divided, and what it does to volume and heat; both sides of the root are times kelvin. */
INLINE void look_at(dough *d) {
    for (int i = 0; i < d->nodes; i++) {
        shell *here = &d->shells[i];
        EACH {
            double gas = here->state[GAS][l], kelvin = here->state[TEMPERATURE][l] + ZERO_CELSIUS;
            double linear = (here->room[l] + gas) * kelvin + d->air[l], twice = 2.0 * here->room[l] * gas * kelvin;
            here->dissolved[l] = twice / (linear + sqrt(linear * linear - 2.0 * kelvin * twice));
        }
    }
    for (int i = 0; i < d->nodes; i++) {
        const double share = d->shares[i];
        shell *here = &d->shells[i];
        EACH {
            double kelvin = here->state[TEMPERATURE][l] + ZERO_CELSIUS;
            double rise = 1.0 + d->lift[l] * kelvin * (here->state[GAS][l] - here->dissolved[l]);
            d->rise[l] += share * rise;
            here->top[l] = d->gas_top[l] * rise + d->over_top[l];
            here->bottom[l] = d->solid_bottom[l] * rise - d->over[l];
        }
    }
}

INLINE void look(dough *d) {
    EACH d->mean[l] = 0.0;
    /* From the skin inwards, as conduct sums it: the same digits. */
    for (int i = d->nodes - 1; i >= 0; i--) EACH d->mean[l] += d->shares[i] * d->shells[i].state[TEMPERATURE][l];
    for (int i = 0; i < d->nodes; i++) {
        shell *here = &d->shells[i];
        find(d, here, here->state[TEMPERATURE]);
        EACH here->room[l] = d->in[HOLD][l] * here->found[l][3];
    }
    begin_look(d);
    look_at(d);
}

/* ---- the ferment: science/ferment.ferment_step ----
 *
 * Each part goes through all shells before the next begins: then no root or division waits for another.
 */

/* How far the clocks have run, how fast the yeast could gas and by how much it could grow. */
INLINE void run_clocks(dough *d) {
    const double low = (d->plan->growth_minimum - COLDEST) * PER_DEGREE;
    const double span = (d->plan->growth_maximum - d->plan->growth_minimum) * PER_DEGREE;
    for (int i = 0; i < d->nodes; i++) find(d, &d->shells[i], d->shells[i].after);
    for (int i = 0; i < d->nodes; i++) {
        shell *here = &d->shells[i];
        EACH {
            double root = most(here->mid[l] - d->no_gas[l], 0.0) * here->found[l][0] * d->norm[l];
            double above = least(most(here->mid[l] - low, 0.0), span);
            double step = d->growth[l] * here->found[l][1] * (above * above), grown = here->state[GROWN][l] + step;
            here->malting[l] = here->found[l][2];
            here->room[l] = d->in[HOLD][l] * here->found[l][3];
            here->rate[l] = root * root;
            here->state[WOKEN][l] += root * root * d->hours[l];
            here->state[GROWN][l] = grown;
            here->growth[l] = least(grown - d->in[GROWTH_LAG][l], step);
            d->grown[l] = most(d->grown[l], grown);
        }
    }
}

/* The gassing lag: its mean over the step, and what is left of it. */
INLINE void wake(dough *d) {
    for (int i = 0; i < d->nodes; i++) {
        shell *here = &d->shells[i];
        lanes mean;
        EACH mean[l] = mean_decay_tiny(here->rate[l] * d->length[l]);
        if (d->hasty == 2) {
            EACH mean[l] = d->haste[l] <= TINY ? mean[l] : mean_decay(here->rate[l] * d->length[l]);
        } else if (d->hasty == 1) {
            EACH mean[l] = d->haste[l] <= TINY ? mean[l] : mean_decay_short(here->rate[l] * d->length[l]);
        }
        EACH {
            double sleep = here->sleep[l], rate = here->rate[l];
            double left = sleep * (1.0 - rate * d->length[l] * mean[l]);
            here->rate[l] = rate * (1.0 - sleep * mean[l]);
            here->sleep[l] = here->state[WOKEN][l] > d->awake[l] ? 0.0 : left;
            d->drowsy[l] = most(d->drowsy[l], here->sleep[l]);
        }
    }
}

/* Yeast, and what it wants of sugar [%]. */
INLINE void grow(dough *d) {
    for (int i = 0; i < d->nodes; i++) {
        shell *here = &d->shells[i];
        lanes left;
        if (!d->growing) {
            EACH here->wanted[l] = d->gassing[l] * here->rate[l] * (2.0 * here->state[YEAST][l]);
            continue;
        }
        EACH {
            here->growth[l] = most(here->growth[l], 0.0);
            left[l] = exp_tiny(-here->growth[l] * d->per_cap[l]);
        }
        if (d->brisk) EACH {
                double any = exp_down(-here->growth[l] * d->per_cap[l]);
                left[l] = d->briskness[l] <= TINY ? left[l] : any;
            }
        EACH {
            double capacity = d->capacity[l], alive = here->state[YEAST][l];
            double grown = capacity * alive / (alive + (capacity - alive) * left[l]);
            grown = here->growth[l] > 0.0 ? grown : alive;
            here->wanted[l] = d->gassing[l] * here->rate[l] * (alive + grown);
            here->state[YEAST][l] = grown;
        }
    }
}

/* Maltose, and the root of what is left of sugar. */
INLINE void malt(dough *d) {
    for (int i = 0; i < d->nodes; i++) {
        shell *here = &d->shells[i];
        lanes left;
        EACH left[l] = exp_tiny(-d->malting[l] * here->malting[l]);
        if (d->malty) EACH {
                double any = exp_down(-d->malting[l] * here->malting[l]);
                left[l] = d->maltiness[l] <= TINY ? left[l] : any;
            }
        EACH {
            double limit = d->in[MALTOSE_LIMIT][l], formed = here->state[MALTOSE][l], half = d->in[SUGAR_HALF][l];
            double malted = limit - (limit - formed) * left[l];
            double available = here->state[SUGAR][l] + (malted - formed), linear = half + here->wanted[l] - available;
            double twice = d->half_twice[l] * available;
            here->state[MALTOSE][l] = malted;
            here->state[SUGAR][l] = available;
            here->twice[l] = twice;
            here->root[l] = linear + sqrt(linear * linear + 2.0 * twice);
        }
    }
}

/* Sugar used and gas made: wanted S / (S + half) with S = twice / root. */
INLINE void eat(dough *d) {
    for (int i = 0; i < d->nodes; i++) {
        shell *here = &d->shells[i];
        EACH {
            double twice = here->twice[l];
            double used = here->wanted[l] * twice / (twice + d->in[SUGAR_HALF][l] * here->root[l]);
            double gained = d->in[GAS_YIELD][l] * used;
            here->state[SUGAR][l] = most(here->state[SUGAR][l] - used, 0.0);
            here->state[MADE][l] += gained;
            here->state[GAS][l] += gained;
            here->state[TEMPERATURE][l] = here->after[l];
            here->warming[l] = gained * d->warming[l];
            d->pace[l] = most(d->pace[l], gained);
            d->gas[l] = most(d->gas[l], here->state[GAS][l]);
        }
    }
}

/* Whether any shell may hold more than it can. The warmer it is the less it holds, so it surely holds what it would
 * at FULL_AT, up to there. */
INLINE int may_leak(const dough *d) {
    int64_t leaks = 0;
    EACH leaks |= d->gas[l] < d->holds[l] ? (d->hottest[l] < FULL_AT ? 0 : 1) : 1;
    return leaks != 0;
}

/* Gas over the ceiling goes. */
INLINE void leak(dough *d) {
    for (int i = 0; i < d->nodes; i++) {
        shell *here = &d->shells[i];
        EACH {
            double now = here->state[GAS][l], kelvin = here->state[TEMPERATURE][l] + ZERO_CELSIUS;
            double kept = least(now, d->most_share[l] * (here->room[l] + d->most_bubbles[l] / kelvin));
            here->state[LEAKED][l] += now - kept;
            here->state[GAS][l] = kept;
        }
    }
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
    int64_t sleepy = 0, hasty = 0, hastier = 0, growing = 0, brisk = 0, malty = 0, deadly = 0;
    lanes maltose, growth;
    find_highest(d, d->hottest, maltose, growth);
    EACH {
        double root = most(d->hottest[l] - d->in[GASSING_MINIMUM][l], 0.0) * d->in[GASSING_NORM][l];
        d->haste[l] = root * root * d->length[l];
        d->maltiness[l] = d->malting[l] * maltose[l];
        double most_growth = d->in[GROWTH_RATE][l] * d->in[GROWTH][l] * d->hours[l] * growth[l];
        d->briskness[l] = most_growth * d->per_cap[l];
        sleepy |= d->drowsy[l] > 0.0 ? 1 : 0;
        hasty |= d->haste[l] <= TINY ? 0 : 1;
        hastier |= d->haste[l] < 0.49 ? 0 : 1;
        growing |= d->grown[l] + most_growth < d->in[GROWTH_LAG][l] ? 0 : 1;
        brisk |= d->briskness[l] <= TINY ? 0 : 1;
        malty |= d->maltiness[l] <= TINY ? 0 : 1;
        deadly |= d->hottest[l] < d->in[DEATH][l] ? 0 : 1;
    }
    d->sleepy = sleepy != 0;
    d->hasty = hastier ? 2 : hasty ? 1 : 0;
    d->growing = growing != 0;
    d->brisk = brisk != 0;
    d->malty = malty != 0;
    d->deadly = deadly != 0;
}

/* All of a dough a step later, its temperatures known. */
INLINE void age(dough *d, const double *seconds) {
    lanes middle, slack;
    EACH middle[l] = 0.5 * (d->mean_before[l] + d->mean[l]);
    find_slack(d, middle, slack);
    EACH {
        double hours = seconds[l] / 3600.0;
        d->hours[l] = hours;
        d->length[l] = hours * d->per_lag[l];
        d->gassing[l] = d->in[GASSING][l] * hours / d->in[GAS_YIELD][l] * 0.5;
        /* Above the least temperature in rows of the table, not in degrees. */
        d->growth[l] = d->in[GROWTH_RATE][l] * (d->in[GROWTH][l] * hours) / (PER_DEGREE * PER_DEGREE);
        d->malting[l] = d->in[MALTOSE_RATE][l] * hours / d->in[MALTOSE_LIMIT][l];
        d->warming[l] = d->in[WARMING][l] / hours * d->in[MASS][l];
        d->tightness[l] *= exp_down(-hours * d->in[SLACK_25][l] * slack[l]);
        d->pace[l] = d->gas[l] = 0.0;
    }
    foresee(d);
    EACH d->drowsy[l] = d->grown[l] = 0.0;
    if (d->deadly) kill(d);
    run_clocks(d);
    if (d->sleepy) wake(d);
    grow(d);
    malt(d);
    eat(d);
    if (may_leak(d)) leak(d);
    begin_look(d);
    look_at(d);
    EACH d->pace[l] = d->pace[l] / d->hours[l];
}

/* ---- one block: forecast/_wait.wait ---- */

/* Where each lane of a block stands in its wait. */
typedef struct {
    lanes done, length, seconds, time; /* s, s, s, h */
    lanes due;                         /* h, of the next sample; past all time where there is none */
    lanes rows[2][DW_ROW];             /* at the start and at the end of the step */
    lanes side, part;                  /* of its stop it began on; of its last step it went */
    int64_t live[DW_LANES], ended[DW_LANES];
    int next[DW_LANES];
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

/* The least solubility up to FULL_AT, and a little less. */
INLINE double least_solubility(const dough *d) {
    const int last = (int)in_table(d->plan, FULL_AT);
    double found = d->table[0].value[3];
    for (int i = 0; i <= last; i++) found = least(found, d->table[i].value[3]);
    return 0.999 * found;
}

INLINE void take_inputs(dough *d, const dw_block *block) {
    const double full = least_solubility(d);
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
        d->holds[l] = d->most_share[l] * (d->in[HOLD][l] * full + d->most_bubbles[l] / (FULL_AT + ZERO_CELSIUS));
        d->per_lag[l] = 1.0 / d->in[LAG][l];
        d->gas_top[l] = 3.0 * d->in[GAS_CONDUCTIVITY][l];
        d->no_gas[l] = (d->in[GASSING_MINIMUM][l] - COLDEST) * PER_DEGREE;
        d->norm[l] = d->in[GASSING_NORM][l] / PER_DEGREE;
        d->awake[l] = AWAKE * d->in[LAG][l];
        d->half_twice[l] = 2.0 * d->in[SUGAR_HALF][l];
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
            here->warming[l] = here->spot[l] = 0.0;
            double woken = here->state[WOKEN][l] * d->per_lag[l];
            here->sleep[l] = here->state[WOKEN][l] > d->awake[l] ? 0.0 : exp_down(-woken);
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

/* When a lane's next sample is due. */
INLINE void set_due(const dough *d, waiting *c, int l) {
    c->due[l] = c->next[l] < d->plan->samples ? d->plan->fractions[c->next[l]] * d->in[HOURS][l] : DBL_MAX;
}

/* What there is to say at the wait's start: first samples, and lanes that have nothing to wait for. */
INLINE void begin(dough *d, waiting *c, const dw_block *block) {
    c->left = block->count;
    EACH {
        c->done[l] = c->time[l] = 0.0;
        c->length[l] = d->plan->first;
        c->next[l] = 0;
        c->due[l] = DBL_MAX;
        c->live[l] = l < block->count;
    }
    if (d->plan->samples) describe(d, c->time, c->rows[1]);
    for (int l = 0; l < block->count; l++) {
        while (c->next[l] < d->plan->samples && d->plan->fractions[c->next[l]] * d->in[HOURS][l] <= 0.0)
            write_sample(d, c, block, l, 1.0);
        set_due(d, c, l);
        double gap = stop_gauge(d, l) - d->in[STOP][l];
        c->side[l] = d->plan->stop == DW_RISE || gap < 0.0 ? -1.0 : 1.0;
        int there = d->plan->stop == DW_RISE ? gap >= 0.0 : d->plan->stop == DW_CORE && gap == 0.0;
        if (there || !(d->in[HOURS][l] * 3600.0 > 1e-6)) finish(d, c, block, l, there ? 0.0 : d->in[HOURS][l]);
    }
}

/* Whether a live lane has a sample to write in the step to come (or may stop, and then write its last). */
INLINE int has_sample(const dough *d, const waiting *c) {
    int64_t any = 0;
    EACH any |= c->live[l] & (c->due[l] * 3600.0 <= c->done[l] + c->seconds[l] + 1e-6 ? 1 : 0);
    return any != 0 || (d->plan->samples > 0 && d->plan->stop != DW_NEVER);
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
        int64_t stopped = c->part[l] < 1.0 ? 1 : 0, over = d->in[HOURS][l] * 3600.0 - c->done[l] > 1e-6 ? 0 : 1;
        double hours = c->done[l] / 3600.0;
        c->ended[l] = stopped | over;
        c->time[l] = over & ~stopped ? d->in[HOURS][l] : hours;
    }
    int64_t happens = 0;
    EACH happens |= c->live[l] & (c->ended[l] | (c->due[l] <= c->time[l] ? 1 : 0));
    if (wanted) describe(d, c->time, c->rows[1]);
    for (int l = 0; happens && l < DW_LANES; l++) {
        if (!c->live[l]) continue;
        for (; c->due[l] <= c->time[l]; set_due(d, c, l))
            write_sample(d, c, block, l, (c->due[l] - start[l]) / (c->time[l] - start[l]));
        if (c->ended[l]) finish(d, c, block, l, c->time[l]);
    }
    if (wanted) for (int r = 0; r < DW_ROW; r++) EACH c->rows[0][r][l] = c->rows[1][r][l];
    return wanted;
}

void dw_tabulate(const dw_plan *plan, double *table) {
    const double low = plan->growth_minimum, span = plan->growth_maximum - low;
    double maltose = 0.0, growth = 0.0;
    for (int i = 0; i < plan->curve_rows; i++) {
        const double *here = plan->curves + (ptrdiff_t)i * DW_CURVES, *next = i + 1 < plan->curve_rows ? here + DW_CURVES : here;
        table_row *row = (table_row *)table + i;
        for (int c = 0; c < 4; c++) {
            row->value[c] = here[c];
            row->rise[c] = next[c] - here[c];
        }
        double above = least(most(COLDEST + i / PER_DEGREE - low, 0.0), span);
        maltose = most(maltose, here[2]);
        growth = most(growth, here[1] * above * above);
        row->slack[0] = here[4];
        row->slack[1] = next[4] - here[4];
        row->highest[0] = maltose;
        /* Between two rows growth may be a little over both. */
        row->highest[1] = 1.01 * growth;
    }
}

INLINE void start(dough *d, waiting *c, const dw_plan *plan, const dw_block *block, const double *table, double *work) {
    d->plan = plan;
    d->table = (const table_row *)table;
    d->shells = (shell *)work;
    d->nodes = plan->nodes;
    d->swings = 0;
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
