/* The core for Python: takes arrays through the buffer protocol, checks them, and lets go of the lock. */
#define PY_SSIZE_T_CLEAN
#define Py_LIMITED_API 0x030B0000
#include <Python.h>

#include <stdint.h>
#include <stdlib.h>

#include "_bake_binding.h"
#include "bake_core.h"
#include "core.h"

enum { INPUTS, STATE, TIGHTNESS, CURVES, FRACTIONS, STATE_AFTER, TIGHTNESS_AFTER, TOOK, ROWS, SNAPSHOTS, ARRAYS };

static const char *const NAMES[ARRAYS] = {
    "inputs", "state", "tightness", "curves", "samples", "state after", "tightness after", "took", "rows", "snapshots",
};

/* Take one array of doubles in C order with `rank` lengths, -1 for any; 0 with an error set when it is not. */
static int take(PyObject *from, Py_buffer *view, int which, int rank, const Py_ssize_t *lengths) {
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
    if (!take(from[STATE], &views[STATE], STATE, 3, (Py_ssize_t[]){DW_STATES, -1, -1})) return 0;
    const Py_ssize_t nodes = views[STATE].shape[1], lanes = views[STATE].shape[2];
    if (!take(from[FRACTIONS], &views[FRACTIONS], FRACTIONS, 1, (Py_ssize_t[]){-1})) return 0;
    const Py_ssize_t samples = views[FRACTIONS].shape[0];
    if (nodes < 2 || nodes > DW_MOST_NODES || samples > INT32_MAX / 2) {
        PyErr_SetString(PyExc_ValueError, "state: from 2 to 64 nodes");
        return 0;
    }
    return take(from[INPUTS], &views[INPUTS], INPUTS, 2, (Py_ssize_t[]){DW_INPUTS, lanes}) &&
           take(from[TIGHTNESS], &views[TIGHTNESS], TIGHTNESS, 1, (Py_ssize_t[]){lanes}) &&
           take(from[CURVES], &views[CURVES], CURVES, 2, (Py_ssize_t[]){-1, DW_CURVES}) &&
           take(from[STATE_AFTER], &views[STATE_AFTER], STATE_AFTER, 3, (Py_ssize_t[]){DW_STATES, nodes, lanes}) &&
           take(from[TIGHTNESS_AFTER], &views[TIGHTNESS_AFTER], TIGHTNESS_AFTER, 1, (Py_ssize_t[]){lanes}) &&
           take(from[TOOK], &views[TOOK], TOOK, 1, (Py_ssize_t[]){lanes}) &&
           take(from[ROWS], &views[ROWS], ROWS, 3, (Py_ssize_t[]){samples, DW_ROW, lanes}) &&
           (from[SNAPSHOTS] == Py_None || take(from[SNAPSHOTS], &views[SNAPSHOTS], SNAPSHOTS, 4,
                                               (Py_ssize_t[]){samples, DW_STATES, nodes, lanes}));
}

static dw_block block_at(const Py_buffer *views, Py_ssize_t first, Py_ssize_t lanes) {
    double *snapshots = views[SNAPSHOTS].obj ? (double *)views[SNAPSHOTS].buf + first : NULL;
    dw_block block = {
        .inputs = (const double *)views[INPUTS].buf + first,
        .state = (const double *)views[STATE].buf + first,
        .tightness = (const double *)views[TIGHTNESS].buf + first,
        .state_after = (double *)views[STATE_AFTER].buf + first,
        .tightness_after = (double *)views[TIGHTNESS_AFTER].buf + first,
        .took = (double *)views[TOOK].buf + first,
        .rows = (double *)views[ROWS].buf + first,
        .snapshots = snapshots,
        .stride = lanes,
        .count = (int)(lanes - first < DW_LANES ? lanes - first : DW_LANES),
    };
    return block;
}

