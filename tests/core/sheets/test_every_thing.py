"""Order list, pull list and menu card read back by poppler: amounts, vessels and dishes, added up here apart."""

from __future__ import annotations

import re
from collections import defaultdict
from fractions import Fraction
from math import ceil

import pytest

from core.plan.ids import StepId, VesselId
from core.plan.meaning import keep_of
from core.plan.menu import Dish, Ingredient
from core.plan.plan import Plan
from core.plan.runs import vessel_runs
from core.plan.step import Holding
from core.sheets.kinds import SheetKind
from core.timetable.timetable import Timetable
from tests.core.sheets.feasts import FEASTS, printed
from tests.core.sheets.paper_rows import CLOCK, table_text
from tests.core.sheets.reading import on_the_wall, pages, squeezed
from tests.core.sheets.told import clock_said

CASES = [*((name, "A4") for name in FEASTS), *(("hall", page) for page in ("A4 across", "Letter", "Letter across"))]


def body(kind: SheetKind, name: str, page: str, heads: str = "") -> str:
    """Return the text of all pages without their heads, feet and repeated column heads."""
    found = []
    for whole in pages(printed(kind, name, page)):
        text = table_text(whole)
        found.append(text.removeprefix(f"{heads} ") if heads else text)
    return " ".join(found)


# ---- order


_UNIT = {
    "kg": ("g", 1000), "g": ("g", 1), "l": ("ml", 1000), "ml": ("ml", 1), "tbsp": ("ml", 15), "tsp": ("ml", 5),
}  # fmt: skip
_PER_ML = {"olive oil": Fraction(91, 100)}
"""Grams of a millilitre of what is weighed here and measured there: Codex CXS 33, olive oil 0.910 to 0.916 at 20 °C."""
_WORDS = r"kg|g|l|ml|tbsp|tsp|bunch(?:es)?|heads?|bulbs?"
AMOUNT = rf"[\d.,]+(?: (?:{_WORDS}))?(?= )"


def amount_of(text: str) -> tuple[str, Fraction]:
    """Return an amount as it is written, in g, ml or pieces; a spoon is 15 or 5 ml (metric kitchen measures)."""
    number, _space, unit = text.partition(" ")
    name, times = _UNIT.get(unit, (re.sub(r"(?:e?s)$", "", unit), 1))
    return name, Fraction(number.replace(",", "")) * times


def wanted_of(dish: Dish, line: Ingredient) -> tuple[str, Fraction] | None:
    """Return how much of an ingredient a dish takes: for its servings, or for so many kilograms of another one."""
    if line.quantity is None or line.quantity.to_taste:
        return None
    name, times = _UNIT.get(line.quantity.unit, (line.quantity.unit, 1))
    much = line.quantity.amount * times * dish.factor
    if line.per_kg_of:
        whole = [each for each in dish.ingredients if each.item == line.per_kg_of and each.quantity is not None]
        of = sum((wanted_of(dish, each) or ("", Fraction(0)))[1] for each in whole) / 1000 / dish.factor
        much *= of
    return name, much


def bought(plan: Plan) -> dict[str, Fraction | None]:
    """Return what is to be bought of each item, in g, ml or pieces (None: some); what the house has or makes is not."""
    made = {step.yields.item.casefold() for step in plan.steps.values() if step.yields is not None}
    found: dict[str, Fraction | None] = {}
    for dish in plan.menu.dishes:
        for line in dish.ingredients:
            item, much = line.item.casefold(), wanted_of(dish, line)
            if item in made or line.on_hand:
                continue
            before = found.get(item)
            found[item] = before if much is None else (before or Fraction(0)) + much[1]
    return found


def aside(plan: Plan) -> set[str]:
    """Return the items of which all that is wanted is in the house or made there."""
    items = {line.item.casefold() for dish in plan.menu.dishes for line in dish.ingredients}
    return items - set(bought(plan))


