"""From the tables of a written plan to a plan: ids, and the links between steps."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from core.intake.text.dishes import DishText, named_step
from core.intake.text.faults import Fault, Place
from core.intake.text.follows import AfterText
from core.intake.text.nearest import did_you_mean
from core.intake.text.steps import StepText
from core.intake.text.whole import PlanText
from core.measures.refusal import Refusal, quoted
from core.plan.decisions import Choice
from core.plan.ids import CookId, DishId, StationId, StepId, VesselId, step_id
from core.plan.kitchen import Kitchen, Station, Vessel
from core.plan.menu import Link, Menu
from core.plan.plan import Plan


def plan_of(text: PlanText, faults: list[Fault]) -> Plan:
    """Return the plan of a text; what it names wrongly is added to the faults and left out."""
    dishes = tuple(each.dish(DishId(dish)) for dish, each in text.dish.items())
    steps = {step.id: step for dish in dishes for step in dish.steps}
    choices: list[Choice] = []
    for number, choice in enumerate(text.decisions.choices):
        try:
            choices.append(choice.choice(steps))
        except Refusal as refusal:
            faults.append(Fault(("decisions", "choices", number), refusal.text))
    return Plan(
        name=text.name,
        plating=text.plating,
        menu=Menu(
            dishes,
            tuple(links_of(text, faults)),
            tuple(each.stock() for each in text.stock),
            tuple(each.guest() for each in text.guest),
            text.covers,
        ),
        kitchen=kitchen_of(text, faults),
        decisions=text.decisions.decisions(tuple(choices)),
        transfer=text.transfer,
        opens=text.opens,
        mark=text.mark,
    )


def kitchen_of(text: PlanText, faults: list[Fault]) -> Kitchen:
    """Return the kitchen of a text; stations named wrongly are added to the faults and left out."""
    return Kitchen(
        text.kitchen,
        tuple(_station_of(StationId(station), text, faults) for station in text.station),
        tuple(_vessel_of(VesselId(vessel), text, faults) for vessel in text.vessel),
        tuple(each.cook(CookId(cook)) for cook, each in text.cook.items()),
        text.walk,
        text.room,
    )


def _station_of(station: StationId, text: PlanText, faults: list[Fault]) -> Station:
    found = text.station[station].station(station)
    others = [each for each in text.station if each != station]
    there = _stations_there(found.not_with, others, text, faults, ("station", station, "not_with"))
    return replace(found, not_with=there)


def _vessel_of(vessel: VesselId, text: PlanText, faults: list[Fault]) -> Vessel:
    found = text.vessel[vessel].vessel(vessel)
    there = _stations_there(found.fits, list(text.station), text, faults, ("vessel", vessel, "fits"))
    return replace(found, fits=there)


def _stations_there(
    named: tuple[StationId, ...], others: list[str], text: PlanText, faults: list[Fault], place: Place
) -> tuple[StationId, ...]:
    """Return those of the stations named that the text has; for each other one a fault names a near one."""
    for number, other in enumerate(named):
        if other not in text.station:
            mend = did_you_mean(other, others) if others else "take it out."
            faults.append(Fault((*place, number), f"There is no station {quoted(other)}; {mend}"))
    return tuple(each for each in named if each in text.station)


def links_of(text: PlanText, faults: list[Fault]) -> Iterator[Link]:
    """Yield all links: those of each step in the menu's order, then those written by themselves."""
    known = {step_id(DishId(dish), local) for dish, each in text.dish.items() for local in each.step}
    for dish, each in text.dish.items():
        yield from _links_of_dish(DishId(dish), each, known, faults)
    for number, link in enumerate(text.link):
        missing = [(key, step) for key in ("before", "after") if (step := getattr(link, key)) not in known]
        for key, step in missing:
            faults.append(
                Fault(("link", number, key), f"There is no step {quoted(step)}; {did_you_mean(step, known)}")
            )
        if not missing:
            yield link.link()


def _links_of_dish(dish: DishId, text: DishText, known: set[StepId], faults: list[Fault]) -> Iterator[Link]:
    above: tuple[str, StepText] | None = None
    for local, step in text.step.items():
        here: Place = ("dish", dish, "step", local)
        if step.after is None and above is not None:
            before, earlier = above
            yield _after(before, earlier).link(step_id(dish, before), step_id(dish, local))
        elif above is not None and above[1].wait is not None:
            faults.append(_idle_wait(dish, above[0], f"{local}, the step below, says itself what it follows"))
        for key, number, each in _afters(step):
            before_id = named_step(dish, each.step)
            if before_id in known:
                yield each.link(before_id, step_id(dish, local))
                continue
            near = {name.removeprefix(f"{dish}.") for name in known}
            sentence = f"There is no step {quoted(each.step)}; {did_you_mean(each.step, near)}"
            faults.append(Fault((*here, key, number), sentence))
        above = (local, step)
    if above is not None and above[1].wait is not None:
        faults.append(_idle_wait(dish, above[0], "no step comes below it"))


def _after(before: str, earlier: StepText) -> AfterText:
    wait = earlier.wait
    if wait is None:
        return AfterText(step=before)
    return AfterText.model_construct(
        step=before, least=wait.least, most=wait.most, how=wait.how, place=wait.place, brings=wait.brings
    )


def _afters(step: StepText) -> Iterator[tuple[str, int, AfterText]]:
    for key, entries in (("after", step.after or []), ("also_after", step.also_after)):
        for number, each in enumerate(entries):
            yield key, number, each


def _idle_wait(dish: DishId, local: str, why: str) -> Fault:
    mend = "use keeps for food that waits until it is served, or write the wait at the step that follows"
    return Fault(("dish", dish, "step", local, "wait"), f"The wait leads nowhere: {why}; {mend}.")
