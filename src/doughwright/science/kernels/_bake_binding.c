/* The oven's core for Python: takes arrays through the buffer protocol, checks them, and lets go of the lock. */
#define PY_SSIZE_T_CLEAN
#define Py_LIMITED_API 0x030B0000
#include <Python.h>

#include <stdint.h>
#include <stdlib.h>

#include "_bake_binding.h"
#include "bake_core.h"

enum {
    INPUTS, RULES, SOLIDS, THICKNESS, MOISTURE, SPRING, AREA, STATE, CARRIED, CURVES, FRACTIONS,
    STATE_AFTER, CARRIED_AFTER, ROWS, SNAPSHOTS, ARRAYS
};

static const char *const NAMES[ARRAYS] = {
    "inputs", "rules", "solids", "thickness", "moisture", "spring", "area", "state", "carried", "curves", "samples",
    "state after", "carried after", "rows", "snapshots",
};

/* Take one array of doubles in C order with `rank` lengths, -1 for any; 0 with an error set when it is not. */
static int take(PyObject *from, Py_buffer *views, int which, int rank, const Py_ssize_t *lengths) {
    Py_buffer *view = &views[which];
    int flags = PyBUF_C_CONTIGUOUS | PyBUF_FORMAT | (which >= STATE_AFTER ? PyBUF_WRITABLE : 0);
    if (PyObject_GetBuffer(from, view, flags) < 0) return 0;
    int fits = view->ndim == rank && view->itemsize == sizeof(double) && view->format && view->format[0] == 'd';
    for (int i = 0; fits && i < rank; i++) fits = lengths[i] < 0 || view->shape[i] == lengths[i];
    if (fits) return 1;
    PyBuffer_Release(view);
    view->obj = NULL;
    PyErr_Format(PyExc_ValueError, "%s: not an array of doubles of the right shape", NAMES[which]);
    return 0;
}

static int take_all(PyObject **from, Py_buffer *views) {
    if (!take(from[STATE], views, STATE, 3, (Py_ssize_t[]){DW_BAKE_STATES, -1, -1})) return 0;
    const Py_ssize_t cells = views[STATE].shape[1], lanes = views[STATE].shape[2];
    if (!take(from[FRACTIONS], views, FRACTIONS, 1, (Py_ssize_t[]){-1})) return 0;
    const Py_ssize_t samples = views[FRACTIONS].shape[0];
    if (cells < 1 || cells > DW_BAKE_MOST_CELLS || samples > INT32_MAX / 2) {
        PyErr_SetString(PyExc_ValueError, "state: from 1 to 256 cells");
        return 0;
    }
    for (int which = SOLIDS; which <= SPRING; which++)
        if (!take(from[which], views, which, 2, (Py_ssize_t[]){cells, lanes})) return 0;
    return take(from[INPUTS], views, INPUTS, 2, (Py_ssize_t[]){DW_BAKE_INPUTS, lanes}) &&
           take(from[RULES], views, RULES, 1, (Py_ssize_t[]){DW_BAKE_RULES}) &&
           take(from[AREA], views, AREA, 2, (Py_ssize_t[]){cells + 1, lanes}) &&
           take(from[CARRIED], views, CARRIED, 2, (Py_ssize_t[]){DW_BAKE_CARRIED, lanes}) &&
           take(from[CURVES], views, CURVES, 2, (Py_ssize_t[]){-1, DW_BAKE_CURVES}) &&
           take(from[STATE_AFTER], views, STATE_AFTER, 3, (Py_ssize_t[]){DW_BAKE_STATES, cells, lanes}) &&
           take(from[CARRIED_AFTER], views, CARRIED_AFTER, 2, (Py_ssize_t[]){DW_BAKE_CARRIED, lanes}) &&
           take(from[ROWS], views, ROWS, 3, (Py_ssize_t[]){samples, DW_BAKE_ROW, lanes}) &&
           (from[SNAPSHOTS] == Py_None ||
            take(from[SNAPSHOTS], views, SNAPSHOTS, 4, (Py_ssize_t[]){samples, DW_BAKE_STATES, cells, lanes}));
}

static const double *at(const Py_buffer *views, int which, Py_ssize_t first) {
    return (const double *)views[which].buf + first;
}

