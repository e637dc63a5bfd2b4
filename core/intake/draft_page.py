"""Drafts as a text plan: each step under the words it was read from, each open question as a comment.

A step whose length is not told has no `takes` line, so that the text is a plan only once the cook has written one.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from core.intake.draft_dish import dish_of, fitted, without_length
from core.intake.draft_value import Draft
from core.intake.text.page import toml_page
from core.intake.text.write import tables_of
from core.plan.ids import DishId, StepId, dish_part, fresh, local_part
from core.plan.menu import Dish, Link, Menu
from core.plan.plan import Plan
from core.plan.step import Span

_ANY = Span.of(1)
_GIVE = 'Write: takes = "10 min" or takes = "8/10/15".'


def draft_text(drafts: Sequence[Draft], plan: Plan, untimed: Span | None = None) -> str:
    """Return the text of a plan with these drafts for its menu; kitchen and plating are those of `plan`.

    `untimed` answers for all steps whose length is not told (None: it stays open).
    """
    made: list[tuple[Draft, Dish, tuple[Link, ...]]] = []
    comments: dict[str, list[str]] = {}
    taken: set[str] = set()
    for draft in drafts:
        name = DishId(fresh(draft.name, taken))
        taken.add(name)
        lengths = dict.fromkeys(without_length(draft, {}), untimed or _ANY)
        dish, links = dish_of(draft, name, lengths)
        dish, links, homeless = fitted(plan, dish, links)
        made.append((draft, dish, links))
        comments |= _comments(draft, dish, homeless, asks=untimed is None)
    menu = Menu(
        tuple(dish for _draft, dish, _links in made), tuple(link for *_rest, links in made for link in links)
    )
    tables = tables_of(replace(plan, menu=menu))
    for draft, dish, _links in made if untimed is None else ():
        for number in without_length(draft, {}):
            step = tables["dish"][dish.id]["step"][local_part(dish.steps[number].id)]
            del step["takes"], step["note"]
    return _commented(toml_page(tables), comments)


def dish_text(dish: Dish, links: Sequence[Link], plan: Plan) -> str:
    """Return the text of one dish as it stands in a plan written as text."""
    menu = Menu((dish,), tuple(links))
    return toml_page({"dish": tables_of(replace(plan, menu=menu))["dish"]})


def _comments(draft: Draft, dish: Dish, homeless: Sequence[str], asks: bool) -> dict[str, list[str]]:
    """Return the comments under each header of the text."""
    ids = [step.id for step in dish.steps]
    found: dict[str, list[str]] = {_header(dish.id): []}
    for number, step in enumerate(ids):
        told = [each for each in draft.origins if each.step == number and each.what in ("opening", "step")]
        found[_header(step)] = [
            f"“{draft.words(each.start, each.end)}”" for each in sorted(told, key=lambda o: o.start)
        ]
    for question in draft.questions:
        header = _header(dish.id) if question.step is None else _header(ids[question.step])
        found[header].append(f"? {question.sentence}{f' {_GIVE}' if question.must and asks else ''}")
    for sentence in homeless:
        found[_header(dish.id)].append(f"? {sentence}")
    return found


def _header(name: DishId | StepId) -> str:
    if "." not in name:
        return f"[dish.{name}]"
    return f"[dish.{dish_part(StepId(name))}.step.{local_part(StepId(name))}]"


def _commented(page: str, comments: Mapping[str, Sequence[str]]) -> str:
    return "\n".join(_lines(page, comments)) + "\n"


def _lines(page: str, comments: Mapping[str, Sequence[str]]) -> Iterator[str]:
    for line in page.splitlines():
        yield line
        for comment in comments.get(line, ()):
            yield f"# {_one_line(comment)}"


def _one_line(comment: str) -> str:
    """Return a comment on one line, without what TOML bears in no comment."""
    return " ".join("".join(sign if sign.isprintable() else " " for sign in comment).split())
