"""Sentences of a cooling log. They tell which limit is met, missed or next, and who has the last word."""

from __future__ import annotations

from core.food.cooling import CoolingLog, Judged, State, failed, judged, next_limit, warmer_again
from core.food.cooling_rules import Limit
from core.measures.minutes import show_minutes
from core.measures.words import join_words
from core.plan.check_words import short

DEFER = "Your local food code decides which; ask somebody licensed where you cook for others."
COOL_FAST = "in shallow pans over ice, in small portions or in an ice bath, stirring"
"""Ways of 3-501.15."""


def said_limit(limit: Limit) -> str:
    """Return "21 °C (70 °F)"."""
    return f"{limit.celsius} °C ({limit.fahrenheit} °F)"


def said_judged(log: CoolingLog, each: Judged) -> str:
    """Return how one limit stands, with its time: met, missed, not shown or still to come."""
    within = show_minutes(each.checkpoint.within)
    limit = f"{said_limit(each.checkpoint.limit)} within {within}, by {log.clock(each.due)}"
    if each.reading is not None:
        read = f"{each.reading} at {log.clock(each.reading.at)}"
        if each.state is State.MET:
            return f"{limit}: met, {read}."
        return f"{limit}: missed, {read}."
    if each.state is State.NOT_SHOWN:
        return f"{limit}: not shown, no reading says so; treat it as missed."
    return f"{limit}: still to be read."


def said_next(log: CoolingLog, now: int) -> str:
    """Return what the log asks for now: the next limit, the corrective action, or that all limits are met."""
    name = short(log.food)
    if (wrong := failed(log, now)) is not None:
        return f"{name}: {said_judged(log, wrong)} {corrective_action(log, wrong)} Limits: {log.rule.source}."
    coming = next_limit(log, now)
    if coming is None:
        return f"{name}: the limits of {log.rule.source} are met; the log says no more than that."
    limit = said_limit(coming.checkpoint.limit)
    return (
        f"{name}: next limit {limit} by {log.clock(coming.due)} ({log.rule.source}); read the probe before."
    )


def corrective_action(log: CoolingLog, wrong: Judged) -> str:
    """Return what is asked for after a missed limit, with the deferral.

    Reheating is for a first limit found missed when it was due; later, and at the last limit, it is discarded
    (common practice in kitchens' cooling procedures, from memory; the code's text names no action).
    """
    hot, until = log.rule.reheat, wrong.checkpoint != log.rule.checkpoints[-1]
    done = "Write down what was done, with initials."
    if hot is None or not until:
        return f"Corrective action: discard it (common practice). {done} {DEFER}"
    again = f"reheat it to {said_limit(hot)} all through and cool it again {COOL_FAST}, once only"
    if wrong.reading is not None and wrong.reading.at <= wrong.due:
        return f"Corrective action: {again}; or discard it (common practice). {done} {DEFER}"
    return (
        f"Corrective action: discard it, unless your local food code still lets you {again} (common practice)."
        f" {done} {DEFER}"
    )


def log_lines(log: CoolingLog, now: int) -> tuple[str, ...]:
    """Return the log as it is kept: beginning, readings, limits, actions, with initials; nothing left out."""
    hot = log.rule.hot
    start = f"passed {said_limit(hot)}" if hot else "was made"
    found = [f"{log.clock(log.began)} {short(log.food)} {start}."]
    found += [f"{log.clock(each.at)} {each} {each.initials}".rstrip() for each in log.readings]
    found += [said_judged(log, each) for each in judged(log, now)]
    if (pair := warmer_again(log)) is not None:
        times = join_words([f"{each} at {log.clock(each.at)}" for each in pair])
        found.append(f"Warmer again: {times}; hold the probe in the middle of the thickest part.")
    found += [f"{log.clock(each.at)} {short(each.did)} {each.initials}" for each in log.actions]
    return tuple(found)
