"""The fields of a step, declared: what each shows of the step and what it makes of it."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from PySide6.QtCore import QCoreApplication

from app.bridge import OpenPlan
from app.fields import Part, Picked, Spec, Written, attribute, by_key
from app.fields.typed_places import keep_if_any_of, places_of, vessels_of
from app.fields.typed_step import CORE_IF_ANY, LOADS_IF_ANY, TOUCHES, YIELD_IF_ANY
from app.fields.typed_text import COUNT, PHRASE, SENTENCE, WORDS
from app.fields.typed_times import CLOCK_IF_ANY, LENGTH, MINUTES_IF_ANY, limit_of
from app.look.words import clock_text, day_text
from core.measures.refusal import Refusal
from core.plan.calendar import clock_offset
from core.plan.step import Attention, ClockTime, Doneness, Step, Touch


def of_doneness(spec: Spec, part: str, none: Any) -> Part:
    """Return the field of a part of a step's doneness."""

    def get(step: Step) -> Any:
        return none if step.doneness is None else getattr(step.doneness, part)

    def put(step: Step, value: Any) -> Step:
        doneness = replace(step.doneness or Doneness(), **{part: value})
        return replace(step, doneness=None if doneness == Doneness() else doneness)

    return Part(spec, get, put)


def tr(words: str) -> str:
    """Return words in the cook's language."""
    return QCoreApplication.translate("StepFields", words)


def row_fields(opened: OpenPlan) -> dict[str, Part]:
    """Return the fields that every step shows in its row."""
    attentions = [
        (Attention.HANDS_ON, tr("hands on")),
        (Attention.TENDED, tr("by itself, with touches")),
        (Attention.HANDS_OFF, tr("by itself")),
    ]
    fields = [
        attribute(Spec("does", tr("What is done"), SENTENCE, width=200)),
        attribute(
            Spec(
                "length",
                tr("How long: quick/likely/slow"),
                LENGTH,
                tr("How long it takes: 25, or quick/likely/slow such as 20/25/30"),
                width=122,
                grows=0,
            )
        ),
        attribute(
            Spec("attention", tr("How much of a cook it takes"), Picked(lambda: attentions), width=182, grows=0)
        ),
        attribute(
            Spec(
                "uses",
                tr("Where"),
                places_of(lambda: opened.plan.kitchen),
                tr("Such as: oven, 180 C +-15, 2 racks; burner; fridge, 30x20 cm, 6 cm"),
                tr("worktop"),
                width=110,
                grows=4,
            )
        ),
        attribute(
            Spec(
                "vessels",
                tr("In which vessels"),
                vessels_of(lambda: opened.plan.kitchen),
                tr("Vessels of the kitchen, with commas; 2 x Tin for several"),
                tr("no vessel"),
                width=100,
                grows=3,
            )
        ),
        of_doneness(
            Spec("cue", tr("Done when"), PHRASE, tr("The sign by which it is done"), "…", width=110, grows=4),
            "cue",
            "",
        ),
    ]
    return by_key(fields)


def detail_fields(opened: OpenPlan) -> dict[str, Part]:
    """Return the fields that only the chosen step shows."""
    note = attribute(Spec("note", tr("Note"), Written(), grows=4))
    return by_key([*_working(opened), *_in_time(opened), note])


def _working(opened: OpenPlan) -> list[Part]:
    """Return the fields of how a step is worked on."""
    touches = Spec(
        "touches",
        tr("Touches while it cooks"),
        TOUCHES,
        tr("When, how long, what: at 15, 2 min: swap tins; 5 min before the end, 1 min: probe"),
        tr("at 15, 2 min: swap tins"),
        grows=2,
    )
    usual = (MINUTES_IF_ANY, tr("Empty: as everywhere"), tr("as usual"))
    loads = Spec(
        "loads",
        tr("Load by load"),
        LOADS_IF_ANY,
        tr("24 pieces, 8 a load, 2 min between: for the servings it is written for"),
        tr("all at once"),
    )
    yields = Spec(
        "yields",
        tr("Yields for other dishes"),
        YIELD_IF_ANY,
        tr("For the servings it is written for: buttermilk: 450 ml. What follows says how much it takes of it"),
        tr("nothing"),
    )
    return [
        Part(touches, lambda step: step.touches, _with_touches),
        attribute(Spec("put_in", tr("Putting in takes"), *usual)),
        attribute(Spec("take_out", tr("Taking out takes"), *usual)),
        attribute(Spec("hands", tr("Cooks it takes"), COUNT)),
        attribute(Spec("skill", tr("Skill it asks for"), _skills(opened), tr("Empty: anybody can"), tr("anybody"))),
        of_doneness(Spec("core", tr("Done at, in the middle"), CORE_IF_ANY, "", "63 C"), "core", None),
        of_doneness(Spec("rest", tr("Rest that belongs to it"), MINUTES_IF_ANY, "", tr("none")), "rest", None),
        attribute(loads),
        attribute(yields),
    ]


def _in_time(opened: OpenPlan) -> list[Part]:
    """Return the fields of when a step may be done."""
    limit = limit_of(lambda: opened.plan)

    def when(offset: int | None) -> str:
        if offset is None:
            return ""
        at = opened.plan.wall(offset)
        return f"{day_text(at)}, {clock_text(at)}"

    def on_the_clock(clock: ClockTime | None) -> str:
        return "" if clock is None else when(clock_offset(opened.plan, clock))

    clock = Spec(
        "clock",
        tr("Begins by the clock at"),
        CLOCK_IF_ANY,
        tr("A time that the world sets; day 0 is the day of plating, day -1 the day before"),
        "day 0 16:00",
        hint=on_the_clock,
    )
    keeps = Spec(
        "keeps",
        tr("Waits for the table"),
        keep_if_any_of(lambda: opened.plan.kitchen),
        tr("Where nothing follows this step and it differs from the dish"),
        tr("as the dish"),
        grows=2,
    )
    pieces = Spec(
        "least_piece",
        tr("May be done in pieces of"),
        MINUTES_IF_ANY,
        tr("Work of one cook that may be laid down and taken up again: at least so long at a time"),
        tr("in one go"),
    )
    return [
        attribute(Spec("earliest", tr("Not before"), limit, "", "48 h before", hint=when)),
        attribute(Spec("latest", tr("Done by"), limit, "", "12 h before", hint=when)),
        attribute(clock),
        attribute(pieces),
        attribute(keeps),
    ]


def _skills(opened: OpenPlan) -> Any:
    def offers() -> list[str]:
        skills = (skill for cook in opened.plan.kitchen.cooks for skill in cook.skills)
        return list(dict.fromkeys(skills))

    return replace(WORDS, offers=offers)


def _with_touches(step: Step, touches: tuple[Touch, ...]) -> Step:
    """Return a step with touches; one that cooks quite by itself is tended from now on."""
    if touches and step.attention is Attention.HANDS_ON:
        raise Refusal(
            tr("This step has a cook all the while; first choose “by itself, with touches” in its row.")
        )
    attention = Attention.TENDED if touches else step.attention
    return replace(step, touches=touches, attention=attention)
