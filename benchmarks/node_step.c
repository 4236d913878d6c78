/* The parts of a step, timed apart: the core itself, its heat alone, and a bare diffusion step beside them. */
#include "core.c"

/* Crank-Nicolson in sixteen lanes and nothing more: what is between the shells and what they hold is known. */
WIDE void bare_steps(int nodes, int steps, double *restrict temperature, const double *restrict between,
                     const double *restrict store, const double *restrict ambient, double *restrict work) {
    double *inverse = work, *value = work + nodes * DW_LANES;
    for (int n = 0; n < steps; n++) {
        lanes inner = {0}, factor = {0}, last = {0};
        for (int i = 0; i < nodes; i++) {
            const double *t = temperature + i * DW_LANES, *next = between + i * DW_LANES, *kept = store + i * DW_LANES;
            double *pivots = inverse + i * DW_LANES, *values = value + i * DW_LANES;
            const double outside = i + 1 < nodes ? 0.0 : 1.0;
            EACH {
                double right = kept[l] * t[l] + outside * next[l] * ambient[l];
                double pivot = 1.0 / (kept[l] + inner[l] + next[l] - inner[l] * factor[l]);
                last[l] = right + factor[l] * last[l];
                factor[l] = next[l] * pivot;
                inner[l] = next[l];
                pivots[l] = pivot;
                values[l] = last[l];
            }
        }
        EACH last[l] = 0.0;
        for (int i = nodes - 1; i >= 0; i--) {
            const double linked = i + 1 < nodes ? 1.0 : 0.0;
            double *t = temperature + i * DW_LANES, *pivots = inverse + i * DW_LANES, *values = value + i * DW_LANES;
            const double *next = between + i * DW_LANES;
            EACH {
                last[l] = (values[l] + linked * next[l] * last[l]) * pivots[l];
                t[l] = t[l] + (last[l] - t[l]) * 2.0;
            }
        }
    }
}

/* The kernel's heat alone, the dough's gas as it is at the start. */
WIDE void heat_steps(const dw_plan *plan, const dw_block *block, const double *table, double *work, int steps,
                     double seconds) {
    dough d;
    waiting c;
    lanes each;
    start(&d, &c, plan, block, table, work);
    EACH each[l] = seconds;
    for (int n = 0; n < steps; n++) {
        conduct(&d, each, d.in[MEAN], 0.5);
        for (int i = 0; i < d.nodes; i++) EACH d.shells[i].state[TEMPERATURE][l] = d.shells[i].after[l];
    }
    EACH block->took[l] = d.mean[l];
}

/* A whole wait, as dw_wait; the steps it took. */
WIDE int whole_steps(const dw_plan *plan, const dw_block *block, const double *table, double *work) {
    dough d;
    waiting c;
    start(&d, &c, plan, block, table, work);
    int described = 0, taken = 0;
    for (; c.left > 0; taken++) described = advance(&d, &c, block, taken, described);
    return taken;
}
