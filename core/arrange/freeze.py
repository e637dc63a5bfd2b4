"""A smaller problem around a solution: some tasks free, the others held where they are, some not there yet.

What is held is constant in the model, so that a part of a large feast costs little more than a small feast.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from core.arrange.found import Found
from core.arrange.model import Model
from core.arrange.problem import Begun, Bound, Problem, Task, Waiting, Way
from core.arrange.rules_heat import heat_up
from core.arrange.settle_places import crew_of, span_of
from core.arrange.solver import cp_model
from core.arrange.variables import Cold
from core.plan.ids import CookId, StationId
from core.plan.runs import Run

SOONER = 60  # minutes that the rules of heat let a heating begin before it must
_CREW = 30  # minutes about something free within which work may change crews
_HEATING = 120  # minutes before a bake in which its heating may lie


def frozen(model: Model, found: Found, free: set[int], absent: frozenset[int] = frozenset()) -> Problem:
    """Return the problem in which all but the free (and the absent) tasks are held as a solution has them."""
    whole = model.board.problem
    held = {task.index for task in whole.tasks} - free - absent
    tasks = [
        _held(model, found, task) if task.index in held else _inert(task) if task.index in absent else task
        for task in whole.tasks
    ]
    problem = replace_tasks(whole, tasks, absent)
    for index in held:
        start, end = found.starts[index], found.ends[index]
        problem.bounds.append(Bound(index, False, low=start, high=start))
        if whole.tasks[index].cuts > 1:
            problem.bounds.append(Bound(index, True, low=end, high=end))
    for claim, slots in zip(model.standing.claims, found.slots, strict=True):
        owners = [claim.task] if claim.task is not None else _owners(whole.waits[claim.waiting])
        if slots and all(owner in held for owner in owners):
            problem.kept_slots[claim.key] = slots
    for wait, setting in found.wait_settings.items():
        if all(owner in held for owner in _owners(whole.waits[wait])):
            problem.kept_settings[wait] = setting
    problem.kept_crews.update(_crews(model, found, free, held))
    return problem


def _crews(
    model: Model, found: Found, free: set[int], held: set[int]
) -> Iterator[tuple[str, tuple[CookId, ...]]]:
    """Return which crew does each labour of what is held, but for those about the time of work that is free."""
    spans = [
        (span[0] - _CREW, span[1] + _CREW)
        for labour, span in zip(model.hands.labours, found.labours, strict=True)
        if span is not None and labour.task in free
    ]
    for labour, span in zip(model.hands.labours, found.labours, strict=True):
        crew = crew_of(model, found, labour.key)
        if not crew or span is None or labour.task not in held:
            continue
        if not any(span[0] < until and since < span[1] for since, until in spans):
            yield labour.key, crew


def _owners(wait: Waiting) -> list[int]:
    return [wait.before] if wait.after is None else [wait.before, wait.after]


def replace_tasks(whole: Problem, tasks: list[Task], absent: frozenset[int]) -> Problem:
    """Return a problem with other tasks, without what binds the absent ones."""
    return replace(
        whole,
        tasks=tasks,
        arcs=[arc for arc in whole.arcs if arc.before not in absent and arc.after not in absent],
        bounds=[bound for bound in whole.bounds if bound.task not in absent],
        waits=[_without(wait) if absent.intersection(_owners(wait)) else wait for wait in whole.waits],
        absent=absent,
        kept_slots={},
        kept_settings={},
        kept_crews={},
    )


def without(whole: Problem, absent: frozenset[int]) -> Problem:
    """Return the problem without some tasks, all others free."""
    tasks = [_inert(task) if task.index in absent else task for task in whole.tasks]
    return replace_tasks(whole, tasks, absent)


def _without(wait: Waiting) -> Waiting:
    """Return a wait that asks for nothing, in its place."""
    return replace(wait, cost=0, use=None)


def _inert(task: Task) -> Task:
    """Return a task that takes no place and no hands."""
    return replace(
        task, ways=(Way(task.ways[0].number, task.length, 0, ()),), pieces=(), cuts=1, fuller=(), begun=None
    )


def _held(model: Model, found: Found, task: Task) -> Task:
    """Return a task held where it is, done as it is."""
    if task.fact or task.cuts > 1:
        return task
    index = task.index
    start, end = found.starts[index], found.ends[index]
    way = next(each for each in task.ways if each.number == found.ways[index])
    setting = found.settings[index]
    settings = tuple(each for each in way.settings if each[0] == setting)
    pieces = tuple(piece for piece in task.pieces if piece.way == way.number)
    longer = model.board.full.get(index, {}).items()
    full = max((percent for percent, literal in longer if found.values[literal.index]), default=0)
    begun = Begun(start, end, fact=False, full=full)
    kept = replace(way, settings=settings, instead=way is not task.ways[0])
    return replace(task, ways=(kept,), pieces=pieces, begun=begun)


def hint(part: Model, model: Model, found: Found, free: Iterable[int], new: Iterable[int] = ()) -> None:
    """Tell the part's model where the free tasks were, and hold the heatings and washings of what is held.

    `new` tasks are free too, but were nowhere yet.
    """
    free = set(free)
    tell(part, model, found, free)
    _hold_heatings(part, model, found, free)
    _hold_washings(part, model, found, free, set(new))


def tell(part: Model, model: Model, found: Found, free: set[int]) -> None:
    """Tell the part's model where the free tasks were."""
    whole = part.board.model
    for index in free:
        whole.add_hint(part.board.start[index], found.starts[index])
        for number, literal in part.board.way[index].items():
            if literal is not None:
                whole.add_hint(literal, int(number == found.ways[index]))
        for (number, celsius), pick in part.board.picks[index].items():
            whole.add_hint(pick, int((number, celsius) == (found.ways[index], found.settings[index])))
    slots = dict(zip((claim.key for claim in model.standing.claims), found.slots, strict=True))
    for claim, choice in zip(part.standing.claims, part.standing.slots, strict=True):
        taken = slots.get(claim.key)
        for slot, literal in choice.items():
            if taken is not None and literal is not None and len(choice) > 1:
                whole.add_hint(literal, int(slot in taken))
    _tell_heatings(part, model, found)
    _tell_washings(part, model, found)
    _tell_crews(part, model, found)
    _tell_settings(part, found)