/* Run the blocks from `first` lane up to `end` without the interpreter's lock. */
static int run(const dw_plan *plan, const Py_buffer *views, Py_ssize_t first, Py_ssize_t end) {
    const Py_ssize_t lanes = views[STATE].shape[2];
    const size_t size = (size_t)DW_WORK * (size_t)plan->nodes * DW_LANES * sizeof(double);
    const size_t table_size = (size_t)DW_TABLE * (size_t)plan->curve_rows * sizeof(double);
    char *memory = malloc(size + table_size + 64);
    if (!memory) {
        PyErr_NoMemory();
        return 0;
    }
    double *work = (double *)(memory + (64 - (uintptr_t)memory % 64) % 64);
    double *table = work + size / sizeof(double);
    Py_BEGIN_ALLOW_THREADS
    dw_tabulate(plan, table);
    for (Py_ssize_t lane = first; lane < end; lane += DW_LANES) {
        dw_block block = block_at(views, lane, lanes);
        dw_wait(plan, &block, table, work);
    }
    Py_END_ALLOW_THREADS
    free(memory);
    return 1;
}

static int plan_fits(const dw_plan *plan, const Py_buffer *views, Py_ssize_t first, Py_ssize_t end) {
    const Py_ssize_t lanes = views[STATE].shape[2];
    int fits = plan->shape >= DW_BALL && plan->shape <= DW_TIN && plan->stop >= DW_NEVER && plan->stop <= DW_RISE &&
               plan->curve_rows >= 2 && plan->first > 0.0 && plan->growth > 1.0 && plan->longest > 0.0 &&
               plan->slowest > 0.0 && plan->share > 0.0 && first >= 0 && first % DW_LANES == 0 && end <= lanes;
    if (!fits) PyErr_SetString(PyExc_ValueError, "the plan of the wait is out of its bounds");
    return fits;
}

PyDoc_STRVAR(wait_doc,
             "wait(arrays, (shape, stop), (growth_minimum, growth_maximum), (first, growth, longest, settling, "
             "slowest, share), (first lane, end lane))\n\nRun the blocks of lanes from the first up to the end.");

static PyObject *wait_blocks(PyObject *Py_UNUSED(module), PyObject *arguments) {
    PyObject *from[ARRAYS];
    Py_buffer views[ARRAYS];
    Py_ssize_t first, end;
    dw_plan plan;
    if (!PyArg_ParseTuple(arguments, "(OOOOOOOOOO)(ii)(dd)(dddddd)(nn)", &from[0], &from[1], &from[2], &from[3],
                          &from[4], &from[5], &from[6], &from[7], &from[8], &from[9], &plan.shape, &plan.stop,
                          &plan.growth_minimum, &plan.growth_maximum, &plan.first, &plan.growth, &plan.longest,
                          &plan.settling, &plan.slowest, &plan.share, &first, &end))
        return NULL;
    for (int i = 0; i < ARRAYS; i++) views[i].obj = NULL;
    int well = take_all(from, views);
    if (well) {
        plan.nodes = (int)views[STATE].shape[1];
        plan.samples = (int)views[FRACTIONS].shape[0];
        plan.curve_rows = (int)views[CURVES].shape[0];
        plan.curves = views[CURVES].buf;
        plan.fractions = views[FRACTIONS].buf;
        well = plan_fits(&plan, views, first, end) && run(&plan, views, first, end);
    }
    for (int i = 0; i < ARRAYS; i++)
        if (views[i].obj) PyBuffer_Release(&views[i]);
    if (!well) return NULL;
    Py_RETURN_NONE;
}

static PyMethodDef methods[] = {
    {"wait", wait_blocks, METH_VARARGS, wait_doc},
    {"bake", dw_bake_blocks, METH_VARARGS, DW_BAKE_DOC},
    {NULL, NULL, 0, NULL},
};

static struct PyModuleDef module = {
    PyModuleDef_HEAD_INIT, "_core", "The compiled loops of the days and of the oven.", 0, methods, NULL, NULL, NULL, NULL,
};

PyMODINIT_FUNC PyInit__core(void) {
    PyObject *made = PyModule_Create(&module);
    if (made && (PyModule_AddIntConstant(made, "LANES", DW_LANES) < 0 ||
                 PyModule_AddIntConstant(made, "BAKE_LANES", DW_BAKE_LANES) < 0)) {
        Py_DECREF(made);
        return NULL;
    }
    return made;
}
