/* The oven's kernel under sanitizers: many bakes at random, among them the worst that the bounds let through.
 *
 *     bake_storm [bakes] [seed]
 *
 * Every array is of exactly the size that bake_core.h asks for, so that a step beyond any of them is found.
 */
#include "bake_core.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

enum { ROWS = 1201 };

static unsigned long long state;

static double uniform(double low, double high) {
    state = state * 6364136223846793005ull + 1442695040888963407ull;
    return low + (high - low) * (double)(state >> 11) / 9007199254740992.0;
}

static int whole(int low, int high) { return low + (int)uniform(0.0, high - low + 0.999999); }

/* The bounds of bake_bounds.py, in the order of bake_layout.py, as ordinary values and as the farthest. */
static const double ordinary[DW_BAKE_INPUTS][2] = {
    {7e4, 1.03e5}, {89, 101}, {0.04, 0.07}, {0.02, 0.04},
    {1400, 1700}, {0.1, 0.3}, {0.04, 0.09}, {0, 0.6}, {6e-7, 4e-6},
    {1500, 1700}, {0.5, 0.7}, {1800, 2000}, {0.3, 0.4},
    {0.1, 0.2}, {0.1, 0.2}, {0.5, 1}, {0.8, 1}, {0.05, 0.8},
    {150, 600}, {30, 120}, {2e-4, 8e-4}, {0.8, 2.5}, {10, 100}, {4, 7},
    {500, 900}, {1, 50}, {0.5, 0.9},
    {1, 120}, {180, 300}, {150, 280}, {6, 25}, {0.6, 0.9}, {3e3, 2.5e4}, {0, 6e3},
    {180, 300}, {150, 280}, {6, 25}, {180, 300}, {150, 280}, {6, 25},
    {18, 26}, {6, 12}, {0.8, 0.9},
    {0, 50}, {0, 12}, {60, 120}, {20, 280}, {0, 900},
};
static const double farthest[DW_BAKE_INPUTS][2] = {
    {1e4, 1.5e5}, {40, 112}, {1e-3, 1}, {1e-3, 1},
    {1e-3, 1e6}, {1e-3, 1e6}, {1e-3, 1e6}, {0, 1}, {1e-30, 1},
    {1e-3, 1e6}, {1e-3, 1e6}, {1e-3, 1e6}, {1e-3, 1e6},
    {1e-3, 1e6}, {1e-3, 10}, {1e-30, 1e3}, {1e-30, 1e3}, {1e-30, 1e3},
    {1e-3, 1e6}, {1e-3, 1e6}, {1e-7, 1}, {0, 100}, {1e-3, 1e6}, {0.1, 1e3},
    {1e-3, 1e6}, {1e-3, 1e6}, {0, 1},
    {0, 60}, {-50, 600}, {-50, 600}, {1e-3, 1e6}, {0, 1}, {0, 9e3}, {0, 1e5},
    {-50, 600}, {-50, 600}, {1e-3, 1e6}, {-50, 600}, {-50, 600}, {1e-3, 1e6},
    {-50, 600}, {1e-3, 1e6}, {0, 1},
    {-50, 600}, {-50, 600}, {1e-3, 1e6}, {-50, 600}, {0, 86400},
};
static const double rules[DW_BAKE_RULES] = {
    0.6, 0.02, 3.0, 0.25, 0.05, 0.97, 0.9, 4190.0, 2000.0, 25.0, 50.0, 0.9, 90.0, 80.0, 0.98,
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

/* The temperature table, near enough to the oven's own. */
static void fill_curves(double *curves) {
    for (int i = 0; i < ROWS; i++) {
        double t = 0.5 * i, held = t < 200.0 ? t : 200.0, *row = curves + DW_BAKE_CURVES * i;
        row[0] = 610.94 * exp(17.625 * held / (held + 243.04));
        row[1] = 2.6e-5 * 2.4e6 * row[0] * 1e-7 * (1.0 + held);
        row[2] = 42000.0 * exp(-64151.0 / (8.314 * (t + 273.15)));
        row[3] = 2.8e18 * exp(-139000.0 / (8.314 * (t + 273.15)));
    }
}

/* Surface, dough and toppings: any of the first two alone, toppings only on dough. */
static int fill_kinds(unsigned char *kinds, int wild) {
    const int surface = whole(0, 6), dough = surface ? whole(0, wild ? 100 : 20) : whole(1, 20);
    int cells = 0;
    for (int i = 0; i < surface; i++) kinds[cells++] = DW_SURFACE;
    for (int i = 0; i < dough; i++) kinds[cells++] = DW_DOUGH;
    for (int i = whole(0, 3); dough && i > 0; i--) kinds[cells++] = whole(0, 1) ? DW_SAUCE : DW_CHEESE;
    return cells;
}

static void fill(double *array, int rows, int lanes, double low, double high) {
    for (int k = 0; k < rows * lanes; k++) array[k] = uniform(low, high);
}

/* The state of a column: raw and cold for an ordinary one. */
static void fill_state(double *before, const unsigned char *kinds, const double *solids, int cells, int lanes, int wild) {
    const int plane = cells * lanes;
    fill(before, cells, lanes, wild ? -50.0 : 5.0, wild ? 600.0 : 30.0);
    for (int i = 0; i < cells; i++)
        for (int l = 0; l < lanes; l++) {
            int k = i * lanes + l, food = kinds[i] != DW_SURFACE;
            if (!food && !wild) before[k] = uniform(150.0, 300.0);
            before[plane + k] = food ? solids[k] * uniform(wild ? 0.0 : 0.6, 1.0) : 0.0;
            before[2 * plane + k] = before[3 * plane + k] = wild ? uniform(0.0, 1.0) : 0.0;
            before[4 * plane + k] = wild && food ? uniform(0.0, 1e-2) : 0.0;
        }
}

/* One phase in `lanes` kitchens; 1 where a number that came back is none, though the kitchens were ordinary. */
static int one_bake(int wild) {
    const int lanes = whole(1, 20), samples = whole(0, 8), keep = whole(0, 1);
    unsigned char kinds[DW_BAKE_MOST_CELLS];
    const int cells = fill_kinds(kinds, wild);
    const size_t each = (size_t)cells * lanes, states = each * DW_BAKE_STATES;
    double *curves = room_for(ROWS * DW_BAKE_CURVES), *table = room_for(ROWS * DW_BAKE_TABLE);
    double *fractions = room_for(samples + 1), *inputs = room_for((size_t)DW_BAKE_INPUTS * lanes);
    double *solids = room_for(each), *thickness = room_for(each), *moisture = room_for(each), *spring = room_for(each);
    double *area = room_for(each + lanes), *before = room_for(states), *after = room_for(states);
    double *carried = room_for(2 * DW_BAKE_CARRIED * lanes), *rows = room_for((size_t)samples * DW_BAKE_ROW * lanes + 1);
    double *snapshots = keep ? room_for(samples * states + 1) : NULL;
    double *work = room_for((size_t)DW_BAKE_WORK * cells * DW_BAKE_LANES);
    dw_bake_plan plan = {
        .cells = cells, .lifted = whole(0, 1), .samples = samples, .curve_rows = ROWS, .kinds = kinds, .rules = rules,
        .curves = curves, .fractions = fractions, .first = uniform(0.01, 1.0), .growth = uniform(1.05, 2.0),
        .longest = uniform(0.5, 10.0),
    };
    fill_curves(curves);
    dw_bake_tabulate(&plan, table);
    for (int k = 0; k < samples; k++) fractions[k] = samples > 1 ? (double)k / (samples - 1) : 1.0;
    for (int k = 0; k < DW_BAKE_INPUTS; k++)
        for (int l = 0; l < lanes; l++) inputs[k * lanes + l] = any_of(wild ? farthest[k] : ordinary[k], wild);
    fill(solids, cells, lanes, wild ? 1e-9 : 0.05, wild ? 1e3 : 0.5);
    fill(thickness, cells, lanes, wild ? 1e-9 : 2e-4, wild ? 1.0 : 2e-3);
    fill(moisture, cells, lanes, wild ? 1e-6 : 0.7, wild ? 1e4 : 1.1);
    fill(spring, cells, lanes, 0.0, wild ? 10.0 : 1.0);
    fill(area, cells + 1, lanes, wild ? 1e-6 : 0.5, 1.5);
    fill_state(before, kinds, solids, cells, lanes, wild);
    fill(carried, DW_BAKE_CARRIED, lanes, wild ? 0.0 : 20.0, wild ? 52.0 : 25.0);
    for (int first = 0; first < lanes; first += DW_BAKE_LANES) {
        dw_bake_block block = {
            inputs + first, solids + first, thickness + first, moisture + first, spring + first, area + first,
            before + first, carried + first, after + first, carried + DW_BAKE_CARRIED * lanes + first, rows + first,
            keep ? snapshots + first : NULL, lanes, lanes - first < DW_BAKE_LANES ? lanes - first : DW_BAKE_LANES,
        };
        dw_bake(&plan, &block, table, work);
    }
    int wrong = 0;
    for (size_t k = 0; !wild && k < states; k++) wrong |= !isfinite(after[k]);
    for (size_t k = 0; !wild && k < each; k++) wrong |= after[k] < -50.0 || after[k] > 600.0 || after[each + k] < 0.0;
    double *all[] = {curves, table, fractions, inputs, solids, thickness, moisture, spring, area,
                     before, after, carried, rows, snapshots, work};
    for (size_t k = 0; k < sizeof all / sizeof *all; k++) free(all[k]);
    return wrong;
}

int main(int count, char **words) {
    const int bakes = count > 1 ? atoi(words[1]) : 300;
    state = count > 2 ? strtoull(words[2], NULL, 10) : 20261125ull;
    for (int n = 0; n < bakes; n++)
        if (one_bake(n % 3 == 0)) {
            fprintf(stderr, "bake_storm: bake %d gave what is no number, or out of range\n", n);
            return 1;
        }
    printf("bake_storm: %d bakes, nothing found\n", bakes);
    return 0;
}
