"""Several sheets as one document, each on its own paper and with its own pages counted."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from core.measures.refusal import Refusal
from core.plan.plan import Plan
from core.safety import RuleSet
from core.sheets.kinds import SheetKind
from core.sheets.page import PAGE, Page
from core.sheets.printing import laid, sheet_data
from core.sheets.run_sheet import NO_NAME
from core.sheets.typeset import typeset
from core.sheets.whose import EVERYBODY, Whose
from core.sheets.words import plain
from core.timetable.clash import Clash
from core.timetable.timetable import Timetable


@dataclass(frozen=True, slots=True)
class Wanted:
    """One sheet of several: its kind, its paper, whose copy."""

    kind: SheetKind
    page: Page = PAGE
    of: Whose = EVERYBODY


def sheets_pdf(
    wanted: Sequence[Wanted],
    plan: Plan,
    timetable: Timetable | None,
    clashes: tuple[Clash, ...] | None = None,
    *,
    found: tuple[str, ...] | None = None,
    rules: RuleSet | None = None,
) -> bytes:
    """Return sheets of a plan, in the order wanted, as one tagged PDF; the same wish gives the same bytes.

    Each has a bookmark, below it its days or places. What is not given is found once for all, as `sheet_pdf` does for
    one. Refuse a wish for no sheet; raise Refusal for amounts that cannot be added.
    """
    if not wanted:
        raise Refusal("No sheet is chosen, so there is nothing to print. Choose at least one.")
    base = laid([each.kind for each in wanted], plan, timetable, clashes, found, rules)
    return typeset(
        [sheet_data(each.kind, base, each.page, each.of) for each in wanted],
        title=plain(plan.name) or NO_NAME,
    )
