/* The kernel under sanitizers: many waits at random, among them the worst that the bounds let through.
 *
 *     storm [waits] [seed]
 *
 * Every array is of exactly the size that core.h asks for, so that a step beyond any of them is found.
 */
#include "core.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

enum { ROWS = 657 };

static unsigned long long state;

static double uniform(double low, double high) {
    state = state * 6364136223846793005ull + 1442695040888963407ull;
    return low + (high - low) * (double)(state >> 11) / 9007199254740992.0;
}

static int whole(int low, int high) { return low + (int)uniform(0.0, high - low + 0.999999); }

/* The bounds of bounds.py, in the order of layout.py, as ordinary values and as the farthest. */
static const double ordinary[DW_INPUTS][2] = {
    {40, 160}, {0, 1}, {0.1, 0.9}, {0.02, 4}, {40, 90}, {8, 15}, {130, 180}, {0.7, 1.02}, {2, 5}, {0.7, 1},
    {-4, 1}, {0.03, 0.032}, {0.1, 0.6}, {0, 1.5}, {0.3, 1.2}, {0.2, 0.7}, {4, 7}, {0.03, 0.3}, {240, 265}, {0.005, 0.02},
    {0.5, 4}, {50, 54}, {0.05, 3}, {5e-5, 3e-3}, {0.01, 0.2}, {0, 0.1}, {2300, 3400}, {0.3, 0.5}, {5e-4, 2e-3}, {0.02, 0.03},
    {0.05, 0.12}, {2, 15}, {0, 2}, {0, 12}, {1, 32}, {0, 3}, {0.3, 1.5}, {0, 6.3}, {0, 3}, {0, 6.3}, {1, 30},
};
static const double farthest[DW_INPUTS][2] = {
    {0, 1e6}, {0, 1e6}, {1e-3, 1e3}, {0, 1e6}, {1e-12, 1e9}, {1e-12, 1e9}, {1e-12, 1e9}, {0.1, 10}, {1, 100}, {1e-3, 10},
    {-50, 25}, {1e-12, 1e9}, {0, 1e6}, {0, 1e6}, {1e-12, 1e9}, {0, 1e6}, {1e-12, 1e9}, {1e-12, 1e9}, {1e-12, 1e9}, {0, 1e6},
    {1e-12, 1e9}, {0, 200}, {1e-4, 1e4}, {1e-12, 1e9}, {1e-12, 1e9}, {0, 1e6}, {100, 1e5}, {1e-3, 100}, {0, 1}, {1e-6, 1},
    {0, 0.9}, {0, 1e6}, {0, 1e6}, {0, 3}, {-12, 70}, {-82, 82}, {0.05, 1e6}, {-1e6, 1e6}, {-82, 82}, {-1e6, 1e6}, {-1e6, 1e6},
};

static double *room_for(size_t count) {
    double *made = aligned_alloc(64, (count * sizeof(double) + 63) / 64 * 64);
    if (!made) exit(2);
    return made;
}

static double any_of(const double *bounds, int wild) {
    if (!wild) return uniform(bounds[0], bounds[1]);
    double which = uniform(0.0, 3.0);
    return which < 1.0 ? bounds[0] : which < 2.0 ? bounds[1] : uniform(bounds[0], bounds[1]);
}

/* The temperature table, near enough to the days' own. */
static void fill_curves(double *curves) {
    for (int i = 0; i < ROWS; i++) {
        double t = -12.0 + 0.125 * i, *row = curves + DW_CURVES * i;
        row[0] = t < 50.0 ? 1.0 - exp(0.3 * (t - 50.0)) : 0.0;
        row[1] = t < 43.0 ? 2e-3 * (43.0 - t) / 43.0 : 0.0;
        row[2] = pow(1.85, (t - 30.0) / 10.0);
        row[3] = 1.375 * exp(0.28998 - 0.035868 * t + 1.9003e-4 * t * t);
        row[4] = pow(1.9, (t - 25.0) / 10.0);
    }
}

/* One wait of `lanes` kitchens; 1 where a number that came back is none, though the kitchens were ordinary. */
static int one_wait(int wild) {
    const int lanes = whole(1, 40), samples = whole(0, 12), keep = whole(0, 1);
    const int nodes = whole(0, 9) ? whole(2, 16) : whole(2, DW_MOST_NODES);
    dw_plan plan = {
        .nodes = nodes, .shape = whole(DW_BALL, DW_TIN), .stop = whole(DW_NEVER, DW_RISE), .samples = samples,
        .curve_rows = ROWS, .growth_minimum = 2.5, .growth_maximum = 43.0, .first = uniform(1.0, 60.0),
        .growth = uniform(1.1, 3.0), .longest = uniform(60.0, 900.0), .settling = uniform(0.0, 7200.0),
        .slowest = uniform(60.0, 1800.0), .share = uniform(0.1, 5.0),
    };
    const size_t shells = (size_t)DW_STATES * nodes * lanes;
    double *curves = room_for(ROWS * DW_CURVES), *fractions = room_for(samples + 1), *table = room_for(ROWS * DW_TABLE);
    double *inputs = room_for((size_t)DW_INPUTS * lanes), *before = room_for(shells), *after = room_for(shells);
    double *tightness = room_for(3 * lanes), *rows = room_for((size_t)samples * DW_ROW * lanes + 1);
    double *snapshots = keep ? room_for(samples * shells + 1) : NULL;
    double *work = room_for((size_t)DW_WORK * nodes * DW_LANES);
    fill_curves(curves);
    for (int k = 0; k < samples; k++) fractions[k] = samples > 1 ? (double)k / (samples - 1) : 1.0;
    for (int k = 0; k < DW_INPUTS; k++)
        for (int l = 0; l < lanes; l++) inputs[k * lanes + l] = any_of(wild ? farthest[k] : ordinary[k], wild);
    for (size_t k = 0; k < shells; k++)
        before[k] = k < (size_t)nodes * lanes ? uniform(-12.0, 70.0) : uniform(0.0, wild ? 1e6 : 3.9);
    for (int l = 0; l < lanes; l++) tightness[l] = 1.0;
    plan.curves = curves;
    plan.fractions = fractions;
    dw_tabulate(&plan, table);
    for (int first = 0; first < lanes; first += DW_LANES) {
        dw_block block = {
            inputs + first, before + first, tightness + first, after + first, tightness + lanes + first,
            tightness + 2 * lanes + first, rows + first, keep ? snapshots + first : NULL, lanes,
            lanes - first < DW_LANES ? lanes - first : DW_LANES,
        };
        dw_wait(&plan, &block, table, work);
    }
    int wrong = 0;
    for (size_t k = 0; !wild && k < shells; k++) wrong |= !isfinite(after[k]);
    double *all[] = {curves, fractions, table, inputs, before, after, tightness, rows, snapshots, work};
    for (size_t k = 0; k < sizeof all / sizeof *all; k++) free(all[k]);
    return wrong;
}

int main(int count, char **words) {
    const int waits = count > 1 ? atoi(words[1]) : 400;
    state = count > 2 ? strtoull(words[2], NULL, 10) : 20261125ull;
    for (int n = 0; n < waits; n++)
        if (one_wait(n % 3 == 0)) {
            fprintf(stderr, "storm: wait %d gave what is no number\n", n);
            return 1;
        }
    printf("storm: %d waits, nothing found\n", waits);
    return 0;
}
