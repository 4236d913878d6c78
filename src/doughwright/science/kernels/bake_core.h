/* A column of cells in the oven, for many kitchens at once: one kitchen is one lane.
 *
 * Freestanding C11: no allocation, no globals, no library but math.h. Arrays of the caller are [row][lane],
 * `stride` lanes apart; the lane is innermost. bake_layout.py says what the rows are.
 */
#ifndef DOUGHWRIGHT_BAKE_CORE_H
#define DOUGHWRIGHT_BAKE_CORE_H

#include <stddef.h>

enum {
    DW_BAKE_LANES = 8,        /* lanes that are advanced together */
    DW_BAKE_INPUTS = 48,      /* rows of the inputs */
    DW_BAKE_RULES = 15,       /* what all lanes share */
    DW_BAKE_STATES = 5,       /* of a cell */
    DW_BAKE_CARRIED = 19,     /* of a column */
    DW_BAKE_ROW = 13,         /* values of a sampled row */
    DW_BAKE_CURVES = 4,       /* columns of the temperature table */
    DW_BAKE_MOST_CELLS = 256, /* of a column */
    DW_BAKE_TABLE = 8,        /* doubles of a row of the table as laid out */
    DW_BAKE_WORK = 29         /* doubles of work space for each cell and lane */
};

typedef enum { DW_SURFACE, DW_DOUGH, DW_SAUCE, DW_CHEESE } dw_kind;

/* A phase: what all lanes share. `kinds` are surface, then dough, then toppings; dough if there are toppings. */
typedef struct {
    int cells, lifted, samples, curve_rows;
    const unsigned char *kinds; /* [cells] */
    const double *rules;        /* [DW_BAKE_RULES] */
    const double *curves;       /* [curve_rows][DW_BAKE_CURVES], every half degree from 0 degC */
    const double *fractions;    /* [samples], 0 to 1 of each lane's seconds, not falling */
    double first, growth, longest;
} dw_bake_plan;

/* One block of up to DW_BAKE_LANES lanes within the caller's arrays; each pointer is at the block's first lane. */
typedef struct {
    const double *inputs;                                /* [DW_BAKE_INPUTS] */
    const double *solids, *thickness, *moisture, *spring; /* [cells] */
    const double *area;                                  /* [cells + 1] */
    const double *state;                                 /* [DW_BAKE_STATES][cells], before the phase */
    const double *carried;                               /* [DW_BAKE_CARRIED], before it */
    double *state_after, *carried_after;
    double *rows;      /* [samples][DW_BAKE_ROW] */
    double *snapshots; /* [samples][DW_BAKE_STATES][cells], or NULL */
    ptrdiff_t stride;
    int count; /* lanes that are there, 1 to DW_BAKE_LANES */
} dw_bake_block;

/* Lay out the temperature table for looking up: DW_BAKE_TABLE doubles for each row, aligned to 64 bytes. */
void dw_bake_tabulate(const dw_bake_plan *plan, double *table);

/* Advance one block through its phase. `work`: DW_BAKE_WORK * cells * DW_BAKE_LANES doubles, aligned to 64 bytes. */
void dw_bake(const dw_bake_plan *plan, const dw_bake_block *block, const double *table, double *work);

#endif
