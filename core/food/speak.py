"""Sentences of the food sums, made from their fields: the thing, the amount, the minutes, the clock time.

None says that food is safe. `clock` is how a minute from plating is told, such as "18:20" or "Fri 18:20".
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction

from core.food.boiling import KETTLE_COOLS, Boil
from core.food.hands import HandsBudget, Person, Reach, Task, shared, total_minutes
from core.food.loads import LoadWork
from core.food.scaling import Grows, Scaled, by_the_spoon, spooned
from core.food.thawing import CHANGE_EVERY, ThawOffer
from core.food.tins import Tin, Tins
from core.measures.minutes import show_minutes
from core.measures.number import round_half_up, show_decimal, show_fraction
from core.measures.quantity import Quantity
from core.measures.quantity_show import show_quantity
from core.measures.unit_names import worded
from core.measures.words import join_words, plural
from core.plan.check_words import short

Clock = Callable[[int], str]
"""Tells the wall-clock time of a minute from plating."""

_MOST_NAMED = 7


def said_scaled(each: Scaled) -> str:
    """Return "flour: 900 g", "chilli: start 4½ to 5 tsp, taste (6 tsp in proportion)"."""
    item = short(each.item)
    if each.exact.to_taste:
        return f"{item}: to taste"
    if each.start is not None:
        return f"{item}: start {_from_to(*each.start)}, taste ({show_quantity(each.exact)} in proportion)"
    if each.whole is not None:
        off = (
            ""
            if each.whole == each.exact.amount
            else f" ({show_decimal(each.exact.amount, 2)} in proportion)"
        )
        return f"{item}: {show_quantity(each.measured)}{off}"
    unsure = ""
    if each.unsure:
        unsure = f" (a raising agent at {show_decimal(each.factor, 2)} times: ask the baker's own table)"
    return f"{item}: {show_quantity(each.exact)}{unsure}"


def _from_to(low: Quantity, high: Quantity) -> str:
    first, last = by_the_spoon(low), by_the_spoon(high)
    if not spooned(first.unit):
        one, other = show_quantity(first), show_quantity(last)
        return one if one == other else f"{one} to {other}"
    shown = show_fraction(first.amount), show_fraction(last.amount)
    numbers = shown[0] if shown[0] == shown[1] else " to ".join(shown)
    return f"{numbers} {worded(last.unit, last.amount)}".rstrip()


def said_growth(grows: Grows) -> str:
    """Return why an ingredient does not simply grow, or "" where it does."""
    return {
        Grows.STRAIGHT: "",
        Grows.BY_TASTE: "Above double, strong seasonings begin at 75 to 80 % and are tasted (common practice).",
        Grows.WHOLE: "Eggs are taken whole (common practice).",
        Grows.RAISING: "Raising agents grow straight up to three times (common practice).",
    }[grows]


def said_tin(tin: Tin) -> str:
    """Return "40 x 30 cm", "20 cm square" or "26 cm round"."""
    width = show_decimal(tin.width, 1)
    if tin.length is None:
        return f"{width} cm round"
    return f"{width} cm square" if tin.square else f"{width} x {show_decimal(tin.length, 1)} cm"


def said_tins(tins: Tins, area: Fraction, minutes: tuple[int, int]) -> str:
    """Return the tins for an area in cm2 at the same depth, and what becomes of the bake's minutes."""
    what = (
        f"a tin of {said_tin(tins.tin)}" if tins.count == 1 else f"{tins.count} tins of {said_tin(tins.tin)}"
    )
    wanted = f"{int(round_half_up(area)):,} cm² at the same depth: {what}"
    if tins.depth == 1:
        return f"{wanted}; baking time unchanged, {show_minutes(minutes[1])}."
    deep = f"{show_decimal(abs(tins.depth - 1) * 100, 0)} % {'deeper' if tins.depth > 1 else 'shallower'}"
    if tins.as_deep:
        return f"{wanted}, {deep}; baking time as it was, look a little {_when(tins)}."
    length = f"{show_minutes(minutes[0])} to {show_minutes(minutes[1])}"
    return f"{wanted}, {deep}; it takes {length} now, look from the first on."


def _when(tins: Tins) -> str:
    return "later" if tins.depth > 1 else "sooner"


