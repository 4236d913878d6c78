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

#define EACH for (int l = 0; l < DW_LANES; l++)

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

static const double COLDEST = -12.0, PER_DEGREE = 4.0; /* the temperature table's first row and spacing */
static const double ZERO_CELSIUS = 273.15, BASIS_KELVIN = 298.15;
static const double AWAKE = 12.0; /* lags after which the yeast is taken as wholly awake: exp(-12) is 6e-6 */
static const double TWO_PI = 6.283185307179586;

/* What one block needs while it waits. The pointers are into the caller's work space, [node][lane]. */
typedef struct {
    const dw_plan *plan;
    int nodes, sleepy, growing, swings;
    double shares[DW_MOST_NODES], faces[DW_MOST_NODES];
    lanes in[DW_INPUTS];
    lanes tightness, rise, mean, mean_before, dissolved, solid, pace;
    /* What follows from the inputs once and for all. */
    lanes air, lift, most_share, most_bubbles, per_lag, per_limit, capacity, per_cap, per_period, longest;
    double *state, *before;                                      /* [var][node][lane] */
    double *after, *top, *bottom, *warming, *inner, *pivot, *value; /* [node][lane] */
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

/* exp(x) for x <= 0 to 1e-15: x = k ln 2 + r, then the series of exp(r). */
INLINE double exp_down(double x) {
    x = x > -700.0 ? x : -700.0;
    double shifted = x * 1.4426950408889634 + ROUNDER;
    double k = shifted - ROUNDER;
    double r = (x - k * 0x1.62e42fefa0000p-1) - k * 0x1.cf79abc9e3b3ap-40;
    double r2 = r * r, r4 = r2 * r2, r8 = r4 * r4;
    double low = ((1.0 + r) + r2 * (1.0 / 2 + r * (1.0 / 6))) +
                 r4 * ((1.0 / 24 + r * (1.0 / 120)) + r2 * (1.0 / 720 + r * (1.0 / 5040)));
    double high = (1.0 / 40320 + r * (1.0 / 362880)) +
                  r2 * (1.0 / 3628800 + r * (1.0 / 39916800)) + r4 * (1.0 / 479001600);
    return (low + r8 * high) * of_bits((bits_of(shifted) + 1023) << 52);
}

/* (1 - exp(-y)) / y for y > 0, by its series at y / 8 and three doublings. */
INLINE double mean_decay(double y) {
    double z = least(y, 40.0) * 0.125;
    double sum = 1.0 / 87178291200.0;
    const double terms[] = {6227020800.0, 479001600.0, 39916800.0, 3628800.0, 362880.0, 40320.0, 5040.0,
                            720.0, 120.0, 24.0, 6.0, 2.0, 1.0};
    for (int n = 0; n < 13; n++) sum = 1.0 / terms[n] - z * sum;
    for (int n = 0; n < 3; n++) {
        sum = sum * (1.0 - 0.5 * z * sum);
        z = z + z;
    }
    return sum;
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

INLINE double *at(double *array, int node) { return array + (ptrdiff_t)node * DW_LANES; }
INLINE double *of(double *state, int nodes, int which) { return state + (ptrdiff_t)which * nodes * DW_LANES; }

/* ---- the temperature table ---- */

INLINE void place_in_table(const dw_plan *plan, const double *temperature, int *row, double *part) {
    const double last = plan->curve_rows - 1;
    const int top = plan->curve_rows - 2;
    EACH {
        double x = (temperature[l] - COLDEST) * PER_DEGREE;
        x = x > 0.0 ? x : 0.0;
        x = x < last ? x : last;
        int low = (int)x;
        low = low < top ? low : top;
        row[l] = low;
        part[l] = x - low;
    }
}

INLINE void look_up(const dw_plan *plan, const int *row, const double *part, int column, double *found) {
    const double *curve = plan->curves + column;
    EACH {
        const double *low = curve + (ptrdiff_t)row[l] * DW_CURVES;
        found[l] = low[0] + part[l] * (low[DW_CURVES] - low[0]);
    }
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
    const ptrdiff_t last = (ptrdiff_t)(d->nodes - 1) * DW_LANES;
    return d->solid[l] * d->top[last + l] / d->bottom[last + l];
}

/* Temperatures a step later, into d->after. A shell's conductivity is solid * top / bottom (see look). */
INLINE void conduct(dough *d, const double *seconds, const double *ambient, double implicit) {
    const int nodes = d->nodes;
    lanes area, step, film, reach, store, factor = {0}, inner = {0}, value = {0};
    double *temperature = of(d->state, nodes, TEMPERATURE);
    skin(d, area, step, film);
    EACH {
        reach[l] = 2.0 * area[l] / step[l] * d->solid[l];
        store[l] = d->in[HEAT][l] / (implicit * seconds[l]) * d->in[MASS][l];
    }
    for (int i = 0; i < nodes; i++) {
        const double share = d->shares[i], face = d->faces[i];
        const double *t = at(temperature, i), *warm = at(d->warming, i);
        double *pivots = at(d->pivot, i), *values = at(d->value, i), *inners = at(d->inner, i);
        lanes next;
        if (i + 1 < nodes) {
            const double *a = at(d->top, i), *b = at(d->bottom, i), *c = at(d->top, i + 1), *e = at(d->bottom, i + 1);
            EACH next[l] = reach[l] * face * (a[l] * c[l]) / (a[l] * e[l] + c[l] * b[l]);
        } else {
            EACH {
                double half = 2.0 * conductivity_last(d, l) / step[l];
                next[l] = area[l] * half * film[l] / (half + film[l]);
            }
        }
        const double outside = i + 1 < nodes ? 0.0 : 1.0;
        EACH {
            double kept = store[l] * share;
            double diagonal = kept + inner[l] + next[l];
            double right = kept * t[l] + d->in[MASS][l] * share * warm[l] + outside * next[l] * ambient[l];
            double inverse = 1.0 / (diagonal - inner[l] * factor[l]);
            value[l] = right + factor[l] * value[l];
            factor[l] = next[l] * inverse;
            inner[l] = next[l];
            pivots[l] = inverse;
            values[l] = value[l];
            inners[l] = next[l];
        }
    }
    const double along = 1.0 / implicit;
    lanes outer = {0};
    EACH {
        d->mean_before[l] = d->mean[l];
        d->mean[l] = 0.0;
    }
    for (int i = nodes - 1; i >= 0; i--) {
        const double share = d->shares[i], linked = i + 1 < nodes ? 1.0 : 0.0;
        const double *t = at(temperature, i), *pivots = at(d->pivot, i), *values = at(d->value, i), *inners = at(d->inner, i);
        double *after = at(d->after, i);
        EACH {
            outer[l] = (values[l] + linked * inners[l] * outer[l]) * pivots[l];
            after[l] = t[l] + (outer[l] - t[l]) * along;
            d->mean[l] += share * after[l];
        }
    }
}

/* ---- gas, and what it means for heat: science/gas.split_gas, science/properties.conductivity_maxwell ---- */

INLINE void begin_look(dough *d) {
    EACH {
        d->solid[l] = d->in[CONDUCTIVITY][l] + d->in[SLOPE][l] * d->mean[l];
        d->rise[l] = 0.0;
        d->dissolved[l] = 0.0;
    }
}

/* One shell: `room` is what its water holds [mL], `kelvin` its temperature and `colder` 1 over that. */
INLINE void look_at(dough *d, int i, const double *gas, const double *room, const double *kelvin,
                    const double *colder) {
    const double share = d->shares[i];
    double *top = at(d->top, i), *bottom = at(d->bottom, i);
    EACH {
        double air = d->air[l] * colder[l];
        double linear = room[l] + air + gas[l], twice = 2.0 * room[l] * gas[l];
        double dissolved = twice / (linear + sqrt(linear * linear - 2.0 * twice));
        double rise = 1.0 + d->lift[l] * kelvin[l] * (gas[l] - dissolved);
        d->dissolved[l] += share * dissolved;
        d->rise[l] += share * rise;
        double over = (d->solid[l] - d->in[GAS_CONDUCTIVITY][l]) * (1.0 - d->in[AIR_SHARE][l]);
        top[l] = 3.0 * d->in[GAS_CONDUCTIVITY][l] * rise + 2.0 * over;
        bottom[l] = 3.0 * d->solid[l] * rise - over;
    }
}

INLINE void thermal(const dough *d, const double *temperature, double *room, double *kelvin, double *colder) {
    int row[DW_LANES];
    lanes part;
    place_in_table(d->plan, temperature, row, part);
    look_up(d->plan, row, part, 3, room);
    EACH {
        room[l] = d->in[HOLD][l] * room[l];
        kelvin[l] = temperature[l] + ZERO_CELSIUS;
        colder[l] = 1.0 / kelvin[l];
    }
}

INLINE void look(dough *d) {
    const int nodes = d->nodes;
    EACH d->mean[l] = 0.0;
    /* From the skin inwards, as conduct sums it: the same digits. */
    for (int i = nodes - 1; i >= 0; i--) {
        const double *t = at(of(d->state, nodes, TEMPERATURE), i);
        EACH d->mean[l] += d->shares[i] * t[l];
    }
    begin_look(d);
    for (int i = 0; i < nodes; i++) {
        lanes room, kelvin, colder;
        thermal(d, at(of(d->state, nodes, TEMPERATURE), i), room, kelvin, colder);
        look_at(d, i, at(of(d->state, nodes, GAS), i), room, kelvin, colder);
    }
}

/* ---- the ferment: science/ferment.ferment_step ---- */

/* How long each shell's clocks have run, how fast it gasses and how much it grows in this step. */
INLINE void wake(dough *d, int i, const double *hours, const double *warmth, const double *speed,
                 const double *mid, double *rate, double *growth) {
    const double low = d->plan->growth_minimum, span = d->plan->growth_maximum - low;
    double *woken = at(of(d->state, d->nodes, WOKEN), i), *grown = at(of(d->state, d->nodes, GROWN), i);
    lanes before, gained;
    EACH {
        double root = most(mid[l] - d->in[GASSING_MINIMUM][l], 0.0) * warmth[l] * d->in[GASSING_NORM][l];
        rate[l] = root * root;
        before[l] = woken[l] * d->per_lag[l];
        gained[l] = rate[l] * hours[l];
        woken[l] = woken[l] + gained[l];
        double above = least(most(mid[l] - low, 0.0), span);
        double step = d->in[GROWTH_RATE][l] * speed[l] * above * above * (d->in[GROWTH][l] * hours[l]);
        grown[l] = grown[l] + step;
        growth[l] = least(most(grown[l] - d->in[GROWTH_LAG][l], 0.0), step);
    }
    if (d->sleepy) EACH {
            double length = most(gained[l] * d->per_lag[l], 1e-12);
            double asleep = exp_down(-before[l]) * mean_decay(length);
            rate[l] = rate[l] * (1.0 - (before[l] > AWAKE ? 0.0 : asleep));
        }
}

/* Gas made in this step in one shell; what was there before is aged in place. */
INLINE void ferment(dough *d, int i, const double *hours, const double *per_hour) {
    const int nodes = d->nodes;
    double *temperature = at(of(d->state, nodes, TEMPERATURE), i), *yeast = at(of(d->state, nodes, YEAST), i);
    double *sugar = at(of(d->state, nodes, SUGAR), i), *maltose = at(of(d->state, nodes, MALTOSE), i);
    double *gas = at(of(d->state, nodes, GAS), i), *made = at(of(d->state, nodes, MADE), i);
    double *leaked = at(of(d->state, nodes, LEAKED), i), *warming = at(d->warming, i);
    const double *after = at(d->after, i);
    int row[DW_LANES];
    lanes part, mid, warmth, speed, malting, rate, growth, left, room, kelvin, colder, alive;
    EACH {
        mid[l] = 0.5 * (temperature[l] + after[l]);
        alive[l] = most(temperature[l], after[l]) < d->in[DEATH][l] ? yeast[l] : 0.0;
        left[l] = 1.0;
    }
    place_in_table(d->plan, mid, row, part);
    look_up(d->plan, row, part, 0, warmth);
    look_up(d->plan, row, part, 1, speed);
    look_up(d->plan, row, part, 2, malting);
    wake(d, i, hours, warmth, speed, mid, rate, growth);
    if (!d->growing) EACH d->growing |= growth[l] > 0.0;
    if (d->growing) EACH left[l] = exp_down(-growth[l] * d->capacity[l] * d->per_cap[l]);
    thermal(d, after, room, kelvin, colder);
    EACH {
        double capacity = d->capacity[l], unlimited = capacity * alive[l] / (alive[l] + (capacity - alive[l]) * left[l]);
        double grown = growth[l] > 0.0 ? unlimited : alive[l];
        double wanted = d->in[GASSING][l] * hours[l] / d->in[GAS_YIELD][l] * rate[l] * 0.5 * (alive[l] + grown);
        double limit = d->in[MALTOSE_LIMIT][l];
        double formed = limit - (limit - maltose[l]) *
                                    exp_down(-d->in[MALTOSE_RATE][l] * malting[l] * hours[l] * d->per_limit[l]);
        double available = sugar[l] + (formed - maltose[l]);
        double half = d->in[SUGAR_HALF][l], linear = half + wanted - available, twice = 2.0 * half * available;
        double root = linear + sqrt(linear * linear + 2.0 * twice);
        /* wanted S / (S + half) with S = twice / root */
        double used = wanted * twice / (twice + half * root);
        double gained = d->in[GAS_YIELD][l] * used, now = gas[l] + gained;
        double kept = least(now, d->most_share[l] * (room[l] + d->most_bubbles[l] * colder[l]));
        yeast[l] = grown;
        maltose[l] = formed;
        sugar[l] = most(available - used, 0.0);
        made[l] += gained;
        leaked[l] += now - kept;
        gas[l] = kept;
        temperature[l] = after[l];
        double pace = gained * per_hour[l];
        d->pace[l] = most(d->pace[l], pace);
        warming[l] = pace * d->in[WARMING][l];
    }
    look_at(d, i, gas, room, kelvin, colder);
}

/* Whether any lane's yeast is not wholly awake yet; once all is, it stays so. */
INLINE int asleep(const dough *d) {
    const double *woken = of(d->state, d->nodes, WOKEN);
    int any = 0;
    for (int i = 0; i < d->nodes; i++) EACH any |= !(at((double *)woken, i)[l] * d->per_lag[l] > AWAKE);
    return any;
}

/* All of a dough a step later, its temperatures known. */
INLINE void age(dough *d, const double *seconds) {
    const int nodes = d->nodes;
    int row[DW_LANES];
    lanes hours, per_hour, part, middle, slack;
    EACH {
        hours[l] = seconds[l] / 3600.0;
        per_hour[l] = 1.0 / hours[l];
        d->pace[l] = 0.0;
        middle[l] = 0.5 * (d->mean_before[l] + d->mean[l]);
    }
    place_in_table(d->plan, middle, row, part);
    look_up(d->plan, row, part, 4, slack);
    EACH d->tightness[l] *= exp_down(-hours[l] * d->in[SLACK_25][l] * slack[l]);
    if (d->sleepy) d->sleepy = asleep(d);
    begin_look(d);
    for (int i = 0; i < nodes; i++) ferment(d, i, hours, per_hour);
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
    for (int i = 0; i < d->nodes; i++) {
        const double *values = at(of(d->state, d->nodes, which), i);
        EACH mean[l] += d->shares[i] * values[l];
    }
}

/* The dough as it is now, as a row. */
INLINE void describe(const dough *d, const double *time, lanes *row) {
    lanes area, step, film, ambient;
    const double *temperature = of(d->state, d->nodes, TEMPERATURE);
    air(d, time, ambient);
    skin(d, area, step, film);
    EACH {
        double half = 2.0 * conductivity_last(d, l) / step[l];
        double last = at((double *)temperature, d->nodes - 1)[l];
        row[R_TIME][l] = time[l];
        row[R_CORE][l] = temperature[l];
        row[R_EDGE][l] = (half * last + film[l] * ambient[l]) / (half + film[l]);
        row[R_MEAN][l] = d->mean[l];
        row[R_RISE][l] = d->rise[l];
        row[R_DISSOLVED][l] = d->dissolved[l];
        row[R_TIGHT][l] = d->tightness[l];
    }
    mean_of(d, GAS, row[R_GAS]);
    mean_of(d, SUGAR, row[R_SUGAR]);
    mean_of(d, MADE, row[R_MADE]);
    mean_of(d, LEAKED, row[R_LEAKED]);
}

INLINE void prepare(dough *d, const dw_plan *plan, const dw_block *block, double *work) {
    const int nodes = plan->nodes;
    const ptrdiff_t size = (ptrdiff_t)nodes * DW_LANES;
    double **const parts[] = {&d->after, &d->top, &d->bottom, &d->warming, &d->inner, &d->pivot, &d->value};
    d->plan = plan;
    d->nodes = nodes;
    d->state = work;
    d->before = work + DW_STATES * size;
    for (int i = 0; i < 7; i++) *parts[i] = work + (2 * DW_STATES + i) * size;
    for (int i = 0; i < nodes; i++) {
        double a = (double)i / nodes, b = (double)(i + 1) / nodes;
        d->shares[i] = plan->shape == DW_SLAB ? b - a : b * b * b - a * a * a;
        d->faces[i] = plan->shape == DW_SLAB ? 1.0 : b * b;
    }
    for (int k = 0; k < DW_INPUTS; k++)
        EACH d->in[k][l] = block->inputs[k * block->stride + (l < block->count ? l : 0)];
    for (int k = 0; k < DW_STATES * nodes; k++)
        EACH at(d->state, k)[l] = block->state[k * block->stride + (l < block->count ? l : 0)];
    for (ptrdiff_t k = 0; k < size; k++) d->warming[k] = 0.0;
    d->sleepy = 1;
    d->growing = d->swings = 0;
    EACH {
        d->tightness[l] = block->tightness[l < block->count ? l : 0];
        double bubbles = d->in[AIR][l] + (d->in[CEILING][l] - 1.0) * d->in[VOLUME][l] / d->in[RETENTION][l];
        d->air[l] = d->in[AIR][l] * BASIS_KELVIN * d->in[PRESSURE][l];
        d->lift[l] = d->in[RETENTION][l] / (d->in[VOLUME][l] * BASIS_KELVIN * d->in[PRESSURE][l]);
        d->most_share[l] = 1.0 - d->in[AIR][l] / bubbles;
        d->most_bubbles[l] = bubbles * d->in[PRESSURE][l] * BASIS_KELVIN;
        d->per_lag[l] = 1.0 / d->in[LAG][l];
        d->per_limit[l] = 1.0 / d->in[MALTOSE_LIMIT][l];
        d->capacity[l] = d->in[AT_MIXING][l] + d->in[GROWTH_CAP][l];
        d->per_cap[l] = 1.0 / d->in[GROWTH_CAP][l];
        d->per_period[l] = d->in[SWING][l] != 0.0 ? 1.0 / d->in[PERIOD][l] : 0.0;
        d->longest[l] = d->in[SWING][l] != 0.0 ? d->in[PERIOD][l] * 300.0 : DBL_MAX;
        d->pace[l] = 0.0;
        d->swings |= d->in[SWING][l] != 0.0 || d->in[DAILY][l] != 0.0;
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
    return d->plan->stop == DW_RISE ? d->rise[l] : d->state[l];
}

/* Write one lane's sample: on the line between the two rows (and states), `part` of the way. */
INLINE void write_sample(const dough *d, waiting *c, const dw_block *block, int l, double part) {
    const ptrdiff_t k = c->next[l]++, size = (ptrdiff_t)DW_STATES * d->nodes;
    for (int r = 0; r < DW_ROW; r++) {
        double a = c->rows[0][r][l], b = c->rows[1][r][l];
        block->rows[(k * DW_ROW + r) * block->stride + l] = part < 1.0 ? a + part * (b - a) : b;
    }
    if (block->snapshots)
        for (ptrdiff_t v = 0; v < size; v++) {
            double a = d->before[v * DW_LANES + l], b = d->state[v * DW_LANES + l];
            block->snapshots[(k * size + v) * block->stride + l] = part < 1.0 ? a + part * (b - a) : b;
        }
}

/* A lane is done: its state goes to the caller, and samples to come repeat the last row. */
INLINE void finish(const dough *d, waiting *c, const dw_block *block, int l, double took) {
    for (ptrdiff_t v = 0; v < (ptrdiff_t)DW_STATES * d->nodes; v++)
        block->state_after[v * block->stride + l] = d->state[v * DW_LANES + l];
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
        for (int v = 0; v < DW_STATES * d->nodes; v++) {
            double a = at(d->before, v)[l], b = at(d->state, v)[l];
            at(d->state, v)[l] = a + part * (b - a);
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
        for (int v = 0; v < DW_STATES * d->nodes; v++) EACH at(d->before, v)[l] = at(d->state, v)[l];
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

WIDE void dw_wait(const dw_plan *plan, const dw_block *block, double *work) {
    dough d;
    waiting c;
    prepare(&d, plan, block, work);
    look(&d);
    begin(&d, &c, block);
    int described = 0;
    for (int taken = 0; c.left > 0; taken++) described = advance(&d, &c, block, taken, described);
}