static dw_bake_block block_at(const Py_buffer *views, Py_ssize_t first, Py_ssize_t lanes) {
    dw_bake_block block = {
        .inputs = at(views, INPUTS, first),
        .solids = at(views, SOLIDS, first),
        .thickness = at(views, THICKNESS, first),
        .moisture = at(views, MOISTURE, first),
        .spring = at(views, SPRING, first),
        .area = at(views, AREA, first),
        .state = at(views, STATE, first),
        .carried = at(views, CARRIED, first),
        .state_after = (double *)views[STATE_AFTER].buf + first,
        .carried_after = (double *)views[CARRIED_AFTER].buf + first,
        .rows = (double *)views[ROWS].buf + first,
        .snapshots = views[SNAPSHOTS].obj ? (double *)views[SNAPSHOTS].buf + first : NULL,
        .stride = lanes,
        .count = (int)(lanes - first < DW_BAKE_LANES ? lanes - first : DW_BAKE_LANES),
    };
    return block;
}

/* Run the blocks from `first` lane up to `end` without the interpreter's lock. */
static int run(const dw_bake_plan *plan, const Py_buffer *views, Py_ssize_t first, Py_ssize_t end) {
    const Py_ssize_t lanes = views[STATE].shape[2];
    const size_t size = (size_t)DW_BAKE_WORK * (size_t)plan->cells * DW_BAKE_LANES * sizeof(double);
    const size_t table_size = (size_t)DW_BAKE_TABLE * (size_t)plan->curve_rows * sizeof(double);
    char *memory = malloc(size + table_size + 64);
    if (!memory) {
        PyErr_NoMemory();
        return 0;
    }
    double *work = (double *)(memory + (64 - (uintptr_t)memory % 64) % 64);
    double *table = work + size / sizeof(double);
    Py_BEGIN_ALLOW_THREADS
    dw_bake_tabulate(plan, table);
    for (Py_ssize_t lane = first; lane < end; lane += DW_BAKE_LANES) {
        dw_bake_block block = block_at(views, lane, lanes);
        dw_bake(plan, &block, table, work);
    }
    Py_END_ALLOW_THREADS
    free(memory);
    return 1;
}

/* Surface, then dough, then toppings, which need dough under them. */
static int kinds_fit(const char *kinds, Py_ssize_t count, Py_ssize_t cells) {
    int dough = 0;
    if (count != cells) return 0;
    for (Py_ssize_t i = 0; i < count; i++) {
        if (kinds[i] < DW_SURFACE || kinds[i] > DW_CHEESE) return 0;
        if (i && kinds[i - 1] > kinds[i] && kinds[i] <= DW_DOUGH) return 0;
        dough |= kinds[i] == DW_DOUGH;
        if (kinds[i] > DW_DOUGH && !dough) return 0;
    }
    return 1;
}

static int plan_fits(const dw_bake_plan *plan, const Py_buffer *views, Py_ssize_t first, Py_ssize_t end) {
    const Py_ssize_t lanes = views[STATE].shape[2];
    return plan->curve_rows >= 2 && plan->first > 0.0 && plan->growth > 1.0 && plan->longest > 0.0 && first >= 0 &&
           first % DW_BAKE_LANES == 0 && end <= lanes;
}

PyObject *dw_bake_blocks(PyObject *Py_UNUSED(module), PyObject *arguments) {
    PyObject *from[ARRAYS];
    Py_buffer views[ARRAYS];
    Py_ssize_t first, end, kinds;
    const char *kind;
    dw_bake_plan plan;
    if (!PyArg_ParseTuple(arguments, "(OOOOOOOOOOOOOOO)y#p(ddd)(nn)", &from[0], &from[1], &from[2], &from[3], &from[4],
                          &from[5], &from[6], &from[7], &from[8], &from[9], &from[10], &from[11], &from[12], &from[13],
                          &from[14], &kind, &kinds, &plan.lifted, &plan.first, &plan.growth, &plan.longest, &first,
                          &end))
        return NULL;
    for (int i = 0; i < ARRAYS; i++) views[i].obj = NULL;
    int well = take_all(from, views);
    if (well) {
        plan.cells = (int)views[STATE].shape[1];
        plan.samples = (int)views[FRACTIONS].shape[0];
        plan.curve_rows = (int)views[CURVES].shape[0];
        plan.kinds = (const unsigned char *)kind;
        plan.rules = views[RULES].buf;
        plan.curves = views[CURVES].buf;
        plan.fractions = views[FRACTIONS].buf;
        well = kinds_fit(kind, kinds, plan.cells) && plan_fits(&plan, views, first, end);
        if (!well) PyErr_SetString(PyExc_ValueError, "the plan of the bake is out of its bounds");
        well = well && run(&plan, views, first, end);
    }
    for (int i = 0; i < ARRAYS; i++)
        if (views[i].obj) PyBuffer_Release(&views[i]);
    if (!well) return NULL;
    Py_RETURN_NONE;
}
