"""From a draft to a dish: what was told becomes steps, waits and ingredients; what was not must be answered first."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from core.intake.draft_value import Draft, DraftIngredient
from core.measures.refusal import Refusal, quoted
from core.plan.check import found as problems_of
from core.plan.check_problem import Family
from core.plan.ids import DishId, StepId, fresh, step_id
from core.plan.kitchen import HEATED, StationKind
from core.plan.menu import Dish, Ingredient, Link
from core.plan.plan import Plan
from core.plan.step import Attention, Doneness, Keep, Span, Step, Use, Wait
from core.reading.sentence import DraftStep, DraftWait

_MOST_NAMED = 3
_SMALL_WORDS = "the a an your of to in into on with and it them all some over for at"
_SKIPPED = frozenset(_SMALL_WORDS.split())
_UNTIMED_NOTE = "The recipe does not tell this length."


def dish_of(
    draft: Draft,
    dish: DishId,
    lengths: Mapping[int, Span] | None = None,
    servings: int | None = None,
) -> tuple[Dish, tuple[Link, ...]]:
    """Return the dish of a draft under an id, and the links of its steps.

    `lengths` answer for steps that tell none, by their number, and go before what the text tells; such a step
    carries a note. `servings` goes before what the page says; where neither tells, the dish is written for 1: the
    whole recipe once. Raise Refusal while a step has no length.
    """
    lengths = lengths or {}
    require_lengths(draft, lengths)
    names = _names(draft, dish)
    followed = {before for step in draft.steps for before in step.after}
    steps = tuple(
        _step(each, names[number], lengths.get(number), keeps=number not in followed)
        for number, each in enumerate(draft.steps)
    )
    serves = servings or draft.servings or 1
    ingredients = tuple(_ingredient(draft, each, names) for each in draft.ingredients)
    made = Dish(dish, draft.name, steps, written_for=serves, wanted=serves, ingredients=ingredients)
    return made, tuple(_links(draft, names))


def without_length(draft: Draft, lengths: Mapping[int, Span]) -> tuple[int, ...]:
    """Return the numbers of the steps that have no length, told or answered."""
    return tuple(at for at, each in enumerate(draft.steps) if each.length is None and at not in lengths)


def require_lengths(draft: Draft, lengths: Mapping[int, Span]) -> None:
    """Refuse a draft of which a step has no length."""
    missing = without_length(draft, lengths)
    if not missing:
        return
    named = ", ".join(quoted(draft.steps[at].does) for at in missing[:_MOST_NAMED])
    more = f" and {len(missing) - _MOST_NAMED} more" if len(missing) > _MOST_NAMED else ""
    raise Refusal(
        f"The recipe {quoted(draft.name)} does not tell how long these take: {named}{more}. Give each a length."
    )


def fitted(plan: Plan, dish: Dish, links: tuple[Link, ...]) -> tuple[Dish, tuple[Link, ...], tuple[str, ...]]:
    """Return the dish and its links without the places that the plan's kitchen lacks, and a sentence for each."""
    menu = replace(plan.menu, dishes=(*plan.menu.dishes, dish), links=(*plan.menu.links, *links))
    own = {step.id for step in dish.steps}
    wrong = [
        each
        for each in problems_of(replace(plan, menu=menu))
        if each.family is Family.PLACES and each.about <= own
    ]
    homeless = {about for each in wrong if len(each.about) == 1 for about in each.about}
    waits = {each.about for each in wrong if len(each.about) > 1}
    steps = tuple(
        replace(step, uses=(), keeps=_placeless(step.keeps)) if step.id in homeless else step
        for step in dish.steps
    )
    links = tuple(
        replace(link, wait=Wait(link.wait.how)) if frozenset((link.before, link.after)) in waits else link
        for link in links
    )
    sentences = tuple(f"{each.sentence} It stands without a place for now." for each in wrong)
    return replace(dish, steps=steps), links, sentences


def _placeless(keep: Keep | None) -> Keep | None:
    return None if keep is None else replace(keep, wait=Wait(keep.wait.how))


# ---------------------------------------------------------------- steps


def _names(draft: Draft, dish: DishId) -> tuple[StepId, ...]:
    """Return an id for each step, made of its first words."""
    taken: set[str] = set()
    found: list[StepId] = []
    for number, step in enumerate(draft.steps, 1):
        words = [word for word in step.does.split() if word.casefold().strip(".,;") not in _SKIPPED]
        wanted = " ".join(words[:2])
        if not any(sign.isascii() and sign.isalnum() for sign in wanted):
            wanted = f"step {number}"  # so that reading a page twice gives the same ids
        local = fresh(wanted, taken)
        taken.add(local)
        found.append(step_id(dish, local))
    return tuple(found)


def _step(draft: DraftStep, name: StepId, answered: Span | None, keeps: bool) -> Step:
    length = answered or draft.length
    assert length is not None
    doneness = Doneness(draft.doneness, draft.core) if draft.doneness or draft.core is not None else None
    touches = tuple(each for each in draft.touches if each.at + each.minutes <= length.low)
    attention = draft.attention
    if attention is Attention.TENDED and not touches:
        attention = Attention.HANDS_OFF
    return Step(
        id=name,
        does=draft.does.strip() or draft.text.strip(),
        length=length,
        attention=attention,
        loads=draft.loads,
        touches=touches if attention is not Attention.HANDS_ON else (),
        uses=_uses(draft),
        doneness=doneness,
        keeps=Keep(draft.wait.most, _wait(draft.wait)) if keeps and draft.wait is not None else None,
        note=_UNTIMED_NOTE if draft.length is None else "",
    )


def _uses(draft: DraftStep) -> tuple[Use, ...]:
    if draft.kind is None:
        return ()
    heat = None
    if draft.kind in HEATED and draft.heat is not None:
        heat = draft.heat.heat
    return (Use(draft.kind, heat=heat),)


def _wait(wait: DraftWait) -> Wait:
    """Return how food waits; room is not scarce, so that it needs no place."""
    return Wait(wait.how, None if wait.kind in (None, StationKind.ROOM) else Use(wait.kind))


def _links(draft: Draft, names: tuple[StepId, ...]) -> Iterator[Link]:
    for number, step in enumerate(draft.steps):
        for before in step.after:
            wait = draft.steps[before].wait
            if wait is None:
                yield Link(names[before], names[number])
            else:
                yield Link(names[before], names[number], wait.least, wait.most, wait=_wait(wait))


# ---------------------------------------------------------------- ingredients


def _ingredient(draft: Draft, each: DraftIngredient, names: tuple[StepId, ...]) -> Ingredient:
    line = each.line
    item = line.item or line.preparation or draft.words(each.start, each.end)
    notes = [line.preparation if line.item else "", line.comment, "optional" if line.optional else ""]
    return Ingredient(
        item=item,
        quantity=line.quantity,
        preparation=", ".join(note for note in notes if note),
        step=None if each.step is None else names[each.step],
        pieces=line.pieces,
    )
