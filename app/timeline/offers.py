"""What the cook may decide about a bar, as lists to choose from: pins, ways, lengths, orders. Values, no widgets."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QCoreApplication

from app.look.words import word
from app.timeline.bar_facts import decides, pin_on
from app.timeline.bars import Bar, BarKind
from app.timeline.scene import Scene
from core.measures.minutes import show_minutes
from core.plan.edits import (
    AddOrder,
    Choose,
    Edit,
    LiftPin,
    PinStep,
    RemoveOrder,
    SetLength,
    SetManner,
    Together,
)
from core.plan.ids import CookId, StationId, StepId
from core.plan.meaning import reserved, way_of
from core.plan.step import Manner, Span, Use
from core.sheets.step_words import done_as

MOST = 9
"""Steps that are offered to go before or after another; more would have to be searched."""


@dataclass(frozen=True, slots=True)
class Offer:
    """One thing to choose: its words, the edit that does it, whether it is so already; `cook` who would get it."""

    words: str
    edit: Edit
    so: bool = False
    cook: CookId | None = None


def pin_offers(scene: Scene, bar: Bar) -> list[Offer]:
    """Return pins of the place or of the cook alone, with the time left to the arranging."""
    placed = scene.timetable.at.get(bar.key) if bar.key is not None else None
    if placed is None or bar.step is None or not decides(scene, bar):
        return []
    kitchen, pin, found = scene.plan.kitchen, pin_on(scene, bar), []
    loose = pin is not None and pin.start is None
    places = [spot.station for spot in placed.spots if spot.station in kitchen.station]
    if places:
        words = translated("Keep it at {place}, at any time").format(place=kitchen.station[places[0]].name)
        edit = _only(bar, words, PinStep(bar.step, bar.load, station=places[0]), pin is not None)
        found.append(Offer(words, edit, loose and pin is not None and pin.station == places[0]))
    cooks = {hand.cook for hand in placed.hands if hand.cook is not None}
    if len(cooks) == 1 and (cook := next(iter(cooks))) in kitchen.cook:
        words = translated("Leave it to {cook}, at any time").format(cook=kitchen.cook[cook].name)
        edit = _only(bar, words, PinStep(bar.step, bar.load, cook=cook), pin is not None)
        found.append(Offer(words, edit, loose and pin is not None and pin.cook == cook))
    return found


def _only(bar: Bar, words: str, pin: PinStep, there: bool) -> Edit:
    """Return an edit after which nothing but this is pinned."""
    assert bar.step is not None
    return Together(words, (LiftPin(bar.step, bar.load), pin)) if there else pin


def has_ways(scene: Scene, bar: Bar) -> bool:
    """Tell whether there is more than one way to do a bar's step."""
    return bar.step is not None and bool(scene.plan.steps[bar.step].alternatives)


def has_spread(scene: Scene, bar: Bar) -> bool:
    """Tell whether a bar's step, in the way it is placed, may take longer or shorter than is likely."""
    if bar.step is None:
        return False
    placed = scene.timetable.at.get(bar.key) if bar.key is not None else None
    span, _uses = way_of(scene.plan, scene.plan.steps[bar.step], placed.way if placed is not None else None)
    return span.low != span.high


def way_offers(scene: Scene, bar: Bar) -> list[Offer]:
    """Return the ways to do a step, each with its length and places, and last to leave it open; [] if it has one."""
    if bar.step is None or not has_ways(scene, bar):
        return []
    step, choice = scene.plan.steps[bar.step], scene.plan.choices.get(bar.step)
    found = []
    for way in range(len(step.alternatives) + 1):
        span, uses = way_of(scene.plan, step, way)
        told = [done_as(step, way), span_text(span), *places_of(scene, uses)]
        found.append(Offer(", ".join(told), Choose(step.id, way), choice is not None and choice.way == way))
    open_words = translated("Whichever fits best")
    return [*found, Offer(open_words, Choose(step.id, None), choice is None)]