@pytest.mark.parametrize(("name", "page"), CASES)
def test_order(name: str, page: str) -> None:
    """Every item once on a trip, with what is bought of it in all; each dish with its own part of it."""
    plan, timetable = FEASTS[name]()
    assert not plan.menu.stocks, "packs and stores are tried in tests/core/food"
    text = body(SheetKind.ORDER, name, page, "buy needed on hand for, by")
    buying, _look, home = text.partition("Look that it is there, and enough")
    items = bought(plan)
    rows = order_rows(buying, list(items))
    said = [int(number) for number in re.findall(r"Buy on \w+day \d+ \w+ D[^:]{,30}: (\d+) things?", buying)]
    assert sum(said) == len(rows)
    for item, much in items.items():
        own = [row for row in rows if row[0] == item]
        assert own, item
        trips = [row[3] for row in own]
        assert len(trips) == len(set(trips)), f"{item} stands twice on one trip"
        if much is None:
            assert all(row[1] is None for row in own)
            continue
        got = sum((amount_of(row[1])[1] for row in own if row[1] is not None), Fraction(0))
        step = Fraction(10) if got >= 1000 and amount_of(str(own[0][1]))[0] in {"g", "ml"} else Fraction(1)
        lighter = _PER_ML.get(item, Fraction(1))
        assert much <= got <= much / lighter + step * len(own), (item, float(much), float(got))
        for dish in plan.menu.dishes:
            if any(line.item.casefold() == item and not line.on_hand for line in dish.ingredients):
                named = squeezed(dish.name.partition(",")[0])[:12]
                assert sum(named in squeezed(row[2]) for row in own) >= 1, (item, dish.name)
    for item in aside(plan):
        assert re.search(rf" {re.escape(item)}[,:]", home.casefold()), item
    assert timetable.placed


def order_rows(text: str, items: list[str]) -> list[tuple[str, str | None, str, int]]:
    """Return each row: its item, what to buy (None: some), for what, and on which trip it stands."""
    names = "|".join(one_or_many(item) for item in sorted(items, key=len, reverse=True))
    sign = re.compile(
        rf"(?P<trip>Buy on \w+day \d+ \w+)|(?P<buy>{AMOUNT}) (?P<item>{names}) (?P<needed>{AMOUNT})"
        rf"|(?<= )(?P<taste>{names}), some to taste",
        re.IGNORECASE,
    )
    trip, found = 0, []
    matches = list(sign.finditer(text))
    for number, each in enumerate(matches):
        if each["trip"]:
            trip += 1
            continue
        end = matches[number + 1].start() if number + 1 < len(matches) else len(text)
        said = (each["item"] or each["taste"]).casefold()
        item = next(one for one in items if re.fullmatch(one_or_many(one), said, re.IGNORECASE))
        found.append((item, each["buy"], text[each.end() : end], trip))
    return found


def one_or_many(item: str) -> str:
    """Return a pattern for an item and for one of it: lemons, lemon."""
    head, comma, rest = item.partition(",")
    return re.escape(head).removesuffix("s") + "s?" + re.escape(comma + rest) if head.endswith("s") else re.escape(item)


# ---- pull


def most_at_once(plan: Plan, timetable: Timetable) -> dict[VesselId, tuple[int, int, int, int]]:
    """Return of each vessel the first minute, the most in use at once, and from when to when that many are.

    A run of steps holds its vessels until its food is served where it waits in them, then until they are washed; what
    is never washed again is in use until the last of its kind is.
    """
    found = {}
    for vessel in plan.kitchen.vessels:
        spans: list[tuple[int, int | None, int, int]] = []
        for run in vessel_runs(plan):
            loads = [each for step in run.steps for each in timetable.loads_of.get(step, ())]
            if run.vessel != vessel.id or not loads:
                continue
            empty = max([each.end for each in loads] + [served(plan, step) for step in run.steps])
            washed = [each.end for each in timetable.washings if (each.vessel, each.after) == (vessel.id, run.steps[0])]
            free = empty if vessel.washing == 0 else max([empty, *washed]) if washed else None
            spans.append((min(each.start for each in loads), free, empty, run.count))
        if not spans:
            continue
        last = max(empty for _start, _free, empty, _count in spans)
        ends = [(start, last if free is None else free, count) for start, free, _empty, count in spans]
        minutes: defaultdict[int, int] = defaultdict(int)
        for start, end, count in ends:
            for minute in range(start, end):
                minutes[minute] += count
        most = max(minutes.values())
        begun = min(minute for minute, count in minutes.items() if count == most)
        over = begun
        while minutes.get(over, 0) == most:
            over += 1
        found[vessel.id] = (min(minutes), most, begun, over)
    return found


