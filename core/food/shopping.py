"""The order list of a menu, and on which days to buy: before a thing is wanted, but no sooner than it keeps.

What keeps long is bought on the first trip, what is fresh on the last one that is soon enough; what is wanted on days
too far apart for it to keep is bought on two. The trips are as few as these limits allow, and as late. A thing is
bought at the latest on the day before it is wanted, or on the day itself where it keeps for no day.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from core.food.joining import as_unit, joined
from core.food.keeping import usual_keeps
from core.food.needs import needs_of
from core.food.order_list import Need, OrderLine, Supply, key_of, order_list
from core.food.sound import same_kind
from core.measures.clock import days_before
from core.measures.quantity import Quantity, convert
from core.plan.ids import StepId
from core.plan.menu import Stock
from core.plan.plan import Plan


@dataclass(frozen=True, slots=True)
class Purchase:
    """One item on one trip: `line` is for the needs of this trip, `keeps` its days once bought (None: long).

    `told` says whether the house knows how long it keeps; else it is what is usual. `loose`: a pack of another kind
    of unit than the dishes want, which could not be counted.
    """

    line: OrderLine
    aisle: str
    keeps: int | None
    told: bool
    loose: Quantity | None = None


@dataclass(frozen=True, slots=True)
class Trip:
    """A day to go shopping, in days before the day of plating, and what to buy on it, by aisle."""

    days_before: int
    purchases: tuple[Purchase, ...]


@dataclass(frozen=True, slots=True)
class Apart:
    """An item wanted on days too far apart to keep from the first to the last: bought on these days before."""

    item: str
    keeps: int
    first: int
    last: int
    trips: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Shopping:
    """All trips, the soonest first; what is at home or made in the house already; what had to be parted."""

    trips: tuple[Trip, ...]
    at_home: tuple[Purchase, ...]
    apart: tuple[Apart, ...]


@dataclass(frozen=True, slots=True)
class _Part:
    """An item's needs that one trip serves, with the days before plating's between which it may be bought."""

    purchase: Purchase
    earliest: int | None
    latest: int | None


def supplies_of(plan: Plan) -> dict[str, Supply]:
    """Return what the house knows of items, by their keys; a later line of the same item goes before an earlier."""
    return {key_of(each.item): _supply(each) for each in plan.menu.stocks}


def order_lines(plan: Plan, starts: Mapping[StepId, int] | None = None) -> tuple[OrderLine, ...]:
    """Return one line for each item of the menu, all dishes and units added where they compare, less what is there.

    `starts`: offsets of first starts; None: counted back from serving. A pack or store that does not compare with
    what is wanted is left out. Raise Refusal for amounts that cannot be.
    """
    supplies = supplies_of(plan)
    needs = joined(needs_of(plan, starts), supplies)
    return order_list(needs, {item: _comparable(supply, needs, item)[0] for item, supply in supplies.items()})


def shopping(plan: Plan, starts: Mapping[StepId, int] | None = None) -> Shopping:
    """Return the menu's order list by shopping trip and aisle; `starts` as in order_lines."""
    supplies = supplies_of(plan)
    stocks = {key_of(each.item): each for each in plan.menu.stocks}
    needs = joined(needs_of(plan, starts), supplies)
    parts: list[_Part] = []
    apart: list[tuple[str, list[_Part]]] = []
    for line in order_list(needs):
        key = key_of(line.item)
        supply, loose = _comparable(supplies.get(key, Supply()), line.needs, key)
        found = _parts_of(plan, line, supply, loose, stocks.get(key))
        parts += found
        if len(found) > 1:
            apart.append((line.item, found))
    bought = [each for each in parts if _is_bought(each.purchase.line)]
    days = _trip_days(bought)
    trips = tuple(
        _trip(day, [each.purchase for each in bought if _day_for(each, days) == day]) for day in days
    )
    told = [(item, [each for each in found if _is_bought(each.purchase.line)]) for item, found in apart]
    return Shopping(
        tuple(each for each in trips if each.purchases),
        tuple(each.purchase for each in parts if not _is_bought(each.purchase.line)),
        tuple(_said_apart(plan, item, found, days) for item, found in told if len(found) > 1),
    )


def _supply(stock: Stock) -> Supply:
    return Supply(stock.in_store, stock.pack, stock.usable, stock.sold_as)


def _comparable(supply: Supply, needs: tuple[Need, ...], key: str) -> tuple[Supply, Quantity | None]:
    """Return the supply with its store and pack in the kind of unit wanted, and a pack that is in none."""
    wanted = [each.quantity for each in needs if key_of(each.item) == key and not each.quantity.to_taste]
    store, pack = (_in_kind(each, key, wanted) for each in (supply.in_store, supply.pack))
    loose = supply.pack if pack is None else None
    return replace(supply, in_store=store, pack=pack), loose


