/* The oven's function of the extension module. */
#ifndef DOUGHWRIGHT_BAKE_BINDING_H
#define DOUGHWRIGHT_BAKE_BINDING_H

#define DW_BAKE_DOC                                                                                        \
    "bake(arrays, kinds, lifted, (first, growth, longest), (first lane, end lane))\n\nRun the blocks of " \
    "lanes from the first up to the end."

PyObject *dw_bake_blocks(PyObject *module, PyObject *arguments);

#endif
