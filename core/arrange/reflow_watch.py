"""Solves small models for the first answer, not the best: stops as soon as something is found."""

from __future__ import annotations

import time
from threading import Event, Thread

from ortools.sat.python import cp_model

from core.arrange.watch import Watch

_SECONDS = 7.0  # as core.arrange.watch counts work
_OVERHEAD = 0.005  # work counted for each call beside the solver's own


class FirstWatch(Watch):
    """A watch that can also ask for the first answer."""

    def first(
        self, model: cp_model.CpModel, work: float, *, presolve: bool = True
    ) -> tuple[cp_model.CpSolver, cp_model.CpSolverStatus]:
        """Solve until something is found, with a deterministic limit; return solver and status.

        Presolve, if any, is light: with all of it preparing would take longer than the search.
        """
        solver = cp_model.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.random_seed = (self.effort.seed * 7919 + self.rounds) % (2**31 - 1)
        solver.parameters.max_deterministic_time = max(0.0005, min(work, self.left) / _SECONDS)
        solver.parameters.cp_model_presolve = presolve
        solver.parameters.cp_model_probing_level = 0
        solver.parameters.max_presolve_iterations = 1
        solver.parameters.symmetry_level = 0
        solver.parameters.linearization_level = 0
        if self._ends is not None:
            solver.parameters.max_time_in_seconds = max(0.01, self._ends - time.monotonic())
        self.rounds += 1
        done = Event()
        guard = Thread(target=self._pass_on_stop, args=(solver, done), daemon=True)
        guard.start()
        try:
            status = solver.solve(model, _Enough())
        finally:
            done.set()
            guard.join()
        self.work += solver.deterministic_time * _SECONDS + _OVERHEAD
        return solver, status


class _Enough(cp_model.CpSolverSolutionCallback):
    """Ends a search at its first answer."""

    def on_solution_callback(self) -> None:
        """Hear an answer."""
        self.stop_search()
