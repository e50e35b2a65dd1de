"""Worked examples computed a second time with independent libraries: pint, scipy, numpy, fluids, and plain datetime."""
