"""Turns a solution's numbers into a timetable: names for burners and cooks, heatings, fires, stays, washings."""

from __future__ import annotations

from dataclasses import replace

from core.arrange.claims import Claim, Key
from core.arrange.found import Found
from core.arrange.model import Model
from core.arrange.naming import Job, name_cooks
from core.arrange.problem import Problem, Task
from core.arrange.rules_vessel import Wash, washing_of
from core.arrange.settle_heat import heatings_of
from core.arrange.settle_places import crew_of, spots_of
from core.arrange.settle_vessel import washings_needed
from core.plan import meaning
from core.plan.ids import CookId
from core.plan.kitchen import HEATED
from core.timetable.timetable import Hand, Heating, Placed, Spot, Stay, Timetable, Washing


class Settling:
    """One solution being turned into a timetable."""

    def __init__(self, model: Model, found: Found) -> None:
        self.model = model
        self.found = found
        self.problem: Problem = model.board.problem
        self.of_task: dict[int, list[int]] = {}
        self.of_chore: dict[str, int] = {}
        for number, labour in enumerate(model.hands.labours):
            if labour.task is not None:
                self.of_task.setdefault(labour.task, []).append(number)
            elif labour.chore is not None:
                self.of_chore[labour.chore] = number
        self.spots: dict[Key, tuple[Spot, ...]] = spots_of(model, found)
        self.heatings = heatings_of(model, found, self.spots)
        self.washes: list[Wash] = washings_needed(model, found)

    def timetable(self) -> Timetable:
        """Return the timetable; raises naming.NobodyLeft where cooks cannot be named."""
        named = name_cooks(self.problem, self._jobs())
        placed = tuple(self._placed(index, named) for index in range(len(self.problem.tasks)))
        heatings = tuple(
            Heating(each.station, each.start, each.end, each.setting, each.cook or self._who(each.chore, named))
            for each in self.heatings
        )
        washings = tuple(
            Washing(each.vessel, each.start, each.minutes, each.after, each.cook) for each in self.problem.washed
        )
        washings += tuple(self._washing(wash, named) for wash in self.washes if wash.known is None)
        return Timetable(placed, self._stays(), heatings, washings)

    def _placed(self, index: int, named: dict[int, tuple[CookId, ...]]) -> Placed:
        task, found = self.problem.tasks[index], self.found
        way = next(each for each in task.ways if each.number == found.ways[index])
        spots = tuple(
            spot
            for number in range(len(way.uses))
            for spot in self.spots.get((index, None, way.number, number), ())
        )
        hands = tuple(
            Hand(span[0], span[1] - span[0], cook)
            for number in self.of_task.get(index, ())
            if (span := found.labours[number]) is not None
            for cook in named.get(number, ())
        )
        if index in self.model.board.cuts:
            hands = _joined(hands)
        stood = self.problem.stood.get(index)
        if task.fact and stood is not None:
            since, until = found.starts[index], found.ends[index]
            hands = _with_past(_within(stood, since, until), hands, self.problem.now or 0)
        hands = self._one_visit(task, found.ends[index] - found.starts[index], way.number, hands)
        length = found.ends[index] - found.starts[index]
        return Placed(
            task.step.id, found.starts[index], length, task.load, spots, found.settings[index], hands, way.number
        )

    def _one_visit(self, task: Task, length: int, way: int, hands: tuple[Hand, ...]) -> tuple[Hand, ...]:
        """Return putting in and taking out as one visit where they fill the whole length."""
        wanted = meaning.hands_of(self.problem.plan, task.step, length, way)
        if len(wanted) == 1 and len(hands) == 2 and hands[0].cook == hands[1].cook:
            return _joined(hands)
        return hands

    def _jobs(self) -> list[Job]:
        needed = {each.chore for each in self.heatings} | {washing_of(wash) for wash in self.washes}
        jobs = []
        for number, labour in enumerate(self.model.hands.labours):
            span = self.found.labours[number]
            if span is None or span[0] == span[1]:
                continue
            dish, pinned = "", None
            if labour.chore is not None:
                dish = labour.chore
                if dish not in needed:
                    continue
            elif labour.task is not None:
                dish = self.problem.tasks[labour.task].dish.id
                fixed = self.problem.fixed.get(labour.task)
                pinned = labour.cook or (fixed.cook if fixed is not None else None)
            literals = self.model.hands.named.get(number, {})
            chosen = tuple(cook for cook, literal in literals.items() if self.found.values[literal.index])
            place = next(
                (
                    place
                    for place, there in labour.places.items()
                    if there is None or self.found.values[there.index]
                ),
                None,
            )
            jobs.append(
                Job(
                    number,
                    labour.key,
                    span[0],
                    span[1] - span[0],
                    labour.people,
                    labour.skill,
                    dish,
                    pinned,
                    chosen,
                    place,
                    crew_of(self.model, self.found, labour.key),
                )
            )
        return jobs

    def _who(self, chore: str, named: dict[int, tuple[CookId, ...]]) -> CookId | None:
        number = self.of_chore.get(chore)
        return None if number is None else next(iter(named.get(number, ())), None)

    def _washing(self, wash: Wash, named: dict[int, tuple[CookId, ...]]) -> Washing:
        start = self.found.values[wash.free.index] - wash.vessel.washing
        who = self._who(washing_of(wash), named) if wash.vessel.by_hand else None
        return Washing(wash.vessel.id, start, wash.vessel.washing, wash.run.steps[0], who)

    def _stays(self) -> tuple[Stay, ...]:
        found = []
        for claim in self.model.standing.claims:
            if claim.wait is None:
                continue
            wait = self.problem.waits[claim.wait]
            start = self.found.ends[wait.before]
            end = self.found.starts[wait.after] if wait.after is not None else wait.until
            if end <= start:
                continue
            before = self.problem.tasks[wait.before]
            after = self.problem.tasks[wait.after].step.id if wait.after is not None else None
            spots = self.spots.get(claim.key, ())
            setting = _held_at(self.found, claim)
            found.append(Stay(before.step.id, after, start, end, before.load, wait.kind, spots, setting))
        return tuple(found)


