"""A bar as a card: name, times, range of length, places, waits, decisions and clashes; as lines or as rich text."""

from __future__ import annotations

from dataclasses import dataclass
from html import escape

from app.look.colours import Palette
from app.look.words import clock_text, word
from app.timeline import spoken
from app.timeline.bar_facts import pin_on
from app.timeline.bars import Bar, BarKind, Lane
from app.timeline.food_colours import food_colour
from app.timeline.offers import span_text, step_text, translated
from app.timeline.scene import Scene
from core.measures.minutes import show_minutes
from core.plan.ids import StepId
from core.plan.meaning import way_of
from core.plan.menu import Link, LinkKind


@dataclass(frozen=True, slots=True)
class Card:
    """What a card says: `rows` are a label and its text each, `alarms`, `food`: what clashes, which food limits."""

    title: str
    rows: tuple[tuple[str, str], ...]
    alarms: tuple[str, ...] = ()
    tone: int | None = None
    food: tuple[str, ...] = ()


def card_of(scene: Scene, bar: Bar, lane: Lane) -> Card:
    """Return the card of a bar."""
    rows = [(translated("when"), spoken.when_of(scene, bar))]
    rows += [(translated("length"), text) for text in _length(scene, bar)]
    said_elsewhere = {word("pinned"), translated("clashes")}
    details = ", ".join(text for text in spoken.details_of(scene, bar, lane) if text not in said_elsewhere)
    rows += [(translated("where"), details)] if details else []
    rows += [(translated("part"), text) for text in spoken.parts_told(scene, bar)]
    if bar.kind is not BarKind.STAY and bar.step is not None:
        rows += [(translated("waits for"), text) for text in _waits_for(scene, bar.step)]
    rows += [(translated("then"), text) for text in spoken.waits_of(scene, bar)]
    rows += [(translated("decided"), text) for text in decided(scene, bar)]
    alarms = tuple(dict.fromkeys(clash.sentence for clash in spoken.clashes_on(scene, bar, lane)))
    food = tuple(dict.fromkeys(mark.said for mark in scene.food.on(bar)))
    return Card(spoken.name_of(scene, bar), tuple(rows), alarms, None if bar.step is None else bar.tone, food)


def lines_of(card: Card) -> list[str]:
    """Return a card as lines of plain text."""
    return [card.title, *(f"{label}: {text}" for label, text in card.rows), *card.alarms, *card.food]


def html_of(card: Card, palette: Palette, width: int = 330) -> str:
    """Return a card as rich text in the colours of a theme, its text so many points wide."""
    rows, before = [], ""
    for label, text in card.rows:
        said = "" if label == before else escape(label)
        before = label
        rows.append(
            f"<tr><td style='color:{palette.faint}; padding-right:10px'>{said}</td><td>{escape(text)}</td></tr>"
        )
    edge = palette.rail if card.tone is None else palette.tone(card.tone).edge
    said_of = [(palette.clash, text) for text in card.alarms] + [(food_colour(palette), text) for text in card.food]
    alarms = "".join(
        f"<p style='color:{colour}; margin-top:6px; margin-bottom:0'>{escape(text)}</p>" for colour, text in said_of
    )
    return (
        f"<table cellspacing='0' cellpadding='0'><tr><td width='4' bgcolor='{edge}'></td><td width='10'></td>"
        f"<td width='{width}'><p style='margin-bottom:4px; color:{palette.ink}'><b>{escape(card.title)}</b></p>"
        f"<table cellspacing='0' cellpadding='1' style='color:{palette.ink}'>{''.join(rows)}</table>{alarms}"
        "</td></tr></table>"
    )


def decided(scene: Scene, bar: Bar) -> list[str]:
    """Return what the cook decided about a bar's step, a sentence each."""
    if bar.step is None or bar.kind is BarKind.STAY:
        return []
    plan, found, pin = scene.plan, [], pin_on(scene, bar)
    if pin is not None:
        found.append(word("pinned") if pin.start is not None else _loosely(scene, bar))
    if bar.step in plan.choices:
        found.append(translated("this way chosen"))
    if bar.step in plan.manners:
        found.append(translated("{length} reserved").format(length=word(f"manner {plan.manners[bar.step].name}")))
    before, after = scene.ordered.get(bar.step, ((), ()))
    found += [translated("only after {step}").format(step=step_text(scene, step)) for step in before]
    found += [translated("before {step}").format(step=step_text(scene, step)) for step in after]
    return found


def _loosely(scene: Scene, bar: Bar) -> str:
    pin, kitchen = pin_on(scene, bar), scene.plan.kitchen
    assert pin is not None
    named = [kitchen.station[pin.station].name] if pin.station in kitchen.station and pin.station is not None else []
    named += [kitchen.cook[pin.cook].name] if pin.cook in kitchen.cook and pin.cook is not None else []
    return translated("kept with {who}, at any time").format(who=", ".join(named))


def _length(scene: Scene, bar: Bar) -> list[str]:
    """Return from how short to how long it may take, where that differs and the bar is the whole step."""
    placed = scene.timetable.at.get(bar.key) if bar.key is not None else None
    if placed is None or bar.kind is not BarKind.STEP:
        return []
    span, _uses = way_of(scene.plan, scene.plan.steps[placed.step], placed.way)
    return [span_text(span)] if span.low != span.high else []


def _waits_for(scene: Scene, step: StepId) -> list[str]:
    """Return what a step waits for, with when that ends and how long it may lie between."""
    found = []
    for link in scene.plan.links_to.get(step, ()):
        loads = scene.timetable.loads_of.get(link.before, ())
        said = step_text(scene, link.before)
        if loads and link.kind is LinkKind.END_TO_START:
            said += f", {clock_text(scene.plan.wall(max(each.end for each in loads)))}"
        found.append(said + _between(link))
    return found


def _between(link: Link) -> str:
    """Return how long must and may lie between two linked steps: " (10 min to 40 min between)"."""
    if link.most is not None and link.least:
        said = translated(" ({least} to {most} between)")
        return said.format(least=show_minutes(link.least), most=show_minutes(link.most))
    if link.least:
        return translated(" ({least} between at least)").format(least=show_minutes(link.least))
    if link.most is not None:
        return translated(" ({most} between at most)").format(most=show_minutes(link.most))
    return ""