def length_offers(scene: Scene, bar: Bar) -> list[Offer]:
    """Return how cautiously a step's length may be reserved, and last to do as the plan does; [] without spread."""
    if bar.step is None or not has_spread(scene, bar):
        return []
    plan, step = scene.plan, scene.plan.steps[bar.step]
    placed = scene.timetable.at.get(bar.key) if bar.key is not None else None
    way = placed.way if placed is not None else None
    own = plan.manners.get(step.id)

    def said(manner: Manner) -> str:
        length = reserved(SetLength(step.id, manner).change(plan), step.id, way).length
        return f"{word(f'manner {manner.name}')} ({show_minutes(length)})"

    found = [Offer(said(manner), SetLength(step.id, manner), own is manner) for manner in Manner]
    words = translated("As the whole plan: {manner}").format(manner=said(plan.decisions.manner))
    return [*found, Offer(words, SetLength(step.id, None), own is None)]


def cook_offers(scene: Scene, bar: Bar) -> list[Offer]:
    """Return the other cooks to whom a step that takes one cook may be given where it stands."""
    placed = scene.timetable.at.get(bar.key) if bar.key is not None else None
    if placed is None or bar.step is None:
        return []
    own = {hand.cook for hand in placed.hands}
    if len(own) != 1:
        return []
    skill = scene.plan.steps[bar.step].skill
    return [
        Offer(cook.name, PinStep(bar.step, bar.load, placed.start, None, cook.id), cook=cook.id)
        for cook in scene.plan.kitchen.cooks
        if cook.id not in own and (not skill or skill in cook.skills)
    ]


def manner_offers(scene: Scene) -> list[Offer]:
    """Return how cautiously lengths may be reserved throughout the plan."""
    manner = scene.plan.decisions.manner
    return [Offer(word(f"manner {each.name}"), SetManner(each), each is manner) for each in Manner]


def order_offers(scene: Scene, lane: int, bar: Bar, *, first: bool) -> list[Offer]:
    """Return the steps that share a bar's lane or place, the nearest first: it goes before (`first`) or after them."""
    if bar.step is None:
        return []
    plan, here = scene.plan, bar.step
    before, after = scene.ordered.get(here, ((), ()))
    known = after if first else before
    linked = {link.after for link in plan.links_from[here]} | {link.before for link in plan.links_to[here]}
    near = [step for step in _sharing(scene, lane, bar) if step not in linked and step not in known]
    found = []
    for other in (*known, *near[:MOST]):
        pair = (here, other) if first else (other, here)
        so = other in known
        edit: Edit = RemoveOrder(*pair) if so else AddOrder(*pair)
        found.append(Offer(step_text(scene, other), edit, so))
    return found


def _sharing(scene: Scene, lane: int, bar: Bar) -> list[StepId]:
    """Return the other steps of a lane, or of the place where a bar's step is done, the nearest in time first."""
    placed = scene.timetable.at.get(bar.key) if bar.key is not None else None
    places = {spot.station for spot in placed.spots} if placed is not None else set()
    near: dict[StepId, int] = {}
    for other in scene.lanes[lane].bars:
        if other.step is not None and other.kind is not BarKind.STAY:
            away = abs(other.start - bar.start)
            near[other.step] = min(near.get(other.step, away), away)
    for each in scene.timetable.placed:
        if each.step in scene.plan.steps and any(spot.station in places for spot in each.spots):
            away = abs(each.start - bar.start)
            near[each.step] = min(near.get(each.step, away), away)
    near.pop(bar.step, None)  # type: ignore[arg-type]  # an order is never asked of a bar without a step
    return sorted(near, key=lambda step: (near[step], step))


def span_text(span: Span) -> str:
    """Return a length: "25 min", or "20 min to 40 min, likely 25 min"."""
    if span.low == span.high:
        return show_minutes(span.likely)
    said = translated("{low} to {high}, likely {likely}")
    return said.format(low=show_minutes(span.low), high=show_minutes(span.high), likely=show_minutes(span.likely))


def places_of(scene: Scene, uses: tuple[Use, ...]) -> list[str]:
    """Return the names of the places that a way of a step needs: a station by name, else its kind."""
    from app.look.words import kind_word

    stations = scene.plan.kitchen.station
    found = []
    for use in uses:
        named: StationId | None = use.station
        found.append(stations[named].name if named in stations and named is not None else kind_word(use.kind))
    return list(dict.fromkeys(found))


def step_text(scene: Scene, step: StepId) -> str:
    """Return a step with its dish: "Potato gratin: Peel and slice"."""
    does, dish = done_as(scene.plan.steps[step]), scene.plan.dish_of[step].name
    return does if dish.casefold() in does.casefold() else f"{dish}: {does}"


def translated(text: str) -> str:
    """Return a text of the timeline in the cook's language."""
    return QCoreApplication.translate("timeline", text)
