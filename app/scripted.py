"""What the command's ways do without a window: the same core, plain text out."""

from __future__ import annotations

import argparse
import json
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from core.measures.refusal import Refusal

if TYPE_CHECKING:
    from core.plan.plan import Plan
    from core.timetable.clash import Clash
    from core.timetable.timetable import Timetable


def read_plan(path: Path) -> Plan:
    """Return the plan of a plan file or of a text plan."""
    if path.suffix == ".cookday":
        from core.store import PlanFile

        with PlanFile.open(path) as file:
            return file.plan()
    from core.intake import read_file

    return read_file(path)


def arrange(options: argparse.Namespace) -> int:
    """Arrange, print every step at its time, write the timetable if asked."""
    plan = read_plan(options.plan)
    timetable, clashes, fit = _arranged(plan, options)
    _print_steps(plan, timetable)
    if options.timetable is not None:
        from core.timetable.as_text import write_timetable

        options.timetable.write_text(write_timetable(plan, timetable), encoding="utf-8")
    return _told(plan, clashes, fit)


def check(options: argparse.Namespace) -> int:
    """Tell what clashes in a timetable, by the validator alone."""
    from core.timetable.clashes import clashes

    plan = read_plan(options.plan)
    return _told(plan, clashes(plan, _timetable(plan, options.timetable)), "")


def sheet(options: argparse.Namespace) -> int:
    """Write the run sheet."""
    from core.sheets import as_pdf, run_sheet

    plan = read_plan(options.plan)
    _must_end(options.to, (".pdf",))
    timetable, clashes, fit = _given_or_arranged(plan, options)
    paper = "us-letter" if options.paper == "letter" else "a4"
    options.to.write_bytes(as_pdf(run_sheet(plan, timetable), paper=paper))
    return _told(plan, clashes, fit)


def picture(options: argparse.Namespace) -> int:
    """Write a picture of the timeline; needs no display."""
    plan = read_plan(options.plan)
    _must_end(options.to, (".png", ".svg"))
    if not 400 <= options.width <= 20000:
        raise Refusal(f"{options.width} pixels is no width for a picture; give 400 to 20000.")
    timetable, clashes, fit = _given_or_arranged(plan, options)
    from app.timeline.picture import paint_picture

    theme = "dark" if options.dark else "light"
    paint_picture(plan, timetable, clashes, options.to, width=options.width, reading=options.by, theme=theme)
    return _told(plan, clashes, fit)


def schema(_options: argparse.Namespace) -> int:
    """Print the JSON Schema of text plans."""
    from core.intake import schema as the_schema

    print(json.dumps(the_schema(), indent=2, ensure_ascii=False))
    return 0


def demo(options: argparse.Namespace) -> int:
    """Put the demo plans into a folder."""
    import demo_data

    for path in demo_data.put(options.folder):
        print(path)
    return 0


def _must_end(path: Path, endings: tuple[str, ...]) -> None:
    if path.suffix.lower() not in endings:
        raise Refusal(f'"{path.name}" must end in {" or ".join(endings)}.')
    if not path.parent.is_dir():
        raise Refusal(f'There is no folder "{path.parent}" to write {path.name} into; make it first.')


def _timetable(plan: Plan, path: Path) -> Timetable:
    from core.timetable.as_text import read_timetable

    try:
        return read_timetable(path.read_text(encoding="utf-8"))
    except UnicodeDecodeError:
        raise Refusal(f'"{path.name}" is no timetable: it is not text.') from None


def _given_or_arranged(plan: Plan, options: argparse.Namespace) -> tuple[Timetable, tuple[Clash, ...], str]:
    if options.timetable is None:
        return _arranged(plan, options)
    from core.timetable.clashes import clashes

    timetable = _timetable(plan, options.timetable)
    return timetable, clashes(plan, timetable), ""


def _arranged(plan: Plan, options: argparse.Namespace) -> tuple[Timetable, tuple[Clash, ...], str]:
    from core.arrange import Effort, Outcome, arrange

    outcome = arrange(plan, Effort.seconds(options.seconds, options.seed))
    assert isinstance(outcome, Outcome)
    return outcome.timetable, outcome.clashes, outcome.fit.value


def _print_steps(plan: Plan, timetable: Timetable) -> None:
    day = None
    for placed in sorted(timetable.placed, key=lambda each: (each.start, each.step)):
        at = plan.wall(placed.start)
        if at.date() != day:
            day = at.date()
            print(f"{at:%A} {at.day} {at:%B}")
        step, dish = plan.steps[placed.step], plan.dish_of[placed.step]
        places = ", ".join(dict.fromkeys(plan.kitchen.station[spot.station].name for spot in placed.spots))
        load = f" (load {placed.load + 1})" if placed.load or len(timetable.loads_of[placed.step]) > 1 else ""
        setting = f" {placed.setting} °C" if placed.setting is not None else ""
        place = f"  [{places}{setting}]" if places else ""
        print(f"  {at:%H:%M}-{plan.wall(placed.end):%H:%M}  {dish.name}: {step.does}{load}{place}")


def _told(plan: Plan, clashes: tuple[Clash, ...], fit: str) -> int:
    """Print the clashes or that everything meets; return the exit code."""
    served = plan.wall(0)
    if not clashes:
        print(f"Everything meets at {served:%A} {served:%H:%M}.", file=sys.stderr)
        return 0
    about = f" ({fit})" if fit else ""
    print(f"{len(clashes)} {'clash' if len(clashes) == 1 else 'clashes'}{about}:", file=sys.stderr)
    for clash in clashes:
        print(f"  {clash.sentence}", file=sys.stderr)
    return 1