def _tell_heatings(part: Model, model: Model, found: Found) -> None:
    """Tell the part's model which heatings there were; one it knows and the whole did not was none."""
    known = {(each.station, each.bake.owner): each for each in model.board.cold}
    for each in part.board.cold:
        old = known.get((each.station, each.bake.owner))
        part.board.model.add_hint(each.cold, 0 if old is None else found.values[old.cold.index])
        if old is not None:
            part.board.model.add_hint(each.start, found.values[old.start.index])


def _tell_washings(part: Model, model: Model, found: Found) -> None:
    known = {(wash.vessel.id, wash.run.steps[0]): wash for wash in model.washes}
    for wash in part.washes:
        old = known.get((wash.vessel.id, wash.run.steps[0]))
        if old is not None:
            part.board.model.add_hint(wash.done, found.values[old.done.index])
            part.board.model.add_hint(wash.free, found.values[old.free.index])


def _tell_crews(part: Model, model: Model, found: Found) -> None:
    for key, crew in part.hands.crews.items():
        old = crew_of(model, found, key)
        if old and isinstance(crew, dict):
            for number, literal in crew.items():
                part.board.model.add_hint(literal, int(part.hands.cooks[number] == old))


def _tell_settings(part: Model, found: Found) -> None:
    for wait, picks in part.board.wait_settings.items():
        setting = found.wait_settings.get(wait)
        for celsius, pick in picks.items():
            if setting is not None:
                part.board.model.add_hint(pick, int(celsius == setting))


