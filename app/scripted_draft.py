"""`cookday draft`: reads a recipe without a window and prints it as a text plan, or puts it into a plan."""

from __future__ import annotations

import argparse
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

from app.scripted import MEETS, appearing, read_plan, require_place
from core.measures.refusal import Refusal, quoted
from core.measures.words import join_words, plural

if TYPE_CHECKING:
    from core.intake.draft import Draft
    from core.plan.menu import Dish, Link
    from core.plan.plan import Plan
    from core.plan.step import Span

_PLAN, _TOML, _JSON = ".cookday", ".toml", ".json"


@dataclass(frozen=True)
class _Taken:
    """A dish with its links as it comes into a plan, and what is to be said of it."""

    dish: Dish
    links: tuple[Link, ...]
    said: tuple[str, ...] = ()


def draft(options: argparse.Namespace) -> int:
    """Read a page; print its recipes as a text plan, or put them into a plan."""
    if options.page.suffix.lower() == _TOML:
        if options.to is None:
            raise Refusal(
                f"“{options.page.name}” is written as a plan already; say with --to which plan takes its dishes."
            )
        return _put_text_plan(options.page, options.to)
    from core.intake.draft import drafts_in

    _require_page(options.page)
    drafts = drafts_in(options.page, options.measures)
    if options.to is None:
        return _print(drafts, options.untimed)
    return _put(options, drafts)


def _require_page(path: Path) -> None:
    if path.is_dir():
        raise Refusal(f"“{path}” is a folder. Choose the page inside it.")
    if not path.exists():
        raise Refusal(
            f"There is no page “{path}”. Pages are opened from files only: save it first, or mend the name."
        )
    if not path.is_file():
        raise Refusal(f"“{path}” is not a file that can hold a page. Choose another one.")


def _print(drafts: tuple[Draft, ...], untimed: Span | None) -> int:
    from core.intake.draft_page import draft_text

    names = join_words([each.name for each in drafts])
    print("# A draft, read from a page: look at what was read, answer the lines that begin with “# ?”.")
    print("# Kitchen and plating are not the recipe's: they are those of a new plan.")
    print(draft_text(drafts, _new_plan(names), untimed), end="")
    return MEETS


# ---------------------------------------------------------------- into a plan


def _put(options: argparse.Namespace, drafts: tuple[Draft, ...]) -> int:
    """Put the recipes into a plan, new or there already; nothing is written unless every length is known."""
    from core.intake.draft import dish_of, fitted, without_length
    from core.plan.ids import DishId, fresh

    plan = _plan_for(options.to, join_words([each.name for each in drafts]))
    taken: list[_Taken] = []
    now = plan
    for each in drafts:
        missing = without_length(each, {})
        if missing and options.untimed is None:
            raise Refusal(_lengths_wanted(each, len(missing), options.page))
        lengths = dict.fromkeys(missing, options.untimed)
        dish, links = dish_of(each, DishId(fresh(each.name, now.dishes)), lengths)
        dish, links, homeless = fitted(now, dish, links)
        said = tuple(
            question.sentence
            for question in each.questions
            if question.step not in lengths or not question.must
        )
        if missing:
            said = (f"{plural(len(missing), 'step')} without a told length got the one of --untimed.", *said)
        taken.append(_Taken(dish, links, (*said, *homeless)))
        now = _with(now, taken[-1])
    _write(options.to, plan, now, taken)
    return _tell(options.to, taken)


def _put_text_plan(page: Path, to: Path) -> int:
    """Put the dishes of a draft that was finished by hand, a plan as text, into another plan."""
    from core.plan.edits.library import TakeDish, left_behind, own_copy

    source, _seen = read_plan(page)
    if to.exists() and page.samefile(to):
        raise Refusal(f"“{to.name}” holds these dishes already. Give another plan after --to.")
    if not source.menu.dishes:
        raise Refusal(f"“{page.name}” has no dishes, so there is nothing to take from it.")
    now = plan = _plan_for(to, source.name)
    taken: list[_Taken] = []
    for dish in source.menu.dishes:
        edit = TakeDish.of(own_copy(source, dish.id))
        said = (*edit.notes(now), *left_behind(source, dish.id))
        new, now = edit.new_id(now), edit(now)
        steps = {step.id for step in now.dishes[new].steps}
        links = tuple(link for link in now.menu.links if link.before in steps and link.after in steps)
        taken.append(_Taken(now.dishes[new], links, said))
    _write(to, plan, now, taken)
    return _tell(to, taken)


def _lengths_wanted(draft: Draft, missing: int, page: Path) -> str:
    verb = "have" if missing > 1 else "has"
    return (
        f"{quoted(draft.name)}: {plural(missing, 'step')} {verb} no length in the recipe, and none is made up. "
        f"Write cookday draft {page.name} > draft.toml, fill them in and put that in with --to, "
        "or give one for all with --untimed 10."
    )


def _with(plan: Plan, taken: _Taken) -> Plan:
    from core.plan.edits.dishes import AddDish

    return AddDish(taken.dish, taken.links)(plan)


def _new_plan(name: str) -> Plan:
    from app.places.empty_plan import empty_plan
    from core.plan.plan import new_mark

    return replace(empty_plan(name[:80]), mark=new_mark())


def _plan_for(path: Path, name: str) -> Plan:
    """Return the plan that a file holds, or a new one where there is none yet."""
    require_place(path, (_PLAN, _TOML, _JSON))
    return read_plan(path)[0] if path.exists() else _new_plan(name)


# ---------------------------------------------------------------- what goes out


def _write(path: Path, before: Plan, after: Plan, taken: list[_Taken]) -> None:
    """Write the plan; what else an older file holds, its comments too, is kept."""
    if path.suffix.lower() == _PLAN:
        _write_plan_file(path, before, after)
        return
    from core.intake.text_plan import read_text, write_text

    text = None
    if path.exists() and path.suffix.lower() == _TOML:
        text = _appended(path.read_text(encoding="utf-8-sig"), after, taken)
        if not _same(read_text(text), after):
            text = None
    if text is None:
        text = write_text(after, path.suffix.lower().lstrip("."))
    with appearing(path) as fresh:
        fresh.write_text(text, encoding="utf-8", newline="\n")


def _appended(text: str, after: Plan, taken: list[_Taken]) -> str:
    from core.intake.draft_page import dish_text

    return "\n".join([text.rstrip("\n") + "\n", *(dish_text(each.dish, each.links, after) for each in taken)])


def _same(one: Plan, other: Plan) -> bool:
    """Tell whether two plans are the same, but for the order in which links are told."""
    from dataclasses import replace

    def sorted_links(plan: Plan) -> Plan:
        links = tuple(sorted(plan.menu.links, key=lambda link: link.key))
        return replace(plan, menu=replace(plan.menu, links=links))

    return sorted_links(one) == sorted_links(other)


def _write_plan_file(path: Path, before: Plan, after: Plan) -> None:
    from core.store.file import PlanFile

    if not path.exists():
        PlanFile.create(path, after).close()
        return
    with PlanFile.open(path) as file:
        file.save(before, after)


def _tell(path: Path, taken: list[_Taken]) -> int:
    for each in taken:
        steps, things = len(each.dish.steps), len(each.dish.ingredients)
        print(f"{each.dish.name} is in {path.name}: {plural(steps, 'step')}, {plural(things, 'ingredient')}.")
        for sentence in each.said:
            print(f"  {' '.join(sentence.split())}")
    return MEETS
