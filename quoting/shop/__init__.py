"""The shop's own book: machines, materials, rates, stock rack and working time."""
