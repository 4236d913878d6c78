"""Pure functions of what dough does, one file a phenomenon: no files, no clock, no randomness."""
