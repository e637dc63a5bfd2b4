"""Chances in words: how often all is in time, what is ready when, what threatens it, where spare minutes help.

Shares are told as days of a hundred, whole ones, as many runs as there are bear no more; "all" and "none" are
said only of the days tried.
"""

from __future__ import annotations

from core.arrange.chances import WITHIN, Chances, LimitKind, LimitRisk, Serving, Spare, Threat
from core.measures.minutes import show_minutes
from core.measures.words import join_words, plural
from core.plan.plan import Plan
from core.timetable.facts import Facts
from core.timetable.naming import capital, clock, load

_HARDLY = 0.005
_MOST_NAMED = 3


def of_100(share: float, runs: int) -> str:
    """Return "in 83 of 100 days", "in more than 99 of 100 days", "in none of the 10,000 days tried"."""
    if share >= 1:
        return f"in all of the {runs:,} days tried"
    if share <= 0:
        return f"in none of the {runs:,} days tried"
    days = round(100 * share)
    if days >= 100:
        return "in more than 99 of 100 days"
    if days < 1:
        return "in fewer than 1 of 100 days"
    return f"in {days} of 100 days"


def say_chances(plan: Plan, value: Chances) -> str:
    """Return how often all is in time, whom guests wait for, what decides, and the limit most often broken."""
    said = [f"{capital(of_100(value.on_time, value.runs))} all is on the table in time."]
    if value.on_time < 1:
        said.append(
            f"{capital(of_100(value.nearly, value.runs))} nothing is more than {WITHIN} min late."
        )
    said += [say_serving(plan, each) for each in value.servings if each.p90 > each.course]
    if value.threats and value.threats[0].over_runs > 0:
        said.append(say_threat(plan, value.threats[0]))
    if value.limits:
        said.append(say_limit(plan, value.limits[0], value.runs))
    return " ".join(said)


def say_serving(plan: Plan, value: Serving) -> str:
    """Return from when to when what is served together is ready, and whether guests wait for it."""
    facts = Facts(plan)
    names = [facts.words.dish(dish) for dish in value.dishes[:_MOST_NAMED]]
    if len(value.dishes) > _MOST_NAMED:
        names.append(plural(len(value.dishes) - _MOST_NAMED, "other dish"))
    what = join_words(names)
    is_ready = "is ready" if len(value.dishes) == 1 else "are ready"
    if value.p10 == value.p90:
        when = f"at {clock(facts, value.p50)}"
    else:
        when = f"between {clock(facts, value.p10)} and {clock(facts, value.p90)} in 80 of 100 days"
    if value.p90 <= value.course:
        return f"{what} {is_ready} {when}."
    planned = f"{'it is' if len(value.dishes) == 1 else 'they are'} planned for {clock(facts, value.course)}"
    return f"{what} {is_ready} {when}; {planned}, so guests may wait."


def say_threat(plan: Plan, value: Threat) -> str:
    """Return how often a step decides that something is late."""
    facts = Facts(plan)
    name = capital(load(facts, value.step, value.load))
    late = f"{round(100 * value.over_runs)} of 100 late days" if value.over_runs >= _HARDLY else "few late days"
    return f"{name} takes longer than planned and makes the table late in {late}."


def say_limit(plan: Plan, value: LimitRisk, runs: int) -> str:
    """Return how often a limit is broken."""
    facts = Facts(plan)
    name, often = load(facts, value.step, value.load), of_100(value.share, runs)
    if value.kind is LimitKind.WAIT:
        assert value.then is not None
        after = load(facts, value.then, 0)
        if value.most == 0:
            return f"{capital(often)} {after} cannot follow at once on {name}."
        return f"{capital(often)} {name} is done more than {show_minutes(value.most)} before {after}."
    if value.kind is LimitKind.KEEP:
        return f"{capital(often)} {name} waits more than {show_minutes(value.most)} until it is served."
    if value.kind is LimitKind.FIRE:
        return f"{capital(often)} the fire is spent before {name} is done."
    return f"{capital(often)} {name} is done later than it must be."


def say_spare(plan: Plan, value: Chances) -> str:
    """Return where spare minutes help most, or that they cannot be had."""
    if value.on_time >= 1:
        return "Spare minutes are not needed: nothing was late."
    if not value.spare:
        return "None of the steps that decide can begin earlier without a new clash."
    best = value.spare[0]
    if best.gain < _HARDLY:
        return "Beginning the steps that decide earlier hardly helps."
    return say_one_spare(plan, best, value.runs)


def say_one_spare(plan: Plan, value: Spare, runs: int) -> str:
    """Return what it helps to begin a step so many minutes earlier."""
    facts = Facts(plan)
    starts = dict(value.moved)
    name, start = load(facts, value.step, value.load), starts[value.step, value.load]
    more = round(100 * value.gain)
    gain = f", {more} more than now" if more > 0 else ""
    others = len(starts) - 1
    along = f" {plural(others, 'other step')} {'moves' if others == 1 else 'move'} along." if others else ""
    return (
        f"Begin {name} {show_minutes(value.minutes)} earlier, at {clock(facts, start)}:"
        f" {of_100(value.chance, runs)} all is then in time{gain}.{along}"
    )
