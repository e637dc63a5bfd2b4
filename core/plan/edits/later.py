"""Edits of the day when people are late: everything is served later, or one dish."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import timedelta

from core.measures.clock import Moment, offset_at
from core.measures.minutes import show_minutes
from core.measures.refusal import Refusal
from core.plan.check_problem import LONGEST
from core.plan.decisions import Pin
from core.plan.edits.edit import Edit
from core.plan.edits.parts import dish_in, with_decisions, with_dish, with_kitchen, with_menu
from core.plan.edits.said import Said
from core.plan.ids import DishId
from core.plan.kitchen import Cook, Station, Window
from core.plan.menu import Dish
from core.plan.plan import Plan
from core.plan.step import Step


@dataclass(frozen=True, slots=True)
class ServeLater(Edit):
    """Plate so many minutes later (below 0: sooner); what the clock says stays by the clock.

    Pins, the plan's beginning, hours, breaks and clock times stay where they are on the wall clock. Courses
    and limits that count from plating move along with it.
    """

    minutes: int

    def said(self, words: Said) -> str:  # noqa: ARG002  it is about no one thing
        """Return what is done."""
        return f"Serve everything {_by(self.minutes)}"

    def change(self, plan: Plan) -> Plan:
        """Return the plan with the later plating."""
        if not self.minutes:
            return plan
        if abs(self.minutes) > LONGEST:
            raise Refusal("Plating would move by more than a year; move it by less, or set its day under Menu.")
        plating = Moment(plan.wall(self.minutes).replace(tzinfo=None, fold=0), plan.plating.zone)
        moved = offset_at(plan.plating, plating.utc())
        days = (plating.local.date() - plan.plating.local.date()) // timedelta(days=1)
        pins = tuple(_pin_kept(pin, moved) for pin in plan.decisions.pins)
        opens = None if plan.opens is None else plan.opens - moved
        later = with_decisions(replace(plan, plating=plating, opens=opens), pins=pins)
        return _days_kept(later, days) if days else later


@dataclass(frozen=True, slots=True)
class ServeDishLater(Edit):
    """Serve one dish so many minutes later than it was to be (below 0: sooner)."""

    dish: DishId
    minutes: int

    def said(self, words: Said) -> str:
        """Return what is done."""
        return f"Serve {words.dish(self.dish)} {_by(self.minutes)}"

    def change(self, plan: Plan) -> Plan:
        """Return the plan with the dish's course moved."""
        dish_in(plan, self.dish)
        return with_dish(plan, self.dish, lambda dish: replace(dish, course=dish.course + self.minutes))


def _by(minutes: int) -> str:
    return f"{show_minutes(abs(minutes))} {'sooner' if minutes < 0 else 'later'}"


def _pin_kept(pin: Pin, moved: int) -> Pin:
    """Return a pin whose start keeps its clock time when plating moves by so many minutes."""
    return pin if pin.start is None else replace(pin, start=pin.start - moved)


def _days_kept(plan: Plan, days: int) -> Plan:
    """Return the plan with hours and clock times counted from plating's new day: so many days later."""

    def spans(windows: tuple[Window, ...]) -> tuple[Window, ...]:
        return tuple(replace(each, days_before=each.days_before + days) for each in windows)

    def station(each: Station) -> Station:
        return replace(each, hours=spans(each.hours)) if each.hours else each

    def cook(each: Cook) -> Cook:
        return replace(each, present=spans(each.present), breaks=spans(each.breaks))

    def step(each: Step) -> Step:
        if each.clock is None:
            return each
        return replace(each, clock=replace(each.clock, days_before=each.clock.days_before + days))

    def dish(each: Dish) -> Dish:
        return replace(each, steps=tuple(step(one) for one in each.steps))

    kitchen = plan.kitchen
    kept = with_kitchen(
        plan,
        stations=tuple(station(each) for each in kitchen.stations),
        cooks=tuple(cook(each) for each in kitchen.cooks),
    )
    return with_menu(kept, dishes=tuple(dish(each) for each in plan.menu.dishes))