def served(plan: Plan, step: StepId) -> int:
    keep = keep_of(plan, plan.steps[step])
    return plan.dish_of[step].course if keep is not None and keep.wait.how is Holding.VESSEL else -(10**9)


def weekday_clock(plan: Plan, at: int) -> str:
    far = f"{on_the_wall(plan, at):%-d %b} " if abs(at) > 6 * 1440 else ""
    return f"{on_the_wall(plan, at):%a} {far}{clock_said(plan, at)}"


@pytest.mark.parametrize(("name", "page"), CASES)
def test_pull(name: str, page: str) -> None:
    """Each vessel once: how many of how many, from when, when the most are in use; each dish for the table once."""
    plan, timetable = FEASTS[name]()
    text = body(SheetKind.PULL, name, page)
    whole = squeezed(text)
    wanted = most_at_once(plan, timetable)
    for vessel in plan.kitchen.vessels:
        if vessel.id not in wanted:
            assert squeezed(f"of {vessel.count} {vessel.name}") not in whole
            continue
        first, most, begun, over = wanted[vessel.id]
        size = f", {vessel.size}" if vessel.size else ""
        row = f"{most} of {vessel.count} {vessel.name}{size} {weekday_clock(plan, first)}"
        if most > 1:
            same = on_the_wall(plan, begun).date() == on_the_wall(plan, over).date()
            until = clock_said(plan, over) if same else weekday_clock(plan, over)
            row += f" {most}, {weekday_clock(plan, begun)} to {until}"
        assert whole.count(squeezed(row)) == 1, (row, text)
    assert len(re.findall(r"\d+ of \d+ (?=[A-Z])", text)) == len(wanted) > 0
    table = squeezed(text.partition("For the table")[2])
    for dish in plan.menu.dishes:
        shown = dish.served and bool(dish.ingredients or dish.plating.strip())
        assert table.count(squeezed(f"{dish.name} {weekday_clock(plan, dish.course)}")) == shown, dish.name
        assert not shown or squeezed(f"{weekday_clock(plan, dish.course)} {dish.plating}") in table
    shown = sum(dish.served and bool(dish.ingredients or dish.plating.strip()) for dish in plan.menu.dishes)
    assert len(re.findall(rf"[A-Z][a-z]{{2}} {CLOCK}", text.partition("For the table")[2])) == shown


# ---- menu


@pytest.mark.parametrize(("name", "page"), CASES)
def test_menu(name: str, page: str) -> None:
    """Each dish that is served once, below the time of its course, with its allergens; no guest; nothing else timed."""
    plan, _timetable = FEASTS[name]()
    (card,) = pages(printed(SheetKind.MENU, name, page))
    dishes = [dish for dish in plan.menu.dishes if dish.served and (dish.ingredients or dish.plating.strip())]
    times: list[int] = []
    for at in sorted({dish.course for dish in dishes}):
        if not times or at - times[-1] > 15:
            times.append(at)
    day = f"{on_the_wall(plan, 0):%A %-d %B %Y}"
    copies = card.split(day)[1:]
    assert len(copies) == (2 if "across" in page else 1)
    for copy in copies:
        parts = re.split(rf" ({CLOCK}) ", copy.partition(" Allergens as the kitchen noted them")[0])
        assert parts[1::2] == [clock_said(plan, at) for at in times]
        for dish in plan.menu.dishes:
            place = [number for number, at in enumerate(times) if at <= dish.course][-1:]
            counts = [squeezed(part).count(squeezed(dish.name)) for part in parts[2::2]]
            assert counts == [int(dish in dishes and [number] == place) for number in range(len(times))], dish.name
        for dish in dishes:
            noted = [*dish.allergens, *(one for line in dish.ingredients for one in line.allergens)]
            after = squeezed(copy).partition(squeezed(dish.name))[2]
            assert not noted or after.startswith(squeezed(f"contains {noted[0]}")), dish.name
            own = after[: sum(map(len, noted)) + 80]
            assert all(squeezed(one) in own for one in noted)
        assert not any(guest.name in copy for guest in plan.menu.guests)


def test_amounts_are_read_as_they_are_written() -> None:
    assert amount_of("4.9 kg") == ("g", 4900)
    assert amount_of("2 bunches") == ("bunch", 2)
    assert amount_of("7 tbsp") == ("ml", 105)
    assert ceil(amount_of("12")[1]) == 12