def _hold_heatings(part: Model, model: Model, found: Found, free: set[int]) -> None:
    """Keep the heatings of sessions in which nothing is free and which nothing free can join or precede."""
    known = {(each.station, each.bake.owner): each for each in model.board.cold}
    quiet = _quiet_owners(model, found, free, _coming(part))
    for each in part.board.cold:
        old = known.get((each.station, each.bake.owner))
        if old is not None and each.bake.owner in quiet:
            _fix(part, each.cold, found.values[old.cold.index])
            if found.values[old.cold.index] and _reaches(part, each, found.values[old.start.index]):
                _fix(part, each.start, found.values[old.start.index])


def _reaches(part: Model, cold: Cold, start: int) -> bool:
    """Tell whether a heating from a start may last until its bake: less long where fewer settings are left."""
    heater = part.board.problem.plan.kitchen.station[cold.station].heater
    bake = cold.bake
    if heater is None or bake.task is None:
        return False
    longest = max(heat_up(heater, celsius) for celsius in bake.settings)
    return start >= part.board.latest[bake.task] - longest - SOONER


def _coming(part: Model) -> dict[StationId, list[tuple[int, int]]]:
    """Return from when to when what is free may be in each station, with the time for which it is kept on."""
    coming: dict[StationId, list[tuple[int, int]]] = {}
    for bake in part.board.bakes:
        if bake.held:
            continue
        for station in bake.present:
            heater = part.board.problem.plan.kitchen.station[station].heater
            about = heater.keep_on + _HEATING if heater is not None else 0
            coming.setdefault(station, []).append((bake.low - about, bake.high + about))
    return coming


def _quiet_owners(
    model: Model, found: Found, free: set[int], coming: dict[StationId, list[tuple[int, int]]]
) -> set[str]:
    """Return the owners of bakes in sessions in which everything is held and near which nothing free can be."""
    whole = model.board.problem
    by_station: dict[StationId, list[tuple[int, int, str, bool]]] = {}
    for claim, slots in zip(model.standing.claims, found.slots, strict=True):
        if claim.use.heat is None or not slots:
            continue
        owners = [claim.task] if claim.task is not None else _owners(whole.waits[claim.waiting])
        start, end = span_of(model, found, claim)
        moving = any(owner in free or owner in whole.absent for owner in owners)
        for station, _shelf in slots:
            by_station.setdefault(station, []).append((start, end, claim.name, moving))
    quiet: set[str] = set()
    for station, bakes in by_station.items():
        heater = whole.plan.kitchen.station[station].heater
        pause = heater.keep_on if heater is not None else 0
        session: list[tuple[int, int, str, bool]] = []
        out = 0
        near = coming.get(station, [])
        for start, end, owner, moving in sorted(bakes):
            bake = (start, end, owner, moving or any(low <= end and start <= high for low, high in near))
            if session and bake[0] > out + pause:
                quiet |= _quiet(session)
                session = []
            session.append(bake)
            out = max(out, bake[1]) if len(session) > 1 else bake[1]
        quiet |= _quiet(session)
    return quiet


def _quiet(session: list[tuple[int, int, str, bool]]) -> set[str]:
    if any(moving for _start, _end, _owner, moving in session):
        return set()
    return {owner for _start, _end, owner, _moving in session}


def _hold_washings(part: Model, model: Model, found: Found, free: set[int], new: set[int]) -> None:
    """Keep the washings after what is held, as long as nothing new wants their vessels."""
    known = {(wash.vessel.id, wash.run.steps[0]): wash for wash in model.washes}
    whole = part.board.problem

    def has(run: Run, some: set[int]) -> bool:
        return any(index in some for step in run.steps for index in whole.loads.get(step, ()))

    wanted = {run.vessel for run in whole.runs if has(run, new)}
    for wash in part.washes:
        old = known.get((wash.vessel.id, wash.run.steps[0]))
        if old is not None and wash.vessel.id not in wanted and not has(wash.run, free):
            _fix(part, wash.done, found.values[old.done.index])
            _fix(part, wash.free, found.values[old.free.index])


def _fix(part: Model, var: cp_model.IntVar, at: int) -> None:
    domain = part.board.model.proto.variables[var.index].domain
    domain.clear()
    domain.extend([at, at])
