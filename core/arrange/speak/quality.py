"""Quality in sentences: what was reached of a wish, what none can beat, what better costs, plans side by side."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime, time, timedelta

from core.arrange.goals_meaning import RUSH
from core.arrange.outcome import WishKind
from core.arrange.quality import DishWaits, Price, Quality, WishQuality
from core.arrange.quality_parts import Part, PartKind
from core.arrange.several import Several
from core.measures.clock import show_clock
from core.measures.minutes import show_minutes
from core.measures.words import join_words, plural
from core.plan.ids import StepId
from core.plan.plan import Plan
from core.timetable.facts import Facts
from core.timetable.naming import capital, clock, number, place

_NAMED = 3  # things named one by one; the rest are counted
TITLES = {
    WishKind.FRESH: "Fresher",
    WishKind.CALM: "Calmer at the end",
    WishKind.OVEN: "Quieter oven",
    WishKind.SLEEP: "Later start",
    WishKind.KEEP: "Nearer to what you saw",
}
"""What a plan is called that favours a wish."""


def say_wish(plan: Plan, wish: WishQuality) -> str:
    """Return what was reached of a wish, named thing by thing, and what no timetable can beat."""
    return " ".join(each for each in (_reached(Facts(plan), wish), _rest(Facts(plan), wish), _bound(wish)) if each)


def say_price(plan: Plan, price: Price) -> str:
    """Return what more of a wish costs the others: "Work begins at 8:00 at the earliest: 25 min more waiting ..."."""
    facts = Facts(plan)
    mine, *others = price.differences
    gain = _GAINS[price.wish](facts, mine.was, mine.now)
    costs = [
        _changed(facts, each.wish, each.was, each.now, price.dishes) for each in others if each.now != each.was
    ]
    best = ", which nothing can beat" if price.best else ""
    moves = f"{plural(price.moved, 'step')} {'begins' if price.moved == 1 else 'begin'} at another minute"
    return f"{gain}{best}: {join_words(costs) if costs else 'at no cost to the other wishes'}; {moves}."


def say_several(plan: Plan, several: Several) -> str:
    """Return a plan to choose, by what it favours, and what it reaches of each wish."""
    title = "As you weighed it" if several.favours is None else TITLES[several.favours]
    return f"{title}: {side_by_side(plan, several.quality)}."


def side_by_side(plan: Plan, quality: Quality) -> str:
    """Return what is reached of each wish in a few words, in one order, so that plans can be compared."""
    facts = Facts(plan)
    return ", ".join(_SHORT[each.wish](facts, each.reached) for each in quality.wishes)


# ---- what was reached


def _reached(facts: Facts, wish: WishQuality) -> str:
    match wish.wish:
        case WishKind.FRESH:
            return _fresh(facts, wish)
        case WishKind.CALM:
            return _calm(facts, wish)
        case WishKind.OVEN:
            return _oven(facts, wish)
        case WishKind.SLEEP:
            return _sleep(facts, wish)
        case WishKind.KEEP:
            return _keep(facts, wish)


def _fresh(facts: Facts, wish: WishQuality) -> str:
    if not wish.reached:
        return "No food that minds waits longer than it must."
    waits = [each for each in wish.parts if each.kind is PartKind.WAIT]
    named = [f"{_dish(facts, each)} {show_minutes(each.amount)}" for each in waits[:_NAMED]]
    rest = sum(each.amount for each in waits[_NAMED:])
    named += [f"other dishes {show_minutes(rest)}"] if rest else []
    return f"Food that minds waits {show_minutes(wish.reached)} longer than it must: {_listed(named)}."


def _calm(facts: Facts, wish: WishQuality) -> str:
    if not wish.reached:
        return f"Nobody has hands-on work between {_last_hour(facts)}."
    steps = [each for each in wish.parts if each.kind is PartKind.RUSH]
    named = [f"{_step(facts, each.step)} {show_minutes(each.amount)}" for each in steps[:_NAMED]]
    rest = sum(each.amount for each in steps[_NAMED:])
    named += [f"other steps {show_minutes(rest)}"] if rest else []
    return f"{show_minutes(wish.reached)} of hands-on work between {_last_hour(facts)}: {_listed(named)}."


def _last_hour(facts: Facts) -> str:
    return f"{clock(facts, -RUSH)} and {clock(facts, 0)}"


def _oven(facts: Facts, wish: WishQuality) -> str:
    cold = [each for each in wish.parts if each.kind is PartKind.HEATING]
    changes = [each for each in wish.parts if each.kind is PartKind.CHANGE]
    if not cold and not changes:
        return "Nothing has to be heated up."
    said = [
        f"{_place(facts, each)} to {each.setting} °C for {clock(facts, each.at or 0)}" for each in cold
    ]
    sentence = f"Heated from cold {_times(len(cold))}: {join_words(said)}." if cold else "Nothing is heated from cold."
    if not changes:
        return f"{sentence} The temperature then stays."
    said = [f"{_place(facts, each)} to {each.setting} °C for {clock(facts, each.at or 0)}" for each in changes]
    return f"{sentence} Changed while hot {_times(len(changes))}: {join_words(said)}."


def _sleep(facts: Facts, wish: WishQuality) -> str:
    days = [each for each in wish.parts if each.kind is PartKind.MORNING]
    until = _until(facts)
    if not days:
        return f"Nobody begins before {until} on any day."
    said = [f"{clock(facts, each.at or 0)}, {show_minutes(each.amount)} before {until}" for each in days]
    return f"The first hands begin at {join_words(said)}."


def _keep(facts: Facts, wish: WishQuality) -> str:
    moves = [each for each in wish.parts if each.kind is PartKind.MOVE]
    if not moves:
        return "Every step begins when it did."
    named = [
        f"{_step(facts, each.step)} {show_minutes(abs(each.amount))} {'later' if each.amount > 0 else 'sooner'}"
        for each in moves[:_NAMED]
    ]
    named += [f"{number(len(moves) - _NAMED)} more"] if len(moves) > _NAMED else []
    begin = "begins" if len(moves) == 1 else "begin"
    return (
        f"{plural(len(moves), 'step')} {begin} at another minute, {show_minutes(wish.reached)} in all:"
        f" {_listed(named)}."
    )


def _rest(facts: Facts, wish: WishQuality) -> str:
    """Return what else is to be said of a wish: missing room, settings off the recipes, ovens on too soon."""
    tight = [each for each in wish.parts if each.kind is PartKind.TIGHT]
    said = [
        f"No room at {clock(facts, each.at or 0)}: if {_step(facts, each.step)} takes its longest,"
        f" {_step(facts, each.after)} begins {show_minutes(each.amount)} too late."
        for each in tight[:_NAMED]
    ]
    if len(tight) > _NAMED:
        said.append(f"{capital(number(len(tight) - _NAMED))} more such places.")
    for each in wish.parts:
        if each.kind is PartKind.OFF:
            warmer = "hotter" if each.amount > 0 else "cooler"
            said.append(f"{_step(facts, each.step)} at {each.setting} °C, {abs(each.amount)} °C {warmer} than written.")
        elif each.kind is PartKind.SOON and each.station is not None:
            what = capital(place(facts, each.station))
            said.append(f"{what} is on {show_minutes(each.amount)} sooner than it must be.")
    return " ".join(said)


def _bound(wish: WishQuality) -> str:
    if wish.bound is None:
        return ""
    if wish.bound.amount == wish.reached:
        return "No plan can do better." if wish.reached else ""
    if wish.bound.amount > wish.reached:  # only a timetable that breaks a limit can
        return f"No plan without a clash has less than {_amount(wish.wish, wish.bound.amount)}."
    if not wish.bound.amount:
        return ""
    return f"No plan has less than {_amount(wish.wish, wish.bound.amount)}."


def _amount(wish: WishKind, amount: int) -> str:
    return plural(amount, "heating or change") if wish is WishKind.OVEN else show_minutes(amount)


# ---- what better costs


def _gain_fresh(_facts: Facts, was: int, now: int) -> str:
    return f"{show_minutes(was - now)} less waiting ({show_minutes(now)} in place of {show_minutes(was)})"


def _gain_calm(facts: Facts, was: int, now: int) -> str:
    return f"{show_minutes(was - now)} less hands-on work between {_last_hour(facts)} ({show_minutes(now)} are left)"


def _gain_oven(_facts: Facts, was: int, now: int) -> str:
    return f"The oven is brought to a temperature {_times(now)} in place of {number(was)}"


def _gain_sleep(facts: Facts, was: int, now: int) -> str:
    if not now:
        return f"Nobody begins before {_until(facts)}"
    return f"Work begins {show_minutes(was - now)} later in the mornings"


def _gain_keep(_facts: Facts, was: int, now: int) -> str:
    return f"Steps move {show_minutes(now)} in all in place of {show_minutes(was)}"


_GAINS: dict[WishKind, Callable[[Facts, int, int], str]] = {
    WishKind.FRESH: _gain_fresh,
    WishKind.CALM: _gain_calm,
    WishKind.OVEN: _gain_oven,
    WishKind.SLEEP: _gain_sleep,
    WishKind.KEEP: _gain_keep,
}


def _changed(facts: Facts, wish: WishKind, was: int, now: int, dishes: tuple[DishWaits, ...]) -> str:
    """Return what becomes more or less of another wish."""
    by, more = abs(now - was), "more" if now > was else "less"
    if wish is WishKind.OVEN:
        return f"{number(by)} {more} heatings or changes of the oven" if by > 1 else f"one heating or change {more}"
    if wish is WishKind.SLEEP:
        return f"work begins {show_minutes(by)} {'sooner' if now > was else 'later'} in the mornings"
    if wish is WishKind.CALM:
        return f"{show_minutes(by)} {more} hands-on work between {_last_hour(facts)}"
    if wish is WishKind.KEEP:
        return f"steps move {show_minutes(by)} {more}"
    same = [each for each in dishes if (each.now > each.was) == (now > was)]
    named = [f"{facts.words.dish(each.dish)} {show_minutes(abs(each.now - each.was))}" for each in same[:_NAMED]]
    return f"{show_minutes(by)} {more} waiting ({_listed(named)})"


# ---- side by side

_SHORT: dict[WishKind, Callable[[Facts, int], str]] = {
    WishKind.FRESH: lambda _facts, amount: f"{show_minutes(amount)} of waiting",
    WishKind.CALM: lambda facts, amount: f"{show_minutes(amount)} hands-on between {_last_hour(facts)}",
    WishKind.OVEN: lambda _facts, amount: _turns(amount),
    WishKind.SLEEP: lambda facts, amount: (
        f"{show_minutes(amount)} before {_until(facts)}" if amount else f"nobody before {_until(facts)}"
    ),
    WishKind.KEEP: lambda _facts, amount: f"{show_minutes(amount)} moved",
}


# ---- words


def _listed(names: list[str]) -> str:
    """Join names that may hold commas themselves."""
    return "; ".join(names)


def _turns(count: int) -> str:
    return f"{plural(count, 'heating')} and changes of the oven" if count != 1 else "1 heating of the oven"


def _dish(facts: Facts, part: Part) -> str:
    return facts.words.dish(part.dish) if part.dish is not None else ""


def _step(facts: Facts, step: StepId | None) -> str:
    return facts.words.step(step) if step is not None else ""


def _place(facts: Facts, part: Part) -> str:
    return place(facts, part.station) if part.station is not None else ""


def _until(facts: Facts) -> str:
    minute = facts.plan.decisions.wishes.sleep_until
    return show_clock(datetime.combine(facts.plan.plating.local.date(), time.min) + timedelta(minutes=minute))


def _times(count: int) -> str:
    return {0: "not at all", 1: "once", 2: "twice"}.get(count, f"{number(count)} times")
