"""The lines of the phone page as marked-up text: what a cook wrote is text in it, never mark-up.

The list stands in the file itself, so that it can be read and ticked where a phone runs no scripts.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from html import escape
from itertools import groupby

from core.hatch.marks import Marked
from core.sheets.lines import Act, Line, Served, SheetDay

_SAYS_ITSELF = frozenset({Act.DO, Act.TOUCH, Act.LIGHT, Act.WASH})


def days_markup(lines: Iterable[Marked]) -> str:
    """Return every day with its lines, in the sheet's order."""
    found = []
    for number, (day, group) in enumerate(groupby(lines, key=lambda each: each.day)):
        rows = "\n".join(_row(each) for each in group)
        found.append(
            f'<section class="day" aria-labelledby="day-{number}"><details open>\n{_day_head(number, day)}\n'
            f'<ol class="lines">\n{rows}\n</ol>\n</details></section>'
        )
    return "\n".join(found)


def paragraphs(sentences: Iterable[str]) -> str:
    """Return sentences as items of a list."""
    return "\n".join(f"<li>{_own(each)}</li>" for each in sentences)


def text_markup(text: str) -> str:
    """Return text that stands between two tags, its direction kept apart from what is around it."""
    return _own(text)


def _day_head(number: int, day: SheetDay) -> str:
    note = f'\n<p class="note">{escape(day.note)}</p>' if day.note else ""
    head = f'{escape(day.title)} <span class="about">{escape(day.about)}</span> <span class="about count"></span>'
    return f'<summary><h3 id="day-{number}">{head}</h3></summary>{note}'


def _row(each: Marked) -> str:
    line, mark = each.line, each.mark.hex
    kind = line.act.name.lower() + (" plating" if line.act is Act.SERVE and line.at == 0 else "")
    parts = "".join(_parts(line))
    return (
        f'<li class="line {kind}" id="l-{mark}"><label for="t-{mark}">'
        f'<input type="checkbox" id="t-{mark}" data-mark="{mark}" autocomplete="off">'
        f'<span class="text">{parts}</span></label></li>'
    )


def _parts(line: Line) -> Iterator[str]:
    yield f'<span class="when"><b>{escape(line.clock)}</b> <span class="tminus">{escape(line.tminus)}</span></span> '
    word = "" if line.act in _SAYS_ITSELF else f'<b class="act">{escape(line.act.value)}</b> '
    yield f'<span class="what">{word}{_own(line.does)}</span> '
    if line.dish and line.dish not in line.does:
        code = f'<span class="code">{escape(line.code)}</span> ' if line.code else ""
        yield f'<span class="dish">{code}{_own(line.dish)}</span> '
    for detail in line.details:
        yield f'<span class="detail">{_own(detail)}</span> '
    for served in line.served:
        yield from _served(served)
    if line.who:
        yield f'<span class="who">{_own(line.who)}</span> '


def _served(served: Served) -> Iterator[str]:
    code = f'<span class="code">{escape(served.code)}</span> ' if served.code else ""
    yield f'<span class="served">{code}<b>{_own(served.dish)}</b></span> '
    if served.plating:
        yield f'<span class="detail">{_own(served.plating)}</span> '
    if served.allergens:
        yield f'<span class="detail">allergens noted: {_own(", ".join(served.allergens))}</span> '
    if served.not_for:
        yield f'<span class="detail warns">not for {_own(", ".join(served.not_for))}: see the cautions</span> '


def _own(text: str) -> str:
    return f"<bdi>{escape(text)}</bdi>"
