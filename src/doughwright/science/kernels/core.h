/* A piece of dough waiting somewhere, for many kitchens at once: one kitchen is one lane.
 *
 * Freestanding C11: no allocation, no globals, no library but math.h, so that the same source runs behind
 * Python and as WebAssembly. Arrays of the caller are [row][lane], `stride` lanes apart; the lane is innermost.
 */
#ifndef DOUGHWRIGHT_CORE_H
#define DOUGHWRIGHT_CORE_H

#include <stddef.h>

enum {
    DW_LANES = 8,       /* lanes that are advanced together */
    DW_INPUTS = 41,     /* rows of the inputs, see layout.py */
    DW_STATES = 9,      /* temperature and the eight of science/ferment.Ferment */
    DW_ROW = 11,        /* values of a sampled row */
    DW_CURVES = 5,      /* columns of the temperature table */
    DW_MOST_NODES = 64, /* shells of a piece, at most */
    DW_TABLE = 16,      /* doubles of a row of the table as laid out */
    DW_WORK = 33        /* doubles of work space for each node and lane */
};

typedef enum { DW_BALL, DW_SLAB, DW_TIN } dw_shape;
typedef enum { DW_NEVER, DW_CORE, DW_RISE } dw_stop;

/* How a wait is stepped: what all lanes share. Seconds, as forecast/_wait.Stepping. */
typedef struct {
    int nodes, shape, stop, samples, curve_rows;
    const double *curves;    /* [curve_rows][DW_CURVES], every eighth of a degree from -12 degC */
    const double *fractions; /* [samples], 0 to 1 of each lane's hours, not falling */
    double growth_minimum, growth_maximum;
    double first, growth, longest, settling, slowest, share;
} dw_plan;

/* One block of up to DW_LANES lanes within the caller's arrays; each pointer is at the block's first lane. */
typedef struct {
    const double *inputs;    /* [DW_INPUTS] */
    const double *state;     /* [DW_STATES][nodes], before the wait */
    const double *tightness; /* one row */
    double *state_after;     /* [DW_STATES][nodes] */
    double *tightness_after; /* one row */
    double *took;            /* one row, hours */
    double *rows;            /* [samples][DW_ROW] */
    double *snapshots;       /* [samples][DW_STATES][nodes], or NULL */
    ptrdiff_t stride;
    int count; /* lanes that are there, 1 to DW_LANES */
} dw_block;

/* Lay out the temperature table for looking up: DW_TABLE doubles for each of its rows, aligned to 64 bytes. */
void dw_tabulate(const dw_plan *plan, double *table);

/* Advance one block through its wait. `work` holds DW_WORK * nodes * DW_LANES doubles, aligned to 64 bytes. */
void dw_wait(const dw_plan *plan, const dw_block *block, const double *table, double *work);

#endif
