"""The part of a problem around what may move: a problem of its own, with few tasks.

What does not move is there only as far as it shares a station, a vessel or a wait with what does, as constants;
its hands are times at which its cooks are away. So its size does not hang on the size of the feast.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property

from core.arrange.claims import Key, slots_for
from core.arrange.problem import Begun, Bound, Problem, Slot, Stretch, Task, Waiting, Way
from core.arrange.reflow_choice import few_slots
from core.arrange.reflow_rings import Rings
from core.arrange.reflow_seen import Seen, Session, Thing, owners, slots_of
from core.arrange.tighten import tighten
from core.plan.calendar import merged
from core.plan.ids import CookId, StationId, VesselId
from core.plan.kitchen import HEATED, StationKind
from core.plan.meaning import keep_of, longer_by
from core.plan.runs import Run
from core.plan.step import Holding, Use
from core.timetable.timetable import Heating, Timetable, Washing

_CHORES = 600  # minutes before and after what moves in which ovens may be switched on for it, and vessels washed
_FOR_EVER = 7 * 24 * 60  # minutes after all is over
_HEATING = 120  # minutes before a bake in which its heating may lie


@dataclass(frozen=True, slots=True)
class Part:
    """A small problem. `whole` says which task of the whole each of its tasks is, `moving` (of the whole) which move.

    `heatings` and `washings` are those seen that stay as they are; all others are worked out anew with the part.
    """

    problem: Problem
    whole: tuple[int, ...]
    moving: frozenset[int]
    heatings: tuple[Heating, ...]
    washings: tuple[Washing, ...]


def cut(seen: Seen, moving: set[int], window: int, aims: dict[int, int] | None = None) -> Part | None:
    """Return the part in which some tasks may move, by `window` minutes more than pins and `aims` are away.

    Pinned tasks go to their pins. None: their waits contradict each other when all else stays.
    """
    return _Cutting(seen, moving, window, aims or {}).part()


def alone(seen: Seen, moving: set[int]) -> Part | None:
    """Return the part of tasks with all that hangs on them in an otherwise empty kitchen, all of them free.

    Where it has no solution the whole has none. None: the waits alone say so.
    """
    component, last = set(moving), set(moving)
    while last:
        arcs = [arc for index in last for arc in seen.arcs.get(index, ())]
        waits = [seen.problem.waits[number] for index in last for number in seen.waits.get(index, ())]
        linked = {index for arc in arcs for index in (arc.before, arc.after)}
        linked |= {index for wait in waits for index in owners(wait)}
        linked |= {
            load for index in last | linked for load in seen.problem.loads[seen.problem.tasks[index].step.id]
        }
        last = linked - component
        component |= last
    return _Cutting(Seen(seen.problem, seen.book.facts, Timetable()), component, None, {}).part()


class _Cutting:
    def __init__(self, seen: Seen, moving: set[int], window: int | None, aims: dict[int, int]) -> None:
        self.seen, self.problem, self.window, self.aims = seen, seen.problem, window, aims
        self.near = {**seen.starts, **aims, **_pinned(seen.problem)}
        loads = [self.problem.loads[self.problem.tasks[index].step.id] for index in moving]
        self.moving = {index for each in loads for index in each}
        self.waits = sorted({number for index in self.moving for number in seen.waits.get(index, ())})
        self.members = set(self.moving)
        for index in self.moving:
            for arc in seen.arcs.get(index, ()):
                self.members |= {arc.before, arc.after}
        for number in self.waits:
            self.members |= set(owners(self.problem.waits[number]))
        self.uses: dict[int, list[Thing]] = {}
        self.held_waits: dict[int, Thing] = {}
        self.sessions: list[Session] = []
        self.rings = Rings(self.problem)
        self.washed = {
            (each.vessel, each.after): each.end
            for each in seen.timetable.washings
        }
        self.chosen: dict[Key, tuple[Slot, ...]] = {}

    def part(self) -> Part | None:
        bare = self._assembled()
        low, high = tighten(bare, self.problem.high)
        if any(least > most for least, most in zip(low, high, strict=True)):
            return None
        order = sorted(self.members)
        earliest = dict(zip(order, low, strict=True))
        latest = dict(zip(order, high, strict=True))
        spans = self._spans(earliest, latest)
        self._share_stations(spans)
        vessels = self._share_vessels(earliest, latest)
        heatings = tuple(each for each in self.seen.timetable.heatings if self._stays_on(each, spans))
        runs = {(run.vessel, run.steps[0]) for some in vessels.values() for run in some if self._moves(run)}
        washings = tuple(each for each in self.seen.timetable.washings if (each.vessel, each.after) not in runs)
        problem = self._assembled()
        problem.runs = tuple(run for some in vessels.values() for run in some)
        problem.lit = tuple(each for each in self.problem.lit if each.station in spans)
        problem.washed = tuple(each for each in self.problem.washed if each.vessel in vessels)
        problem.away = self._away(heatings, washings, _hull(self.moving, earliest, latest))
        return Part(problem, tuple(sorted(self.members)), frozenset(self.moving), heatings, washings)

    def _moves(self, run: Run) -> bool:
        return any(index in self.moving for step in run.steps for index in self.problem.loads.get(step, ()))

    def _spans(self, earliest: dict[int, int], latest: dict[int, int]) -> dict[StationId, list[Stretch]]:
        """Return from when to when something that moves may be on each station."""
        spans: dict[StationId, list[Stretch]] = {}
        kitchen = self.problem.plan.kitchen
        for index in sorted(self.moving):
            task = self.problem.tasks[index]
            at = self.near.get(index, earliest[index])
            for way in task.ways:
                for number, use in enumerate(way.uses):
                    key = (index, None, way.number, number)
                    slots = self._choice(key, use, (at, at + way.longest))
                    for station in dict.fromkeys(station for station, _shelf in slots):
                        spans.setdefault(station, []).append((earliest[index], latest[index] + task.longest))
        for number in self.waits:
            wait = self.problem.waits[number]
            if wait.use is not None:
                until = wait.until if wait.after is None else latest[wait.after]
                begins = self.near.get(wait.before, earliest[wait.before])
                ends = wait.until if wait.after is None else self.near.get(wait.after, until)
                slots = self._choice((None, number, 0, 0), wait.use, (begins, ends))
                for station in dict.fromkeys(station for station, _shelf in slots):
                    spans.setdefault(station, []).append((earliest[wait.before], until))
        for one, other in kitchen.apart:
            both = [*spans.get(one.id, ()), *spans.get(other.id, ())]
            if both:
                spans[one.id] = spans[other.id] = both
        return spans

    def _choice(self, key: Key, use: Use, span: Stretch) -> tuple[Slot, ...]:
        """Return where a use of something that moves may stand."""
        slots = slots_for(self.problem, use)
        few = None if self.window is None else few_slots(self.seen, key, use, slots, span)
        if few is None:
            return slots
        self.chosen[key] = few
        return few

    def _share_stations(self, spans: dict[StationId, list[Stretch]]) -> None:
        """Take along what stands where something that moves may come."""
        kitchen = self.problem.plan.kitchen
        for name, some in spans.items():
            station = kitchen.station[name]
            if station.kind is StationKind.ROOM and station.units == 0 and not station.shelves:
                continue  # as much as one likes
            there = list(self.seen.things.get(name, ()))
            if not station.is_fire:
                there = [each for each in there if _meets(some, each.start, each.end)]
            if station.heater is not None and station.kind in HEATED:
                about = station.heater.keep_on + _HEATING
                wide = [(start - about, end + about) for start, end in some]
                near = [each for each in self.seen.sessions[name] if _meets(wide, each.start, each.end)]
                self.sessions += near
                there = list(dict.fromkeys([*there, *(thing for each in near for thing in each.things)]))
            for thing in there:
                self._take(thing)

    def _take(self, thing: Thing) -> None:
        now = self.problem.now
        if now is not None and thing.end <= now:
            return
        if thing.wait is not None:
            if thing.wait not in self.held_waits and thing.wait not in self.waits:
                self.held_waits[thing.wait] = thing
                self.members |= set(owners(self.problem.waits[thing.wait]))
        elif thing.task is not None and thing.task not in self.moving:
            self.members.add(thing.task)
            own = self.uses.setdefault(thing.task, [])
            if thing not in own:
                own.append(thing)

    def _share_vessels(self, earliest: dict[int, int], latest: dict[int, int]) -> dict[VesselId, list[Run]]:
        """Take along the runs that want a vessel that something that moves wants; return all these runs."""
        steps = {self.problem.tasks[index].step.id for index in self.moving}
        wanted: dict[VesselId, list[Run]] = {}
        for run in self.problem.runs:
            if not steps.isdisjoint(run.steps):
                wanted.setdefault(run.vessel, []).append(run)
        found: dict[VesselId, list[Run]] = {}
        for vessel, own in wanted.items():
            spans = [self._span_of(run, earliest, latest) for run in own]
            for run in self.problem.runs:
                if run.vessel != vessel:
                    continue
                if run in own or (self.window is not None and self._wanted(run, spans)):
                    found.setdefault(vessel, []).append(run)
                    self.members |= {index for step in run.steps for index in self.problem.loads.get(step, ())}
        return found

    def _wanted(self, run: Run, spans: list[Stretch]) -> bool:
        """Tell whether a run that does not move may want its vessels while one that moves does."""
        return self.problem.now is not None or _meets(spans, *self._span_of(run, {}, {}))

    def _span_of(self, run: Run, earliest: dict[int, int], latest: dict[int, int]) -> Stretch:
        """Return from when to when a run may hold its vessels."""
        starts, ends = [], []
        for step in run.steps:
            for index in self.problem.loads.get(step, ()):
                if index in self.moving:
                    starts.append(earliest.get(index, self.problem.low))
                    ends.append(latest.get(index, self.problem.high) + self.problem.tasks[index].longest)
                else:
                    placed = self.seen.placed(index)
                    starts.append(placed.start)
                    ends.append(placed.end)
            keep = keep_of(self.problem.plan, self.problem.plan.steps[step])
            if keep is not None and keep.wait.how is Holding.VESSEL:
                ends.append(self.problem.plan.dish_of[step].course)
        if not starts:
            return 0, 0
        if self.problem.plan.kitchen.vessel[run.vessel].washing:  # held until it is washed, perhaps for ever
            washed = None if self._moves(run) else self.washed.get((run.vessel, run.steps[0]))
            ends.append(self.problem.high + _FOR_EVER if washed is None else washed)
        return min(starts), max(ends)

    def _stays_on(self, heating: Heating, spans: dict[StationId, list[Stretch]]) -> bool:
        """Tell whether a heating stays as it is: nothing that moves has to do with it."""
        if heating.station not in spans:
            return True
        station = self.problem.plan.kitchen.station[heating.station]
        if station.is_fire or station.heater is None or not station.heater.from_cold:
            return False
        session = self.seen.session_of(heating)
        return session is not None and session not in self.sessions

    def _away(
        self, heatings: tuple[Heating, ...], washings: tuple[Washing, ...], hull: Stretch
    ) -> dict[CookId, tuple[Stretch, ...]]:
        """Return when cooks are away or at something that stays as it is; far from what moves nobody is wanted."""
        busy: dict[CookId, list[Stretch]] = {cook: list(some) for cook, some in self.problem.away.items()}
        at = [*self.seen.busy(self.moving), *(each for one in heatings for each in self.seen.switching(one))]
        at += [
            (each.cook, (each.start, each.end))
            for each in washings
            if each.cook is not None and self.problem.plan.kitchen.vessel[each.vessel].by_hand
        ]
        for cook, stretch in at:
            if cook in busy:
                busy[cook].append(stretch)
        low, high = self.problem.low - 24 * 60, self.problem.high + 24 * 60
        far = [(low, hull[0] - _CHORES), (hull[1] + _CHORES, high)] if self.window is not None else []
        return {cook: merged([*some, *far], low, high) for cook, some in busy.items()}

    @cached_property
    def _furthest(self) -> int:
        """Minutes by which pins and aims are away from where their tasks were."""
        at, goals = self.seen.starts, dict(self.aims)
        for index, fixed in self.problem.fixed.items():
            if fixed.start is not None:
                goals[index] = fixed.start
        by = [abs(goals[index] - at[index]) for index in self.moving if index in at and index in goals]
        return max(by, default=0)

    def _assembled(self) -> Problem:
        """Return the part as it is gathered so far, without vessels."""
        whole = self.problem
        order = sorted(self.members)
        new = {index: number for number, index in enumerate(order)}
        part = Problem(whole.plan, whole.low, whole.high, now=whole.now)
        for number, index in enumerate(order):
            task = self._task(index, number, part)
            part.tasks.append(task)
            part.index[task.key] = number
            part.loads.setdefault(task.step.id, []).append(number)
            if index in whole.stood:
                part.stood[number] = whole.stood[index]
            if index in self.moving:
                if index in whole.fixed:
                    part.fixed[number] = replace(whole.fixed[index], task=number)
                self._bind(part, index, number)
            elif task.begun is not None:
                part.bounds.append(Bound(number, False, low=task.begun.start, high=task.begun.start))
        part.bounds += [
            replace(bound, task=new[bound.task]) for bound in whole.bounds if bound.task in self.moving
        ]
        part.arcs = [
            replace(
                arc,
                before=new[arc.before],
                after=new[arc.after],
                early=None if arc.early is None else new[arc.early],
            )
            for arc in dict.fromkeys(arc for index in sorted(self.moving) for arc in self.seen.arcs.get(index, ()))
        ]
        for number in sorted([*self.waits, *self.held_waits]):
            if (None, number, 0, 0) in self.chosen:
                part.kept_slots[None, len(part.waits), 0, 0] = self.chosen[None, number, 0, 0]
            self._wait(part, number, new)
        for (owner, _wait, way, use), slots in self.chosen.items():
            if owner is not None:
                part.kept_slots[new[owner], None, way, use] = slots
        return part

    def _bind(self, part: Problem, index: int, number: int) -> None:
        """Keep a task that moves near where it was, unless it is pinned."""
        at, task = self.seen.starts.get(index), self.problem.tasks[index]
        fixed = self.problem.fixed.get(index)
        if at is None or self.window is None or task.fact or (fixed is not None and fixed.start is not None):
            return
        far = self.window + self._furthest
        part.bounds.append(Bound(number, False, low=at - far, high=at + far))
        if task.cuts > 1:
            part.bounds.append(Bound(number, True, high=self.seen.placed(index).end + far))

    def _wait(self, part: Problem, number: int, new: dict[int, int]) -> None:
        wait: Waiting = self.problem.waits[number]
        after = None if wait.after is None else new[wait.after]
        thing = self.held_waits.get(number)
        if thing is not None:
            slots = self._slots([thing])
            if slots is not None:
                part.kept_slots[None, len(part.waits), 0, 0] = slots
            setting = self._setting(wait)
            if setting is not None:
                part.kept_settings[len(part.waits)] = setting
        part.waits.append(replace(wait, before=new[wait.before], after=after))

    def _setting(self, wait: Waiting) -> int | None:
        tasks = self.problem.tasks
        before = tasks[wait.before]
        after = None if wait.after is None else tasks[wait.after].step.id
        for stay in self.seen.timetable.stays:
            if (stay.before, stay.load, stay.after) == (before.step.id, before.load, after):
                return stay.setting
        return None

    def _task(self, index: int, number: int, part: Problem) -> Task:
        task = self.problem.tasks[index]
        if index in self.moving:
            return replace(
                task, index=number, pieces=tuple(replace(piece, task=number) for piece in task.pieces)
            )
        placed = self.seen.placed(index)
        things = self.uses.get(index, [])
        way = next((each for each in task.ways if each.number == placed.way), task.ways[0])
        for each, thing in enumerate(things):
            slots = self._slots([thing])
            if slots is not None:
                part.kept_slots[number, None, way.number, each] = slots
        settings = () if placed.setting is None else ((placed.setting, placed.length),)
        kept = Way(way.number, placed.length, way.early, tuple(thing.use for thing in things), settings)
        begun, fuller = task.begun, task.fuller if things else ()
        if begun is None:
            usual = next((minutes for celsius, minutes in way.settings if celsius == placed.setting), way.length)
            full = next((each for each in fuller if longer_by(usual, each) == placed.length != usual), 0)
            begun = Begun(placed.start, placed.end, fact=False, full=full)
        return replace(task, index=number, ways=(kept,), pieces=(), cuts=1, fuller=fuller, begun=begun)

    def _slots(self, things: list[Thing]) -> tuple[Slot, ...] | None:
        """Return the slots of a thing; None where they are not known or need not be."""
        found: list[Slot] = []
        for thing in things:
            for name in dict.fromkeys(spot.station for spot in thing.spots):
                station = self.problem.plan.kitchen.station[name]
                if station.kind is StationKind.BURNER and station.units > 1:
                    slots = self.rings.of(station, self.seen.things[name], thing)
                else:
                    slots = slots_of(station, thing.spots)
                if slots is None:
                    return None
                found += slots
        return tuple(found)


def _pinned(problem: Problem) -> dict[int, int]:
    return {index: fixed.start for index, fixed in problem.fixed.items() if fixed.start is not None}


def _hull(moving: set[int], earliest: dict[int, int], latest: dict[int, int]) -> Stretch:
    """Return from when to when anything that moves may begin."""
    return min(earliest[index] for index in moving), max(latest[index] for index in moving)


def _meets(stretches: list[Stretch], start: int, end: int) -> bool:
    return any(begins < end and start < ends for begins, ends in stretches)
