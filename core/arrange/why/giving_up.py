"""Plans in which a wish is given up. This says what giving up means, wish by wish; the solver's literals say the same.

MOST_WAIT, KEEPS: food waits as long as it likes. SERVED: the step may end after its course, and then keeps as many
minutes less. EARLIEST, LATEST, CLOCK, PIN, ORDER, OPENS: gone. STATION: room without end on every station of the
kind, heat and hours as they are. CLOSED: always open. HEAT: any temperatures at once, and hot at once. FIRE: it burns
for ever. NOT_WITH: both at once. VESSEL: as many as one likes. HANDS: without a skill named, helpers without end who
have no skill; of a skill, anybody has it. ABSENT: there day and night. Lengths stay as they were reserved: a wait
that is freed does not make a step longer.
"""

from __future__ import annotations

from collections.abc import Callable, Collection
from dataclasses import replace

from core.arrange.demand import Demand, DemandKind, demands_of
from core.plan import meaning
from core.plan.ids import CookId, DishId, StationId, StepId
from core.plan.kitchen import Cook, Kitchen, Shelf, Station, StationKind
from core.plan.menu import Dish, Link
from core.plan.plan import Plan
from core.plan.step import Keep, Span, Step, Wait

_DAY = 24 * 60
_ROOM = 10_000  # units where there is room without end
_SHELF = 1_000_000  # cm2


def without(plan: Plan, demand: Demand) -> Plan:
    """Return the plan in which one wish is given up and everything else holds."""
    return _GIVEN_UP[demand.kind](plan, demand)


def with_only(plan: Plan, kept: Collection[Demand]) -> Plan:
    """Return the plan in which every wish but these is given up."""
    for demand in demands_of(plan):
        if demand not in kept:
            plan = without(plan, demand)
    return plan


# ---- waits and serving


def _most_wait(plan: Plan, demand: Demand) -> Plan:
    def eased(link: Link) -> Link:
        return replace(link, most=None) if link.key == (_step(demand), demand.after, demand.link) else link

    frozen = _lengths_frozen(plan, _step(demand))
    links = tuple(eased(link) for link in frozen.menu.links)
    return replace(frozen, menu=replace(frozen.menu, links=links))


def _keeps(plan: Plan, demand: Demand) -> Plan:
    frozen = _lengths_frozen(plan, _step(demand))
    keep = meaning.keep_of(frozen, frozen.steps[_step(demand)])
    if keep is None:
        return plan
    return _with_step(frozen, replace(frozen.steps[_step(demand)], keeps=replace(keep, most=None)))


def _served(plan: Plan, demand: Demand) -> Plan:
    """Give the step a dish of its own, served so late that the whole menu could be done before, one by one.

    What it keeps grows as much, so that it must not be done sooner than before. The place where it waits until it is
    served is let go: that wait has no end here.
    """
    plan = _lengths_frozen(plan, _step(demand))
    step, dish = plan.steps[_step(demand)], plan.dish_of[_step(demand)]
    later = _all_in_a_row(plan)
    keep = meaning.keep_of(plan, step)
    if keep is not None:
        most = None if keep.most is None else keep.most + later
        step = replace(step, keeps=Keep(most, Wait(keep.wait.how)))
    own = replace(
        dish, id=DishId(f"{dish.id}~{len(plan.menu.dishes)}"), steps=(step,), course=dish.course + later
    )
    rest = replace(dish, steps=tuple(each for each in dish.steps if each.id != step.id))
    dishes: list[Dish] = []
    for each in plan.menu.dishes:
        dishes += [each] if each.id != dish.id else [rest, own]
    return replace(plan, menu=replace(plan.menu, dishes=tuple(each for each in dishes if each.steps)))


