"""The order list and the pull list as lines to read and tick.

`clock` tells the time of a minute from plating ("Thu 10:00"), `day` the name of a day so many days before plating's.
"""

from __future__ import annotations

from collections.abc import Callable

from core.food.order_list import Need, OrderLine, key_of
from core.food.pull_list import PullLine, PullList
from core.food.shopping import Apart, Purchase, Shopping, Trip
from core.food.sound import same_kind
from core.food.speak import Clock
from core.food.speak_order import at_most, to_order
from core.measures.quantity import Quantity, add
from core.measures.quantity_show import show_quantity
from core.measures.unit_names import known
from core.measures.words import join_words, plural, plural_of
from core.plan.check_words import short

Day = Callable[[int], str]
_TICK = "[ ]"
_FEW = 2
"""Up to so many dishes are named beside a peak."""


def shopping_lines(shopping: Shopping, clock: Clock, day: Day) -> tuple[str, ...]:
    """Return the order list: trip by trip and aisle by aisle, then what is at home, then what was parted and why."""
    found: list[str] = []
    for trip in shopping.trips:
        found += ["", *trip_lines(trip, clock, day)]
    if shopping.at_home:
        found += ["", "In the house already (look that it is there, and enough):"]
        found += [f"  {_TICK} {said_at_home(each.line)}" for each in shopping.at_home]
    if shopping.apart:
        found += ["", *(said_apart(each, day) for each in shopping.apart)]
    usual = any(
        each.keeps is not None and not each.told for trip in shopping.trips for each in trip.purchases
    )
    if usual:
        found += ["", "How long fresh things keep is what is usual; the date on the pack goes before it."]
    return tuple(found[1:])


def trip_lines(trip: Trip, clock: Clock, day: Day) -> tuple[str, ...]:
    """Return a trip's day and its purchases under their aisles."""
    found = [f"Buy on {day(trip.days_before)}: {plural(len(trip.purchases), 'thing')}"]
    aisle: str | None = None
    for each in trip.purchases:
        if each.aisle != aisle:
            aisle = each.aisle
            found.append(f"  {short(aisle).capitalize() if aisle else 'Other'}")
        found.append(f"    {_TICK} {said_purchase(each, clock)}")
    return tuple(found)


def said_purchase(each: Purchase, clock: Clock) -> str:
    """Return "1.69 kg butter (2 kg wanted, 0.31 kg at home): Cheese straws 800 g by Thu 10:00; Buns ..."."""
    what, what_for = said_parts(each, clock)
    return f"{what}: {what_for}"


def said_parts(each: Purchase, clock: Clock) -> tuple[str, str]:
    """Return what to buy and of how much, and for what it is by when."""
    line = each.line
    loose = "" if each.loose is None else f", sold by {each.loose}: count the packs there"
    return f"{to_buy(line)}{_of_which(line)}{loose}", _for_what(line, clock)


def to_buy(line: OrderLine) -> str:
    """Return what to carry home: "2 pots of 300 ml double cream", "1.2 kg plain flour", "6 lemons"."""
    item = short(line.item)
    if line.buy.to_taste:
        return f"{item}, some"
    if line.pack is None or line.packs is None:
        return f"{to_order(line.buy)} {_one_of(line.item) if line.buy.amount <= 1 and not line.buy.unit else item}"
    name = line.sold_as if line.packs == 1 else plural_of(line.sold_as)
    return f"{line.packs} {name} of {at_most(line.pack)} {item}"


def _one_of(item: str) -> str:
    """Return an item's name for one of it: "lemon" for "lemons"; what stands after a comma stays."""
    head, comma, rest = short(item).partition(",")
    one = key_of(head)
    return f"{head[: len(one)] if head.casefold().startswith(one) else one}{comma}{rest}"


def _of_which(line: OrderLine) -> str:
    """Return what is wanted in all and what of it is there, where that is not simply what is bought."""
    if line.buy.to_taste:
        return ""
    told = []
    if line.purchased != line.ready:
        told.append(f"{to_order(line.purchased)} untrimmed for {to_order(line.ready)}")
    elif line.at_home.amount or line.packs is not None:
        told.append(f"{to_order(line.purchased)} wanted")
    if line.at_home.amount:
        ticked = all(each.at_home or each.made is None for each in line.needs) and line.in_store is None
        told.append(f"{at_most(line.at_home)} {'ticked as there' if ticked else 'there'}")
    return f" ({', '.join(told)})" if told else ""