def _in_kind(amount: Quantity | None, key: str, wanted: list[Quantity]) -> Quantity | None:
    if amount is None or amount.to_taste or not wanted:
        return amount
    if any(same_kind(amount, each) for each in wanted):
        return amount
    return as_unit(amount, key, wanted[0].unit)


def _is_bought(line: OrderLine) -> bool:
    if line.buy.to_taste:
        return not all(each.at_home for each in line.needs)
    return line.buy.amount > 0


def _parts_of(
    plan: Plan, line: OrderLine, supply: Supply, loose: Quantity | None, stock: Stock | None
) -> list[_Part]:
    aisle = (stock.aisle if stock is not None else "") or line.aisle
    told = stock is not None and stock.keeps is not None
    keeps = stock.keeps if stock is not None and told else usual_keeps(line.item, aisle)
    left = supply.in_store
    found = []
    for group in _groups(plan, line.needs, keeps):
        lines = order_list(group, {key_of(line.item): replace(supply, in_store=left)})
        left = _left_of(left, lines[0])
        days = [_day(plan, each.by) for each in group if each.by is not None and not each.at_home]
        first, last = (max(days), min(days)) if days else (None, None)
        earliest = None if keeps is None or last is None else last + keeps
        latest = None if first is None else first + (0 if keeps == 0 else 1)
        found.append(_Part(Purchase(lines[0], aisle, keeps, told, loose), earliest, latest))
    return found


def _groups(plan: Plan, needs: tuple[Need, ...], keeps: int | None) -> list[list[Need]]:
    """Part an item's needs where it does not keep from the first to the last; those without a time go first."""
    timed = sorted(
        (each for each in needs if each.by is not None), key=lambda each: -_day(plan, each.by or 0)
    )
    groups: list[list[Need]] = [[each for each in needs if each.by is None]]
    begun: int | None = None
    for need in timed:
        day = _day(plan, need.by or 0)
        if need.at_home or keeps is None:
            groups[-1].append(need)
            continue
        bought = day + (0 if keeps == 0 else 1)
        if begun is not None and begun - day > keeps:
            groups.append([])
            begun = None
        groups[-1].append(need)
        begun = bought if begun is None else begun
    order = {id(each): number for number, each in enumerate(needs)}
    return [sorted(group, key=lambda each: order[id(each)]) for group in groups if group]


def _left_of(store: Quantity | None, line: OrderLine) -> Quantity | None:
    """Return what is left in store after a line has had its part."""
    if store is None or store.to_taste or line.purchased.to_taste or not same_kind(store, line.purchased):
        return store
    had = convert(store, line.purchased.unit).amount
    other = line.at_home.amount - had
    used = min(had, max(Fraction(0), line.purchased.amount - other))
    return convert(Quantity(had - used, line.purchased.unit), store.unit)


def _day(plan: Plan, at: int) -> int:
    return days_before(plan.plating, at)


def _trip_days(parts: list[_Part]) -> list[int]:
    """Return the fewest days that serve all, each as late as it can be, the soonest first."""
    found: list[int] = []
    for part in sorted(parts, key=lambda each: -(each.latest or 0)):
        if part.latest is not None and not any(_serves(day, part) for day in found):
            found.append(part.latest)
    return sorted(found, reverse=True) or [1]


def _serves(day: int, part: _Part) -> bool:
    return (part.latest is None or day >= part.latest) and (part.earliest is None or day <= part.earliest)


def _day_for(part: _Part, days: list[int]) -> int:
    """Return on which trip a part is bought: the first for what keeps long, the last for what is fresh or melts."""
    good = [day for day in days if _serves(day, part)]
    late = part.purchase.keeps is not None or part.purchase.aisle.casefold() == "frozen"
    return min(good) if late else max(good)


def _trip(day: int, purchases: list[Purchase]) -> Trip:
    aisles = list(dict.fromkeys(each.aisle for each in purchases))
    aisles.sort(key=lambda aisle: (aisle == "", aisle.casefold()))
    return Trip(day, tuple(sorted(purchases, key=lambda each: aisles.index(each.aisle))))


def _said_apart(plan: Plan, item: str, parts: list[_Part], days: list[int]) -> Apart:
    wanted = [
        _day(plan, need.by) for part in parts for need in part.purchase.line.needs if need.by is not None
    ]
    trips = tuple(_day_for(part, days) for part in parts)
    return Apart(item, parts[0].purchase.keeps or 0, max(wanted), min(wanted), trips)