def _all_in_a_row(plan: Plan) -> int:
    """Return whole days in which everything could be done one after the other."""
    minutes = sum(
        max(span.high for span in (step.length, *(way.length for way in step.alternatives)))
        * meaning.load_count(dish, step)
        for dish in plan.menu.dishes
        for step in dish.steps
    )
    minutes += sum(max(0, link.least) for link in plan.menu.links)
    return (minutes // _DAY + 3) * _DAY


def _lengths_frozen(plan: Plan, step_id: StepId) -> Plan:
    """Return the plan in which a step's lengths do not depend on how long its food may wait."""
    step = plan.steps[step_id]

    def frozen(way: int) -> Span:
        held = meaning.reserved(plan, step_id, way)
        return Span(held.length - held.early, held.length, held.length)

    ways = tuple(
        replace(way, length=frozen(number)) for number, way in enumerate(step.alternatives, start=1)
    )
    return _with_step(plan, replace(step, length=frozen(0), alternatives=ways))


# ---- the cook's decisions and the step's own times


def _pin(plan: Plan, demand: Demand) -> Plan:
    pins = tuple(
        pin for pin in plan.decisions.pins if (pin.step, pin.load) != (_step(demand), demand.load)
    )
    return replace(plan, decisions=replace(plan.decisions, pins=pins))


def _order(plan: Plan, demand: Demand) -> Plan:
    orders = tuple(
        order for order in plan.decisions.orders if (order.first, order.then) != (demand.step, demand.after)
    )
    return replace(plan, decisions=replace(plan.decisions, orders=orders))


def _earliest(plan: Plan, demand: Demand) -> Plan:
    return _with_step(plan, replace(plan.steps[_step(demand)], earliest=None))


def _latest(plan: Plan, demand: Demand) -> Plan:
    return _with_step(plan, replace(plan.steps[_step(demand)], latest=None))


def _clock(plan: Plan, demand: Demand) -> Plan:
    return _with_step(plan, replace(plan.steps[_step(demand)], clock=None))


def _opens(plan: Plan, _demand: Demand) -> Plan:
    return replace(plan, opens=None)


# ---- the kitchen


def _station(plan: Plan, demand: Demand) -> Plan:
    kitchen, burners = plan.kitchen, plan.kitchen.of_kind(StationKind.BURNER)
    if demand.kind_of is StationKind.BURNER and all(_plain(kitchen, each) for each in burners):
        return _with_kitchen(plan, replace(kitchen, stations=(*kitchen.stations, *_more_burners(plan))))
    room = _ROOM if demand.kind_of is not StationKind.BURNER else _rings(plan)

    def roomy(station: Station) -> Station:
        if station.kind is not demand.kind_of or (station.units == 0 and not station.shelves):
            return station
        shelves = tuple(Shelf(_SHELF, shelf.height, shelf.name) for shelf in station.shelves)
        return replace(station, units=max(station.units, room), shelves=shelves)

    return _with_stations(plan, roomy)


def _plain(kitchen: Kitchen, station: Station) -> bool:
    shared = any(station in pair for pair in kitchen.apart)
    return station.units == 1 and not (station.hours or station.is_fire or shared)


def _rings(plan: Plan) -> int:
    """Return burners that all steps and all waiting food together could take."""
    loads = [(step, meaning.load_count(dish, step)) for dish in plan.menu.dishes for step in dish.steps]
    uses = [use.units * count for step, count in loads for use in step.uses if use.kind is StationKind.BURNER]
    waits = [link.wait.use for link in plan.menu.links]
    for step, _count in loads:
        keep = meaning.keep_of(plan, step)
        waits.append(keep.wait.use if keep is not None else None)
    uses += [use.units for use in waits if use is not None and use.kind is StationKind.BURNER]
    return max(1, sum(uses))


def _more_burners(plan: Plan) -> tuple[Station, ...]:
    first = plan.kitchen.of_kind(StationKind.BURNER)[0]
    return tuple(replace(first, id=StationId(f"{first.id}~{number}")) for number in range(_rings(plan)))


def _closed(plan: Plan, demand: Demand) -> Plan:
    return _with_stations(plan, lambda each: replace(each, hours=()) if each.id == demand.station else each)


def _heat(plan: Plan, demand: Demand) -> Plan:
    return _with_stations(plan, lambda each: replace(each, heater=None) if each.id == demand.station else each)


def _fire(plan: Plan, demand: Demand) -> Plan:
    def endless(station: Station) -> Station:
        return replace(station, lighting=0, burns=None) if station.id == demand.station else station

    return _with_stations(plan, endless)


def _not_with(plan: Plan, demand: Demand) -> Plan:
    pair = {demand.station, demand.other}

    def apart(station: Station) -> Station:
        if station.id not in pair:
            return station
        return replace(station, not_with=tuple(each for each in station.not_with if each not in pair))

    return _with_stations(plan, apart)


def _vessel(plan: Plan, demand: Demand) -> Plan:
    vessels = tuple(
        replace(each, count=_ROOM) if each.id == demand.vessel else each for each in plan.kitchen.vessels
    )
    return _with_kitchen(plan, replace(plan.kitchen, vessels=vessels))


def _hands(plan: Plan, demand: Demand) -> Plan:
    if not demand.skill:
        wanted = sum(
            step.hands * meaning.load_count(dish, step) for dish in plan.menu.dishes for step in dish.steps
        )
        helpers = tuple(
            Cook(CookId(f"helper~{number}"), f"Helper {number}", night=None) for number in range(2 * wanted)
        )
        return _with_kitchen(plan, replace(plan.kitchen, cooks=(*plan.kitchen.cooks, *helpers)))
    for step in plan.steps.values():
        touches = tuple(
            replace(touch, skill="") if touch.skill == demand.skill else touch for touch in step.touches
        )
        skill = "" if step.skill == demand.skill else step.skill
        if (skill, touches) != (step.skill, step.touches):
            plan = _with_step(plan, replace(step, skill=skill, touches=touches))
    return plan


def _absent(plan: Plan, demand: Demand) -> Plan:
    cooks = tuple(
        replace(each, present=(), breaks=(), night=None) if each.id == demand.cook else each
        for each in plan.kitchen.cooks
    )
    return _with_kitchen(plan, replace(plan.kitchen, cooks=cooks))


# ---- putting back


def _step(demand: Demand) -> StepId:
    """Return the step that a wish is about; for kinds that have one."""
    if demand.step is None:
        raise ValueError(f"a wish of the kind {demand.kind!r} names its step")
    return demand.step


def _with_step(plan: Plan, step: Step) -> Plan:
    dish = plan.dish_of[step.id]
    own = replace(dish, steps=tuple(step if each.id == step.id else each for each in dish.steps))
    dishes = tuple(own if each.id == dish.id else each for each in plan.menu.dishes)
    return replace(plan, menu=replace(plan.menu, dishes=dishes))


def _with_kitchen(plan: Plan, kitchen: Kitchen) -> Plan:
    return replace(plan, kitchen=kitchen)


def _with_stations(plan: Plan, change: Callable[[Station], Station]) -> Plan:
    stations = tuple(change(each) for each in plan.kitchen.stations)
    return _with_kitchen(plan, replace(plan.kitchen, stations=stations))


_GIVEN_UP: dict[DemandKind, Callable[[Plan, Demand], Plan]] = {
    DemandKind.MOST_WAIT: _most_wait,
    DemandKind.KEEPS: _keeps,
    DemandKind.SERVED: _served,
    DemandKind.EARLIEST: _earliest,
    DemandKind.LATEST: _latest,
    DemandKind.CLOCK: _clock,
    DemandKind.PIN: _pin,
    DemandKind.ORDER: _order,
    DemandKind.STATION: _station,
    DemandKind.CLOSED: _closed,
    DemandKind.HEAT: _heat,
    DemandKind.FIRE: _fire,
    DemandKind.NOT_WITH: _not_with,
    DemandKind.VESSEL: _vessel,
    DemandKind.HANDS: _hands,
    DemandKind.ABSENT: _absent,
    DemandKind.OPENS: _opens,
}
