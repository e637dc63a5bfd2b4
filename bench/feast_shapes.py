"""Shapes of dishes for random feasts: seven steps each, from overnight salting to what is fried last."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from itertools import pairwise
from random import Random
from typing import Any

from bench.feast_kitchen import ABLE, POT, TIN, TRAY
from core.plan.ids import DishId, StepId, VesselId, step_id
from core.plan.kitchen import StationKind
from core.plan.menu import Dish, Link
from core.plan.step import (
    Attention,
    Heat,
    Holding,
    Keep,
    Loads,
    Span,
    Step,
    Touch,
    Use,
    VesselUse,
    Wait,
)

DAY = 24 * 60
BURNER = Use(StationKind.BURNER)
MIXER = Use(StationKind.MACHINE)


@dataclass
class Draft:
    """A dish in the making; lengths are drawn around the minutes given."""

    id: DishId
    chance: Random
    steps: list[Step] = field(default_factory=list)
    links: list[Link] = field(default_factory=list)

    def by_hand(self, name: str, minutes: int, *uses: Use, pot: VesselId | None = None, **more: Any) -> StepId:
        """Add a hands-on step."""
        return self._add(name, minutes, Attention.HANDS_ON, uses, pot, more)

    def alone(self, name: str, minutes: int, *uses: Use, pot: VesselId | None = None, **more: Any) -> StepId:
        """Add a step that cooks, rests or chills by itself, with the touches given."""
        attention = Attention.TENDED if "touches" in more else Attention.HANDS_OFF
        return self._add(name, minutes, attention, uses, pot, more)

    def then(self, *steps: StepId, least: int = 0, most: int | None = None, wait: Wait = Wait()) -> None:  # noqa: B008
        """Link steps one after the other, all with these waits."""
        self.links += [Link(one, other, least, most, wait=wait) for one, other in pairwise(steps)]

    def _add(
        self, name: str, minutes: int, attention: Attention, uses: tuple[Use, ...], pot: VesselId | None, more: Any
    ) -> StepId:
        likely = max(2, round(minutes * self.chance.uniform(0.85, 1.2)))
        span = Span(max(1, round(likely * 0.9)), likely, round(likely * 1.15))
        made = step_id(self.id, name.replace(" ", "-"))
        vessels = (VesselUse(pot),) if pot is not None else ()
        words = name.capitalize()
        self.steps.append(Step(made, words, span, attention, uses=uses, vessels=vessels, **more))
        return made


def oven(setting: int, spread: int, steady: bool = True) -> Use:
    """Return one rack at a setting in °C, so many degrees to either side."""
    return Use(StationKind.OVEN, heat=Heat(setting, setting - spread, setting + spread, steady))


def fridge(chance: Random, area: int, raw: bool = False) -> Use:
    """Return a place on a shelf, in steps of 50 cm2."""
    return Use(StationKind.FRIDGE, area=area + 50 * chance.randrange(-4, 5), height=12, raw=raw)


def chilled(chance: Random, area: int) -> Wait:
    """Return a wait in the fridge."""
    return Wait(Holding.FRIDGE, fridge(chance, area))


def roast(d: Draft) -> Keep:
    """Draft a joint: salted a day ahead, seared hot, turned down, rested, carved; a sauce beside it."""
    salt = d.by_hand("salt", 10)
    dry = d.alone("dry", 15 * 60, fridge(d.chance, 900, raw=True))
    temper = d.alone("temper", 45)
    sear = d.alone("sear", 25, oven(220, 15), pot=TIN)
    cook = d.alone("roast", 75, oven(160, 15, steady=False), pot=TIN, touches=(Touch(10, 1, "probe", True),))
    carve = d.by_hand("carve", 10, skill=ABLE)
    d.by_hand("sauce", 15, BURNER, pot=POT, keeps=Keep(60))
    d.then(salt, dry, most=60)
    d.then(dry, temper, most=DAY, wait=chilled(d.chance, 900))
    d.then(temper, sear, most=45)
    d.then(sear, cook, most=0)
    d.then(cook, carve, least=20, most=90)
    return Keep(25)


def bread(d: Draft) -> Keep:
    """Draft a loaf with a night in the fridge and a short time when it is ready to bake."""
    folds = tuple(Touch(at, 2, "fold") for at in (25, 50, 75))
    steps = (
        d.by_hand("mix", 12, MIXER),
        d.alone("rest", 100, touches=folds),
        d.alone("cold proof", 12 * 60, fridge(d.chance, 600)),
        d.by_hand("shape", 12),
        d.alone("last proof", 70),
        d.alone("bake", 28, oven(230, 10), pot=TRAY),
        d.alone("cool", 40),
    )
    d.then(*steps[:3], most=30)
    d.then(*steps[2:4], most=8 * 60, wait=chilled(d.chance, 600))
    d.then(*steps[3:5], most=10)
    d.then(*steps[4:6], most=45)
    d.then(*steps[5:])
    return Keep(8 * 60)


def braise(d: Draft) -> Keep:
    """Draft a pot of meat: browned, braised the day before, chilled, warmed up again."""
    steps = (
        d.by_hand("trim", 10),
        d.by_hand("brown", 18, BURNER, pot=POT),
        d.alone("simmer", 15, BURNER, pot=POT, touches=(Touch(6, 1, "skim"),)),
        d.alone("braise", 150, oven(150, 15), pot=POT),
        d.alone("chill", 10 * 60, fridge(d.chance, 700)),
        d.alone("reheat", 40, BURNER, pot=POT, touches=(Touch(15, 1, "stir"), Touch(30, 1, "stir"))),
        d.by_hand("finish", 5, BURNER, pot=POT),
    )
    d.then(*steps[:2], most=2 * 60)
    d.then(*steps[1:3], most=10)
    d.then(*steps[2:4], most=15)
    d.then(*steps[3:5], least=30, most=90)
    d.then(*steps[4:6], most=DAY, wait=chilled(d.chance, 700))
    d.then(*steps[5:], most=20)
    return Keep(60)


def gratin(d: Draft) -> Keep:
    """Draft sliced roots in cream: assembled ahead, baked, stood."""
    steps = (
        d.by_hand("peel", 20),
        d.by_hand("slice", 10),
        d.by_hand("simmer", 12, BURNER, pot=POT),
        d.by_hand("assemble", 6),
        d.alone("bake", 65, oven(170, 15), pot=TIN),
        d.alone("stand", 15),
        d.by_hand("portion", 5),
    )
    d.then(*steps[:2], most=6 * 60)
    d.then(*steps[1:3], most=60)
    d.then(*steps[2:4], most=45)
    d.then(*steps[3:5], most=18 * 60, wait=chilled(d.chance, 900))
    d.then(*steps[4:6], most=0)
    d.then(*steps[5:], most=60)
    return Keep(75)


def greens(d: Draft) -> Keep:
    """Draft leaves blanched, shocked and tossed warm at the last minute."""
    wash, trim = d.by_hand("wash", 10), d.by_hand("trim", 14)
    dressing = d.by_hand("dressing", 8)
    water = d.alone("heat water", 20, BURNER, pot=POT)
    blanch = d.by_hand("blanch", 6, BURNER, pot=POT)
    shock, toss = d.by_hand("shock", 5), d.by_hand("toss", 5, BURNER)
    d.then(wash, trim, most=6 * 60)
    d.then(trim, blanch, most=DAY, wait=chilled(d.chance, 500))
    d.then(water, blanch, most=40)
    d.then(blanch, shock, most=4)
    d.then(shock, toss, most=6 * 60)
    d.then(dressing, toss, most=DAY)
    return Keep(30)


def skewers(d: Draft) -> Keep:
    """Draft meat marinated in the fridge, grilled in two loads."""
    cut, marinade = d.by_hand("cut", 14), d.by_hand("marinade", 8)
    soak = d.alone("marinate", 4 * 60, fridge(d.chance, 500, raw=True))
    thread = d.by_hand("thread", 14)
    turn = (Touch(4, 1, "turn"),)
    grill = d.alone("grill", 8, Use(StationKind.GRILL, 6), touches=turn, loads=Loads(12, 6, 2))
    platter = d.by_hand("platter", 4)
    d.by_hand("sauce", 8, keeps=Keep(6 * 60))
    d.then(cut, soak, most=60)
    d.then(marinade, soak, most=6 * 60)
    d.then(soak, thread, most=15 * 60, wait=chilled(d.chance, 500))
    d.then(thread, grill, most=3 * 60)
    d.then(grill, platter, most=30)
    return Keep(30)


def set_cream(d: Draft) -> Keep:
    """Draft a cold dessert that sets for hours and waits in the fridge."""
    soak = d.alone("soak", 10)
    warm, mix, pour = d.by_hand("warm", 10, BURNER, pot=POT), d.by_hand("mix", 8), d.by_hand("pour", 8)
    cold = d.alone("set", 6 * 60, fridge(d.chance, 800))
    topping, unmould = d.by_hand("topping", 10), d.by_hand("unmould", 8)
    d.then(soak, warm, mix, most=15)
    d.then(mix, pour, most=30)
    d.then(pour, cold, most=20)
    d.then(cold, unmould, most=DAY, wait=chilled(d.chance, 800))
    d.then(topping, unmould, most=8 * 60)
    return Keep(90, chilled(d.chance, 800))


def fritters(d: Draft) -> Keep:
    """Draft what is fried in two loads and good for a few minutes only."""
    grate, batter = d.by_hand("grate", 10), d.by_hand("batter", 8)
    rest = d.alone("rest", 45)
    d.by_hand("dip", 8, keeps=Keep(6 * 60))
    oil = d.alone("heat oil", 15, BURNER, pot=POT)
    fry = d.by_hand("fry", 5, BURNER, pot=POT, loads=Loads(16, 8, 2))
    salt = d.by_hand("salt", 2)
    d.then(grate, rest, most=30)
    d.then(batter, rest, most=3 * 60)
    d.then(rest, fry, most=4 * 60)
    d.then(oil, fry, most=15)
    d.then(fry, salt, most=12)
    return Keep(12)


def tart(d: Draft) -> Keep:
    """Draft pastry chilled, baked blind, filled and baked again, cooled."""
    dough = d.by_hand("dough", 12, MIXER)
    chill = d.alone("chill", 60, fridge(d.chance, 400))
    roll = d.by_hand("roll", 10)
    blind = d.alone("bake blind", 20, oven(190, 10), pot=TRAY)
    filling = d.by_hand("filling", 10, MIXER)
    bake = d.alone("bake", 38, oven(160, 10), pot=TRAY)
    cool = d.alone("cool", 60)
    d.then(dough, chill, most=30)
    d.then(chill, roll, most=DAY, wait=chilled(d.chance, 400))
    d.then(roll, blind, most=60)
    d.then(blind, bake, most=3 * 60)
    d.then(filling, bake, most=4 * 60)
    d.then(bake, cool, most=0)
    return Keep(8 * 60)


def roots(d: Draft) -> Keep:
    """Draft roots roasted hot, glazed and tossed."""
    peel, cut, season = d.by_hand("peel", 18), d.by_hand("cut", 12), d.by_hand("season", 4)
    cook = d.alone("roast", 40, oven(200, 15), pot=TRAY, touches=(Touch(20, 2, "turn"),))
    glaze = d.by_hand("glaze", 9, BURNER, pot=POT)
    toss, garnish = d.by_hand("toss", 3), d.by_hand("garnish", 2)
    d.then(peel, cut, most=6 * 60)
    d.then(cut, season, most=8 * 60)
    d.then(season, cook, most=60)
    d.then(cook, toss, most=60)
    d.then(glaze, toss, most=90)
    d.then(toss, garnish, most=20)
    return Keep(40)


Shape = Callable[[Draft], Keep]

DOZEN: tuple[tuple[str, Shape, tuple[int, ...]], ...] = (
    # what has the least choice of moments first
    ("fritters", fritters, (-45, 0)),
    ("roast", roast, (0,)),
    ("roots", roots, (0, 0, -45)),
    ("squash", roots, (0, 0, -45)),
    ("greens", greens, (0,)),
    ("salad", greens, (-45, 0)),
    ("gratin", gratin, (0,)),
    ("skewers", skewers, (-45, 0)),
    ("braise", braise, (0,)),
    ("bread", bread, (-45, 0)),
    ("tart", tart, (75,)),
    ("cream", set_cream, (75, 90)),
)
"""Name, shape and the courses it may belong to, of each dozen dishes."""


ELSEWHEN = (-90, -45, 30, 75)
"""Courses of dishes that find no place in the one they belong to."""


def drafted(number: int, chance: Random, elsewhen: bool = False) -> tuple[Dish, tuple[Link, ...]]:
    """Return the dish of a number (each dozen has the same shapes) with lengths drawn by chance, and its links."""
    name, shape, courses = DOZEN[number % len(DOZEN)]
    courses = ELSEWHEN if elsewhen else courses
    draft = Draft(DishId(f"{name}-{number // len(DOZEN) + 1}"), chance)
    keep = shape(draft)
    words = f"{name.capitalize()} {number // len(DOZEN) + 1}"
    dish = Dish(draft.id, words, tuple(draft.steps), course=chance.choice(courses), keep=keep)
    return dish, tuple(draft.links)
