"""Guests late in words: how long the menu can stand, what moves, what waits too long and what might carry it."""

from __future__ import annotations

from core.arrange.chances_limits import LimitKind
from core.arrange.late_guests import Allowance, Held, LateGuests, Over, Patience
from core.arrange.late_offers import Offer, OfferKind
from core.measures.minutes import show_minutes
from core.measures.words import join_words, plural
from core.plan.ids import StepId
from core.plan.plan import Plan
from core.timetable.facts import Facts
from core.timetable.naming import at_place, beside, capital, clock, load

_MOST_NAMED = 4


def say_patience(plan: Plan, value: Patience) -> str:
    """Return how long the menu can stand from a moment on, and the dish that decides."""
    facts = Facts(plan)
    at = clock(facts, value.now)
    decides = value.decides
    if decides is None:
        return f"At {at} nothing that has begun limits how late the guests may come."
    stands = "cannot stand a minute" if value.minutes == 0 else f"can stand {show_minutes(value.minutes or 0)}"
    return f"At {at} the menu {stands}: {say_allowance(plan, decides)}"


def say_allowance(plan: Plan, value: Allowance) -> str:
    """Return how long a dish can still be put off, what it is doing, and what more care would give."""
    facts = Facts(plan)
    name = facts.words.dish(value.dish)
    if value.minutes is None or value.step is None:
        return f"{name} can wait for the guests."
    step = load(facts, value.step, value.load)
    if value.kind is LimitKind.FIRE:
        return f"{name} has {show_minutes(value.minutes)} left: the fire for {step} is spent then."
    if value.kind is LimitKind.LATEST:
        return f"{name} has {show_minutes(value.minutes)} left: the time of {step} is set."
    length = f"{beside(value.lasts, value.most)} of at most {show_minutes(value.most)}"
    said = (
        f"{name} has {show_minutes(value.minutes)} left: after {step} it waits from {clock(facts, value.since)}"
        f" {_until(facts, value.then)}, {length}."
    )
    if value.shared is not None and value.shared > value.minutes:
        said += f" It bears {show_minutes(value.shared)} if every wait on its way takes a part."
    return said


def say_late(plan: Plan, value: LateGuests) -> str:
    """Return what happens when serving is put off, line by line: what is over, moves, stays, and clashes."""
    facts = Facts(plan)
    said = [f"Serving is put off by {show_minutes(value.minutes)} at {clock(facts, value.now)}."]
    said += [say_over(plan, each) for each in value.over]
    if not value.over:
        said.append("Nothing waits too long.")
    said += [_moves(facts, value)] if value.moved else []
    said += [say_held(plan, each) for each in value.held]
    said += [clash.sentence for clash in value.clashes]
    return "\n".join(said)


def say_over(plan: Plan, value: Over) -> str:
    """Return what waits too long, by how much, and what might carry it."""
    facts = Facts(plan)
    name = capital(load(facts, value.step, value.load))
    over = f"{show_minutes(value.by)} too long"
    if value.kind is LimitKind.FIRE:
        return f"{name} ends {show_minutes(value.by)} after the fire is spent at {clock(facts, value.until)}."
    if value.kind is LimitKind.LATEST:
        return f"{name} cannot move: its time is set, {show_minutes(value.by)} too soon."
    said = (
        f"{name} is done at {clock(facts, value.since)} and waits {show_minutes(value.lasts)}"
        f" {_until(facts, value.then)}; it is good until {clock(facts, value.until)}: {over}."
    )
    others = [each for each in value.offers if each.kind is not OfferKind.WARM_AGAIN]
    warm = [each for each in value.offers if each.kind is OfferKind.WARM_AGAIN]
    return " ".join([said, *(_offer(facts, value, each) for each in others), *_warming(facts, warm)])


def say_held(plan: Plan, value: Held) -> str:
    """Return that a step stays where it is planned, and why."""
    facts = Facts(plan)
    name = capital(load(facts, value.step, value.load))
    why = "" if value.after is None else f": it cannot wait so long after {load(facts, value.after, 0)}"
    return f"{name} stays at {clock(facts, value.start)}{why}."


def _until(facts: Facts, then: StepId | None) -> str:
    return "until it is served" if then is None else f"until {load(facts, then, 0)}"


def _moves(facts: Facts, value: LateGuests) -> str:
    steps = list(dict.fromkeys(each.step for each in value.moved))
    named = [facts.words.step(step) for step in steps[:_MOST_NAMED]]
    if len(steps) > _MOST_NAMED:
        named.append(plural(len(steps) - _MOST_NAMED, "other step"))
    verb = "begins" if len(steps) == 1 else "begin"
    return f"{join_words(named)} {verb} {show_minutes(value.minutes)} later."


def _offer(facts: Facts, over: Over, offer: Offer) -> str:
    where = "" if offer.station is None else at_place(facts, offer.station)
    if offer.kind is OfferKind.WAY:
        enough = "long enough" if offer.enough else "not long enough"
        name = facts.plan.steps[over.step].alternatives[offer.way - 1].name
        return f"Done another way ({name}) it is good until {clock(facts, offer.until)}, {enough}."
    return f"There is room {where} until {clock(facts, offer.until)}, if it bears that."


def _warming(facts: Facts, found: list[Offer]) -> list[str]:
    if not found:
        return []
    where = " or ".join(at_place(facts, each.station) for each in found if each.station is not None)
    return [f"It may be warmed again {where} from {clock(facts, found[0].start)}, if it bears that."]
