"""Arrange a plan: the public entry. Pure and blocking; callers run it off their own thread."""

from __future__ import annotations

from collections.abc import Callable
from threading import Event

from core.arrange.claims import loaded_kinds
from core.arrange.effort import Effort
from core.arrange.facts import with_facts
from core.arrange.found import Found
from core.arrange.model import Model, build
from core.arrange.naming import NobodyLeft
from core.arrange.outcome import Fit, Outcome, WishReached
from core.arrange.problem import Problem
from core.arrange.put_back import put_back
from core.arrange.reading import read
from core.arrange.search import Make, first_found, improve
from core.arrange.search_large import Large
from core.arrange.search_parts import LARGE
from core.arrange.settle import settle
from core.arrange.watch import Watch
from core.plan.day import Day
from core.plan.kitchen import StationKind
from core.plan.plan import Plan
from core.timetable.as_planned import with_seen
from core.timetable.clashes import clashes
from core.timetable.on_paper import on_paper
from core.timetable.timetable import Timetable

_PROOF = 2.0  # work for the proof that a large feast cannot be, beside what the search may take

Hear = Callable[[Outcome], None]


def arrange(
    plan: Plan,
    effort: Effort | None = None,
    *,
    seen: Timetable | None = None,
    day: Day | None = None,
    better: Hear | None = None,
    stop: Event | None = None,
) -> Outcome:
    """Place every unpinned step so that all meets; `better` hears each better timetable as it is found.

    `seen` is the timetable before the cook: what moves away from it costs (the wish to keep). Runs until the
    effort is spent, the best is proven or `stop` is set; what was found so far is always kept. `day`: what has
    happened stands, the rest is placed from now on; what `seen` has switched on, lit or washed by now has been, if
    the day does not say otherwise. Any thread.
    """
    return _Arranging(plan, effort or Effort(), seen, day, better, stop).run()