def _for_what(line: OrderLine, clock: Clock) -> str:
    """Return each dish with its amount and when it first wants it, the soonest first."""
    by_dish: dict[str, list[Need]] = {}
    for need in sorted(line.needs, key=lambda each: _FAR if each.by is None else each.by):
        by_dish.setdefault(need.dish, []).append(need)
    told = []
    alone = len(by_dish) == 1
    for dish, needs in by_dish.items():
        amount = _sum([each.quantity for each in needs])
        much = f" {amount}" if amount and not alone else ""
        by = "" if needs[0].by is None else f" by {clock(needs[0].by)}"
        told.append(f"{brief(dish)}{much}{by}")
    return "; ".join(told)


_FAR = 10**9


def _sum(amounts: list[Quantity]) -> str:
    there = [each for each in amounts if not each.to_taste]
    if not there:
        return ""
    total = there[0]
    for each in there[1:]:
        if not same_kind(total, each):
            return ""
        total = add(total, each)
    return show_quantity(total) if known(total.unit).kind == "count" else to_order(total)


def brief(name: str) -> str:
    """Return a dish's name up to its first comma: a list is no place for the whole of it."""
    return short(name.partition(",")[0].strip() or name)


def said_at_home(line: OrderLine) -> str:
    """Return "fine salt, 131 g: Bread, Gratin" for what need not be bought; what is made says so."""
    names = "; ".join(dict.fromkeys(brief(each.dish) for each in line.needs))
    amount = "" if line.ready.to_taste else f", {to_order(line.purchased)}"
    made = " (made in the house)" if any(each.made is not None for each in line.needs) else ""
    return f"{short(line.item)}{amount}{made}: {names}"


def said_apart(each: Apart, day: Day) -> str:
    """Return why an item stands on two trips."""
    keeps = "is fresh only on its day" if each.keeps == 0 else f"keeps {plural(each.keeps, 'day')}"
    trips = join_words([day(trip) for trip in dict.fromkeys(each.trips)])
    return (
        f"{short(each.item).capitalize()} {keeps}, but is wanted from {day(each.first)} to {day(each.last)}: "
        f"bought on {trips}."
    )


def pull_lines(pulled: PullList, clock: Clock) -> tuple[str, ...]:
    """Return the pull list: what to stand ready, the tins of recipes, and how dishes come to the table."""
    found = [f"{_TICK} {said_pull(each, clock)}" for each in pulled.vessels]
    if pulled.pans:
        found += ["", "Tins and pans of the recipes:"]
        found += [f"{_TICK} {short(pan)}: {brief(dish)}" for dish, pan in pulled.pans]
    if pulled.table:
        found += ["", "For the table (a dish to serve from and what to serve with):"]
        for dish, at, words in pulled.table:
            how = f": {' '.join(words.split())}" if words.strip() else ""
            found.append(f"{_TICK} {brief(dish)}, {clock(at)}{how}")
    short_of = [each for each in pulled.vessels if each.short_by]
    if short_of:
        found += ["", *(said_short(each, clock) for each in short_of)]
    return tuple(found)


def said_pull(each: PullLine, clock: Clock) -> str:
    """Return "3 of 3 Tin, 40x30 cm, from Fri 10:00; 3 at once Sat 17:30 to 18:10: Squash; Gratin"."""
    vessel = each.vessel
    size = f", {short(vessel.size)}" if vessel.size else ""
    dishes = "; ".join(brief(dish) for dish in each.dishes)
    many = f"{each.most} of {vessel.count}" if vessel.count > 1 or each.most > 1 else "1"
    what = f"{many} {short(vessel.name)}{size}, from {clock(each.first)}"
    if each.most == 1:
        return f"{what}: {dishes}"
    then = ""
    if set(each.then) != set(each.dishes) and len(each.then) <= _FEW:
        then = f" ({'; '.join(brief(dish) for dish in each.then)})"
    return f"{what}; {each.most} at once {_from_to(clock(each.start), clock(each.end))}{then}: {dishes}"


def _from_to(start: str, end: str) -> str:
    """Return two times, the day said once where it is the same."""
    day, _, clock = end.rpartition(" ")
    return f"{start} to {clock if start.rpartition(' ')[0] == day else end}"


def said_short(each: PullLine, clock: Clock) -> str:
    """Return that more are wanted at once than there are."""
    return (
        f"{short(each.vessel.name)}: {each.most} are wanted at once at {clock(each.start)}, there "
        f"{'is' if each.vessel.count == 1 else 'are'} {each.vessel.count}; borrow {each.short_by} or wash in between."
    )