def said_loads(work: LoadWork) -> str:
    """Return "3 loads of 8 min, 24 min"."""
    between = f" with {show_minutes(work.change_over)} between" if work.change_over and work.loads > 1 else ""
    return f"{plural(work.loads, 'load')} of {show_minutes(work.each)}{between}, {show_minutes(work.minutes)}"


def said_boil(water: Boil, wanted: int, clock: Clock) -> str:
    """Return how long water takes to the boil and when the pot goes on, for a wanted minute."""
    litres = f"{show_decimal(water.litres)} l"
    kettle = ""
    if water.kettle:
        part = show_decimal(water.litres * water.kettle, 2)
        kettle = f" with {part} l of it from a kettle just boiled ({KETTLE_COOLS} °C cooler in the pot)"
    return (
        f"{litres} of water from {show_decimal(water.start, 1)} °C{kettle}, {show_decimal(water.power, 2)} kW"
        f" useful, lid on: {show_minutes(water.minutes)} to {show_decimal(water.boils_at, 1)} °C;"
        f" pot on at {clock(water.on_by(wanted))} to boil by {clock(wanted)}."
    )


def said_thaw(offer: ThawOffer, clock: Clock) -> str:
    """Return a way to thaw: how long, when it has to begin, and by how much it is late if begun now."""
    thaw = offer.thaw
    length = show_minutes(thaw.high)
    if thaw.low != thaw.high:
        length = f"{show_minutes(thaw.low)} to {length}"
    where = f"Thaw {thaw.place}, {length}"
    if thaw.cook_at_once:
        few, many = thaw.changes
        times = str(many) if few == many else f"{few} to {many}"
        where += f", leak-proof bag, {times} changes of water, one each {CHANGE_EVERY} min"
    if offer.late:
        told = f"begun now it is thawed by {clock(offer.thawed[1])}, {show_minutes(offer.late)} too late"
    else:
        told = f"begin by {clock(offer.in_by)}; begun now it is thawed by {clock(offer.thawed[1])}"
    once = " USDA: what thawed in cold water is cooked at once, not kept." if thaw.cook_at_once else ""
    return f"{where}: {told}.{once}"


def said_budget(budget: HandsBudget, clock: Clock, low: int, high: int) -> str:
    """Return hands-on minutes against hours, by how much it is over, and whose work it is."""
    span = f"From {clock(low)} to {clock(high)}"
    names = join_words([short(person.name) for person in budget.people]) or "nobody"
    head = f"{span}: {budget.total} min of hands-on work, {names} there for {budget.there} min"
    worst = budget.overload
    if worst is None:
        return f"{head}: feasible on hours; the order is still to be checked."
    if not worst.people:
        return f"{head}; nobody there can {_named(worst.tasks)}. Find somebody who can, or leave it out."
    mend = "Find another hand, begin earlier or leave something out."
    if budget.earlier:
        mend = f"{budget.earlier} min of it can be done before {clock(low)}."
    if len(worst.people) == len(budget.people):
        return f"{head}: {worst.over} min over. {mend}"
    only = join_words([short(person.name) for person in worst.people])
    have = sum(person.minutes for person in worst.people)
    return (
        f"{head}; {total_minutes(worst.tasks)} min of it only {only} can do, in {have} min: {worst.over} min"
        f" over. {mend}"
    )


def said_reach(budget: HandsBudget, person: Person) -> str:
    """Return what somebody can take alone, what with a cook beside, and what not."""
    alone = budget.within_reach(person)
    name = short(person.name)
    told = (
        f"{name} can take {_named(alone)}: {total_minutes(alone)} min."
        if alone
        else f"{name} can take nothing."
    )
    if guided := budget.within_reach(person, Reach.GUIDED):
        told += f" With a cook beside: {_named(guided)}."
    if beyond := budget.within_reach(person, Reach.NOT):
        told += f" Not: {_named(beyond)}."
    return told


def said_shares(budget: HandsBudget) -> str:
    """Return a proposal of who takes how many minutes, and what whole task fits nobody."""
    proposal = shared(budget)
    told = ", ".join(f"{short(each.person.name)} {each.minutes} min" for each in proposal.shares)
    if proposal.left:
        return f"{told}; nobody has time or skill for {_named(proposal.left)} in one piece."
    return f"{told}: feasible on hours; the order is still to be checked."


def _named(tasks: Sequence[Task]) -> str:
    names = [short(task.name) for task in tasks[:_MOST_NAMED]]
    more = len(tasks) - len(names)
    return join_words([*names, f"{more} more"] if more else names)
