/* A bare diffusion step, beside which the cost of a step of the oven is told: backward Euler in lanes, no more. */
#include "vector.h"

enum { LANES = 8 };

WIDE void bare_steps(int cells, int steps, double *restrict temperature, const double *restrict above,
                     const double *restrict store, const double *restrict film, const double *restrict oven,
                     double *restrict work) {
    double *restrict factors = work, *restrict values = work + cells * LANES;
    for (int n = 0; n < steps; n++) {
        double below[LANES] = {0}, value[LANES] = {0}, linked[LANES] = {0};
        for (int i = 0; i < cells; i++) {
            const double last = i + 1 < cells ? 0.0 : 1.0;
            const double *restrict t = temperature + i * LANES, *restrict c = store + i * LANES;
            const double *restrict up = above + i * LANES;
            double *restrict f = factors + i * LANES, *restrict v = values + i * LANES;
            EACH_OF(LANES) {
                double next = (1.0 - last) * up[l] + last * film[l];
                double right = c[l] * t[l] + last * film[l] * oven[l] + linked[l] * value[l];
                double over = 1.0 / (c[l] + next + below[l]);
                f[l] = (1.0 - last) * next * over;
                v[l] = value[l] = right * over;
                below[l] = next - next * next * over;
                linked[l] = next;
            }
        }
        EACH_OF(LANES) value[l] = 0.0;
        for (int i = cells - 1; i >= 0; i--) {
            double *restrict t = temperature + i * LANES;
            const double *restrict f = factors + i * LANES, *restrict v = values + i * LANES;
            EACH_OF(LANES) {
                value[l] = v[l] + f[l] * value[l];
                t[l] = value[l];
            }
        }
    }
}
