"""Why not: which of the cook's wishes stand in each other's way, and in which minutes.

First the proofs that need no search and show their sum (chains, crowds, work, shelves, heats, fires), each in a file
of its own; then the solver's word, made as small as can be and asked again before it is told. Values are in `reason`,
their sentences in core.arrange.speak.why.
"""