def _within(stood: Placed, since: int, until: int) -> Placed:
    """Return a load as it was placed with only those of its hands that fall into the time it really took."""
    hands = (
        Hand(hand.start, min(hand.start + hand.minutes, until) - hand.start, hand.cook)
        for hand in stood.hands
        if since <= hand.start < until
    )
    return replace(stood, hands=tuple(hands))


def _joined(hands: tuple[Hand, ...]) -> tuple[Hand, ...]:
    """Return pieces of work with those joined that one cook does without a pause."""
    found: list[Hand] = []
    for hand in sorted(hands, key=lambda each: each.start):
        last = found[-1] if found else None
        if last is not None and last.cook == hand.cook and last.start + last.minutes == hand.start:
            found[-1] = Hand(last.start, last.minutes + hand.minutes, last.cook)
        else:
            found.append(hand)
    return tuple(found)


def _with_past(stood: Placed, hands: tuple[Hand, ...], now: int) -> tuple[Hand, ...]:
    """Return the hands of what has begun: those before now as they were, one that goes on now as one hand."""
    found = []
    for past in stood.hands:
        if past.start >= now:
            continue
        on = next((each for each in hands if each.start == now and each.cook == past.cook), None)
        if on is not None and past.start + past.minutes > now:
            found.append(Hand(past.start, on.start + on.minutes - past.start, past.cook))
            hands = tuple(each for each in hands if each is not on)
        else:
            found.append(past)
    return (*found, *hands)


def _held_at(found: Found, claim: Claim) -> int | None:
    if claim.wait is None or claim.use.heat is None or claim.use.kind not in HEATED:
        return None
    return found.wait_settings.get(claim.wait, claim.use.heat.setting)


def settle(model: Model, found: Found) -> Timetable:
    """Return the timetable of a solution; raises naming.NobodyLeft where cooks cannot be named."""
    return Settling(model, found).timetable()
