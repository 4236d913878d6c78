/* The parts of a step, timed apart: the core itself, its heat alone, and a bare diffusion step beside them. */
#include "core.c"

/* Crank-Nicolson in lanes and nothing more: each lane has a piece, a step and an air of its own, as in the
 * kernel, and a conductivity that does not change. */
WIDE void bare_steps(int nodes, int steps, double *restrict temperature, const double *restrict shares,
                     const double *restrict faces, const double *restrict reach, const double *restrict store,
                     const double *restrict skin, const double *restrict ambient, double *restrict work) {
    double *restrict factors = work, *restrict values = work + nodes * DW_LANES;
    for (int n = 0; n < steps; n++) {
        lanes pivot = {0}, factor = {0}, value = {0};
        for (int i = 0; i < nodes; i++) {
            const double share = shares[i], face = faces[i], outside = i + 1 < nodes ? 0.0 : 1.0;
            const double *restrict t = temperature + i * DW_LANES;
            double *restrict f = factors + i * DW_LANES, *restrict v = values + i * DW_LANES;
            EACH {
                double next = (1.0 - outside) * (reach[l] * face) + outside * skin[l];
                double right = store[l] * share * t[l] + outside * skin[l] * ambient[l];
                double open = store[l] * share + pivot[l], over = 1.0 / (open + next);
                value[l] = right + factor[l] * value[l];
                factor[l] = next * over;
                pivot[l] = open * factor[l];
                f[l] = factor[l];
                v[l] = value[l] * over;
            }
        }
        EACH value[l] = 0.0;
        for (int i = nodes - 1; i >= 0; i--) {
            const double linked = i + 1 < nodes ? 1.0 : 0.0;
            double *restrict t = temperature + i * DW_LANES;
            const double *restrict f = factors + i * DW_LANES, *restrict v = values + i * DW_LANES;
            EACH {
                value[l] = v[l] + linked * (f[l] * value[l]);
                t[l] = t[l] + (value[l] - t[l]) * 2.0;
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
