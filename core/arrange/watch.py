"""When to stop: a budget of deterministic work, a wall-clock guard, and a stop that is never lost."""

from __future__ import annotations

import time
from threading import Event, Thread

from core.arrange.effort import Effort
from core.arrange.solver import cp_model

_OVERHEAD = 0.005  # work counted for each call beside the solver's own, so that many small ones end too
_EACH = 3e-5  # and for each constraint: building and preparing a model takes time that the solver does not count
_SECONDS = 7.0  # seconds that a unit of the solver's deterministic time took here, measured on the demo feast


class Watch:
    """Counts work and runs the solver so that `stop` is answered within a few hundredths of a second.

    A stop that reaches the solver before it begins is lost there, so a small thread asks the flag again.
    """

    def __init__(self, effort: Effort, stop: Event | None) -> None:
        self.effort = effort
        self.stop = stop or Event()
        self.work = 0.0
        self.rounds = 0
        self._budget = effort.work
        self._ends = None if effort.limit is None else time.monotonic() + effort.limit

    @property
    def left(self) -> float:
        """Return the work that is left."""
        return 0.0 if self.over else self._budget - self.work

    @property
    def over(self) -> bool:
        """Tell whether to stop now."""
        late = self._ends is not None and time.monotonic() > self._ends
        return self.stop.is_set() or late or self.work >= self._budget

    def more(self, work: float) -> None:
        """Allow at least so much more work, within the clock's limit."""
        self._budget = max(self._budget, self.work + work)

    def solve(
        self,
        model: cp_model.CpModel,
        work: float,
        *,
        presolve: bool = True,
        light: bool = False,
        strong: bool = False,
        improving: bool = False,
        fixed_search: bool = False,
        first: bool = False,
    ) -> tuple[cp_model.CpSolver, cp_model.CpSolverStatus]:
        """Solve with one worker and a deterministic limit; return solver and status.

        `light`: presolve once and without probing, for models in which little is free: there the solver's own
        preparation takes several times as long as its search. `improving`: with a relaxation, which a sum of waits
        needs to get down by more than a minute at a time.

        `strong`: reason about who can follow whom on what holds one at a time; it proves in a tenth of the work
        what is impossible there, and costs more in models that have little of it. `first`: any answer will do, so stop
        at the first.
        """
        solver = cp_model.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.random_seed = (self.effort.seed * 7919 + self.rounds) % (2**31 - 1)
        solver.parameters.max_deterministic_time = max(
            0.0005, min(work, self._budget - self.work) / _SECONDS
        )
        solver.parameters.cp_model_presolve = presolve
        solver.parameters.symmetry_level = 0
        if light:
            solver.parameters.cp_model_probing_level = 0
            solver.parameters.max_presolve_iterations = 1
            solver.parameters.linearization_level = 1 if improving else 0
        if strong:
            solver.parameters.use_strong_propagation_in_disjunctive = True
            solver.parameters.use_dynamic_precedence_in_disjunctive = True
        if fixed_search:
            solver.parameters.search_branching = cp_model.FIXED_SEARCH
        if self._ends is not None:
            solver.parameters.max_time_in_seconds = max(0.01, self._ends - time.monotonic())
        self.rounds += 1
        done = Event()
        guard = Thread(target=self._pass_on_stop, args=(solver, done), daemon=True)
        guard.start()
        try:
            status = solver.solve(model, _Enough() if first else None)
        finally:
            done.set()
            guard.join()
        self.work += solver.deterministic_time * _SECONDS + _OVERHEAD + _EACH * len(model.proto.constraints)
        return solver, status

    def _pass_on_stop(self, solver: cp_model.CpSolver, done: Event) -> None:
        while not done.wait(0.02):
            if self.stop.is_set():
                solver.stop_search()


class _Enough(cp_model.CpSolverSolutionCallback):
    """Ends a search at its first answer."""

    def on_solution_callback(self) -> None:
        """Hear an answer."""
        self.stop_search()
