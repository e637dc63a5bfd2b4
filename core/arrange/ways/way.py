"""A way out as a value: one edit, what it changes in fields, the timetable that proves it, and its price."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from core.plan.edits import Edit
from core.plan.ids import CookId, DishId, StationId, StepId, VesselId
from core.plan.menu import LinkKind
from core.timetable.timetable import Timetable


class WayKind(StrEnum):
    """Kinds of ways out, each with what the cook gives up."""

    SERVE_LATER = "serve everything later"
    DISH_LATER = "serve one dish later"
    WAIT_LONGER = "let food wait longer"
    WIDER_HEAT = "bear another oven setting"
    LIFT_ORDER = "lift an order"
    LIFT_PIN = "lift a pin"
    MAKE_AHEAD = "begin sooner than allowed"
    DONE_LATER = "be done later than asked"
    MOVE_CLOCK = "move what is fixed by the clock"
    BIGGER_LOADS = "put more into a load"
    SMALLER_LOADS = "cook it in more rounds"
    FEWER_SERVINGS = "cook for fewer"
    WAVES = "serve in waves"
    ELSEWHERE = "use another place"
    STACK = "stack on a board"
    BORROW_STATION = "borrow a station"
    SECOND_FIRE = "light another fire"
    BORROW_VESSEL = "borrow a vessel"
    HELPER = "ask somebody to help"
    FEWER_HANDS = "do it with fewer hands"
    NOVICE = "let anybody do it"
    SHORTER = "reserve the likely length"
    OTHER_WAY = "do it another way"
    LEAVE_OUT_DISH = "leave a dish out"
    LEAVE_OUT_STEP = "leave a step out"


class Unit(StrEnum):
    """What the numbers of a change count; OFFSET is a moment, minutes from plating."""

    MINUTES = "minutes"
    OFFSET = "minutes from plating"
    DEGREES = "°C"
    PIECES = "pieces"
    PER_LOAD = "pieces in a load"
    LOADS = "loads"
    SERVINGS = "servings"
    AREA = "cm2 of shelf"
    UNITS = "units of a station"
    FIRES = "fires"
    VESSELS = "vessels"
    COOKS = "cooks"
    WAY = "number of the way"
    NOTHING = "it is there or not"


@dataclass(frozen=True, slots=True)
class Change:
    """One thing that a way out changes: what it is about, from what, to what. Only what is meant is filled in.

    `was` and `now` in `unit`; `begins` and `ends`: for which stretch (offsets from plating; with plating moved,
    from the new one). `after` and `link` are of a link; `station` is the place (the new one where a thing moves),
    `stood_in` the former one; `name` is that of a thing the plan has not yet.
    """

    unit: Unit
    was: int | None = None
    now: int | None = None
    dish: DishId | None = None
    step: StepId | None = None
    after: StepId | None = None
    link: LinkKind | None = None
    station: StationId | None = None
    stood_in: StationId | None = None
    vessel: VesselId | None = None
    cook: CookId | None = None
    begins: int | None = None
    ends: int | None = None
    skill: str = ""
    name: str = ""


@dataclass(frozen=True, slots=True)
class Effect:
    """What the day looks like with a way out. Offsets from the plan's plating as it was.

    `begins`: when work begins; `served`: when the last dish is; `moved`: steps that begin at another minute than in
    the timetable seen before; `lost`: steps that need not be done; `wanted`: what the plan must
    now get elsewhere (by-products).
    """

    begins: int = 0
    served: int = 0
    moved: tuple[StepId, ...] = ()
    lost: tuple[StepId, ...] = ()
    wanted: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class WayOut:
    """A change after which all meets. `edit(plan)` is the plan with it; `timetable` has no clash in that plan.

    `size` is how far the change goes in its own unit (minutes, degrees, pieces); `smallest`: the next smaller
    one was asked too, and nothing was found. `price` is what the cook gives up (core.arrange.ways.prices).
    """

    kind: WayKind
    edit: Edit
    changes: tuple[Change, ...]
    timetable: Timetable
    price: int
    size: int = 1
    smallest: bool = True
    effect: Effect = Effect()