class _Arranging:
    """One request being worked on."""

    def __init__(
        self,
        plan: Plan,
        effort: Effort,
        seen: Timetable | None,
        day: Day | None,
        better: Hear | None,
        stop: Event | None,
    ) -> None:
        self.plan = plan
        self.day = day if day is None or seen is None else with_seen(day, seen)
        self.watch = Watch(effort, stop)
        self.better = better
        self.stood = seen
        self.problem: Problem = read(plan, self.day, seen)
        self.seen = None if seen is None else self.problem.starts_in(seen)
        self.named: frozenset[str] = frozenset()
        self.best: Outcome | None = None
        self.best_found: Found | None = None

    def run(self) -> Outcome:
        """Return the outcome of the whole search."""
        outcome, impossible = self._hard()
        if outcome is not None:
            return outcome
        fit = Fit.IMPOSSIBLE if impossible else Fit.NOT_FOUND
        self.best = None
        outcome, _impossible = self._with_limits(giving=True)
        if outcome is None:
            counted_back = with_facts(on_paper(self.plan), self.day, self.stood)
            left = clashes(self.plan, counted_back, day=self.day)
            fit = fit if left else Fit.MEETS
            return Outcome(
                fit, counted_back, left, stopped=self.watch.stop.is_set(), rounds=self.watch.rounds
            )
        # limits that could give did not have to: what was not found before has been found now
        return _as(outcome, fit if outcome.clashes else Fit.MEETS)

    def _hard(self) -> tuple[Outcome | None, bool]:
        """Search with hard limits, a large feast in parts; return the best outcome and whether there can be none."""
        if len(self.problem.tasks) < LARGE:
            return self._with_limits(giving=False)
        large = Large(self.problem, self.seen, self.watch, lambda solved: self._hear(*solved))
        hopeless = large.run()
        if self.best is None and self.watch.stop.is_set():
            return None, False
        if self.best is None or (hopeless and self.best.clashes and not self.watch.stop.is_set()):
            return self._proven()
        fit = Fit.MEETS if not self.best.clashes else Fit.NOT_FOUND
        return _as(
            self.best, fit, stopped=self.watch.stop.is_set(), rounds=self.watch.rounds
        ), False

    def _proven(self) -> tuple[Outcome | None, bool]:
        """Ask of the whole, after parts led nowhere, whether it can be at all."""
        best, self.best = self.best, None
        self.watch.more(_PROOF)
        model = build(self.problem, seen=self.seen)
        impossible = model is None or first_found(model, self.watch)[1]
        self.best = best
        if best is None:
            return None, impossible
        fit = Fit.IMPOSSIBLE if impossible else Fit.NOT_FOUND
        return _as(best, fit, stopped=self.watch.stop.is_set(), rounds=self.watch.rounds), impossible

    def _with_limits(self, *, giving: bool) -> tuple[Outcome | None, bool]:
        """Search with limits hard (or giving); return the best outcome and whether there can be none."""
        near: tuple[int, ...] | None = None
        explicit: frozenset[StationKind] = frozenset()
        walking = True
        while True:
            model = build(
                self.problem, giving=giving, seen=self.seen, named=self.named, explicit=explicit, walking=walking
            )
            if model is None:
                return None, True
            found, impossible = first_found(model, self.watch, near)
            if found is None and impossible and loaded_kinds(self.problem) & model.standing.pools:
                explicit = loaded_kinds(self.problem)
                continue
            if found is None and impossible and model.hands.walking:
                walking = False  # it asked for more than it must
                continue
            if found is None:
                return self.best, impossible and self.best is None
            try:
                return self._improved(model, found, exact=not model.hands.walking), False
            except NobodyLeft as trouble:
                if trouble.keys <= self.named:
                    return self.best, False
                self.named |= trouble.keys
                near = self.best_found.starts if self.best_found is not None else None

    def _improved(self, model: Model, found: Found, *, exact: bool) -> Outcome | None:
        self._hear(model, found)
        found, proven = improve(model, found, self.watch, self._hear, self._make(model))
        if self.best is None:
            return None
        bound = self.best.score if proven and exact else None
        return _as(
            self.best, self.best.fit, bound=bound, stopped=self.watch.stop.is_set(), rounds=self.watch.rounds
        )

    def _make(self, model: Model) -> Make | None:
        """Return what builds a part as a model was built; None where limits may give."""
        if model.board.giving:
            return None
        named, explicit, walking = self.named, model.explicit, model.hands.walking
        return lambda part: build(part, seen=self.seen, named=named, explicit=explicit, walking=walking)

    def _hear(self, model: Model, found: Found) -> None:
        self.best_found = found
        timetable = settle(model, found)
        if model.board.giving:
            timetable = put_back(self.problem, timetable)
        found_clashes = clashes(self.plan, timetable, day=self.day)
        wishes = tuple(WishReached(wish, value) for wish, value in found.parts.items())
        fit = Fit.MEETS if not found_clashes else Fit.NOT_FOUND
        outcome = Outcome(fit, timetable, found_clashes, found.score, None, wishes, rounds=self.watch.rounds)
        if self.best is None or _rank(outcome) < _rank(self.best):
            self.best = outcome
            if self.better is not None:
                self.better(outcome)


def _rank(outcome: Outcome) -> tuple[bool, int]:
    """Return what orders outcomes: clash-free ones first, then by score."""
    return bool(outcome.clashes), outcome.score


def _as(
    outcome: Outcome,
    fit: Fit,
    *,
    bound: int | None = None,
    stopped: bool | None = None,
    rounds: int | None = None,
) -> Outcome:
    return Outcome(
        fit,
        outcome.timetable,
        outcome.clashes,
        outcome.score,
        outcome.bound if bound is None else bound,
        outcome.wishes,
        outcome.stopped if stopped is None else stopped,
        outcome.rounds if rounds is None else rounds,
    )
