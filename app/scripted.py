"""What the command's ways do without a window: the same core, plain text out."""

from __future__ import annotations

import argparse
import json
import os
import secrets
import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import TYPE_CHECKING

from core.measures.refusal import Refusal, quoted

if TYPE_CHECKING:
    from core.plan.plan import Plan
    from core.timetable.clash import Clash
    from core.timetable.timetable import Timetable

MEETS, CLASHES = 0, 1

_PLAN, _TEXTS = ".cookday", (".toml", ".json")
_DATABASE = b"SQLite format 3\x00"
_HEAD = 200


def arrange(options: argparse.Namespace) -> int:
    """Arrange, print every step at its time, write the timetable if asked."""
    if options.timetable is not None:
        require_place(options.timetable, (".json",))
        _require_no_other(options.timetable, options.plan)
    plan, _seen_last = read_plan(options.plan)
    timetable, clashes, fit = _arranged(plan, options)
    if options.timetable is not None:
        from core.timetable.as_text import write_timetable

        with appearing(options.timetable) as draft:
            draft.write_text(write_timetable(plan, timetable), encoding="utf-8", newline="\n")
    _print_steps(plan, timetable)
    return told(plan, timetable, clashes, fit)


def check(options: argparse.Namespace) -> int:
    """Tell what clashes in a timetable, by the validator alone, what speaks against dishes, which food limits break."""
    from core.food.allergens import guest_cautions
    from core.safety.told import told_food
    from core.timetable.clashes import clashes

    plan, _seen_last = read_plan(options.plan)
    timetable = timetable_given(plan, options.timetable)
    code = told(plan, timetable, clashes(plan, timetable), "")
    food = told_food(plan, timetable, options.plan.parent / "rules")
    for head, lines in (("Guests:", guest_cautions(plan)), *food.parts):
        if lines or head != "Guests:":
            print(head, *(f"  {' '.join(each.split())}" for each in lines), sep="\n")
    return CLASHES if food.over else code


def picture(options: argparse.Namespace) -> int:
    """Write a picture of the timeline; needs no display."""
    require_place(options.to, (".png", ".svg"))
    plan, timetable, clashes, fit = plan_and_timetable(options)
    from app.timeline.picture import paint_picture

    theme = "dark" if options.dark else "light"
    with appearing(options.to) as draft:
        paint_picture(plan, timetable, clashes, draft, width=options.width, reading=options.by, theme=theme)
        if draft.suffix.lower() == ".svg" and not draft.read_bytes().rstrip().endswith(b"</svg>"):
            raise OSError(None, "not all of it was written: is the disk full?")
    return told(plan, timetable, clashes, fit)


def schema(_options: argparse.Namespace) -> int:
    """Print the JSON Schema of text plans."""
    from core.intake.schema import schema as the_schema

    print(json.dumps(the_schema(), indent=2, ensure_ascii=False))
    return MEETS


def demo(options: argparse.Namespace) -> int:
    """Put the demo plans into a folder."""
    import demo_data

    for path in demo_data.put(options.folder):
        print(path)
    return MEETS


# ---- what is told about a plan


def why(options: argparse.Namespace) -> int:
    """Tell why a plan cannot be met, or that it can."""
    from core.arrange.outcome import Fit
    from core.arrange.speak.why import say_why_not
    from core.arrange.why.answer import why_not

    plan, seen = read_plan(options.plan)
    if _is_empty(plan):
        return MEETS
    answer = why_not(plan, seen, work=options.seconds)
    print(say_why_not(plan, answer))
    return MEETS if answer.fit is Fit.MEETS else CLASHES


def ways(options: argparse.Namespace) -> int:
    """Tell why a plan cannot be met and ways out, the cheapest first."""
    from core.arrange.outcome import Fit
    from core.arrange.speak.ways import say_effect, say_way
    from core.arrange.speak.why import say_why_not
    from core.arrange.ways.seeking import ways_out
    from core.arrange.why.answer import why_not

    plan, seen = read_plan(options.plan)
    if _is_empty(plan):
        return MEETS
    answer = why_not(plan, seen, work=max(2.0, options.seconds))
    print(say_why_not(plan, answer))
    if answer.fit is Fit.MEETS:
        return MEETS
    demands = tuple(dict.fromkeys(each for reason in answer.reasons for each in reason.demands))
    found = ways_out(plan, seen=seen, work=options.seconds, demands=demands)
    print("\nWays out, the cheapest first:" if found else "\nNo single change was found after which all meets.")
    for number, way in enumerate(found, start=1):
        print(f"{number}. {say_way(plan, way)}\n   {say_effect(plan, way)}")
    return CLASHES


def quality(options: argparse.Namespace) -> int:
    """Tell how good a timetable is, wish by wish."""
    from core.arrange.quality import quality as quality_of
    from core.arrange.speak.quality import say_price, say_wish

    plan, timetable, clashes, fit = plan_and_timetable(options)
    if _is_empty(plan):
        return MEETS
    for wish in quality_of(plan, timetable, work=options.seconds, seed=options.seed).wishes:
        print(f"{wish.wish.value.capitalize()}: {say_wish(plan, wish)}")
        if wish.price is not None:
            print(f"  Better: {say_price(plan, wish.price)}")
    return told(plan, timetable, clashes, fit)


def chances(options: argparse.Namespace) -> int:
    """Tell how likely all is on the table in time, what threatens it, where spare minutes help."""
    from core.arrange.chances import chances as chances_of
    from core.arrange.speak.chances import say_chances, say_spare, say_threat

    plan, timetable, clashes, fit = plan_and_timetable(options)
    if _is_empty(plan):
        return MEETS
    value = chances_of(plan, timetable, seed=options.seed)
    print(say_chances(plan, value))
    for threat in value.threats[1:3]:  # the first is told already
        if threat.over_runs > 0:
            print(say_threat(plan, threat))
    print(say_spare(plan, value))
    return told(plan, timetable, clashes, fit)


def late(options: argparse.Namespace) -> int:
    """Tell how long the menu can stand from a moment on, and what a delay does to it."""
    from core.arrange.late_guests import guests_late, how_late
    from core.arrange.speak.late import say_allowance, say_late, say_patience
    from core.measures.minutes import parse_minutes

    minutes = parse_minutes(options.by) if options.by else 0
    plan, timetable, clashes, fit = plan_and_timetable(options)
    if _is_empty(plan):
        return MEETS
    now = _offset(plan, options.at)
    patience = how_late(plan, timetable, now)
    put_off = guests_late(plan, timetable, now, minutes) if options.by else None
    print(say_patience(plan, patience))
    for dish in patience.dishes[1:]:
        print(f"  {say_allowance(plan, dish)}")
    if put_off is not None:
        print(say_late(plan, put_off))
    if clashes:
        return told(plan, timetable, clashes, fit)
    return CLASHES if put_off is not None and (put_off.over or put_off.clashes) else MEETS


def _is_empty(plan: Plan) -> bool:
    """Tell whether there is nothing to tell of a plan, and say so."""
    if not plan.steps:
        print("The plan has no steps yet, so there is nothing to tell.")
    return not plan.steps


def _offset(plan: Plan, text: str) -> int:
    """Return minutes from plating, of a clock time on the day that brings it nearest, or of "-30 min"."""
    from core.measures.clock import at_clock, parse_clock
    from core.measures.minutes import parse_minutes

    if text.strip()[:1] in {"+", "-"}:
        return parse_minutes(text.strip())
    minute = parse_clock(text)
    return min((at_clock(plan.plating, days, minute) for days in (1, 0, -1)), key=abs)


# ---- what comes in


def read_plan(path: Path) -> tuple[Plan, Timetable | None]:
    """Return the plan of a plan file or of a text plan, and the timetable last seen where one is kept with it."""
    _require_file(path, "plan")
    ending = path.suffix.lower()
    if ending == _PLAN or (ending not in _TEXTS and _begins(path, _DATABASE)):
        from core.store.file import PlanFile

        with PlanFile.open(path) as file:
            return file.held, _seen(file.seen())
    if ending not in _TEXTS:
        raise Refusal(f"“{path.name}” is not a plan: its name must end in .cookday, .toml or .json.")
    if ending == ".json" and _is_timetable(path):
        raise Refusal(
            f"“{path.name}” is a timetable, not a plan: give the plan, and this one after --timetable."
        )
    from core.intake.text_plan import read_file

    return read_file(path), None


def _seen(text: str) -> Timetable | None:
    from core.timetable.as_text import read_timetable

    try:
        found = read_timetable(text) if text else None
    except Refusal:
        return None
    return found if found is not None and found.placed else None


def timetable_given(plan: Plan, path: Path) -> Timetable:
    """Return the timetable in a file; refuse one that has nothing to do with the plan."""
    from core.timetable.as_text import read_timetable

    _require_file(path, "timetable")
    try:
        found = read_timetable(path.read_text(encoding="utf-8-sig"))
    except UnicodeDecodeError:
        raise Refusal(f"“{path.name}” is no timetable: it is not text. Choose another file.") from None
    except Refusal as refusal:
        raise Refusal(f"“{path.name}”: {refusal.text}") from None
    if found.placed and not any(each.step in plan.steps for each in found.placed):
        raise Refusal(
            f"“{path.name}” is the timetable of another plan: none of its steps is in {quoted(plan.name)}."
        )
    return found


def plan_and_timetable(options: argparse.Namespace) -> tuple[Plan, Timetable, tuple[Clash, ...], str]:
    """Return the plan with the timetable that was given, else the one last seen in the window, else a new one."""
    from core.timetable.clashes import clashes

    plan, timetable = read_plan(options.plan)
    if options.timetable is not None:
        timetable = timetable_given(plan, options.timetable)
    if timetable is None:
        return plan, *_arranged(plan, options)
    return plan, timetable, clashes(plan, timetable), ""


def _arranged(plan: Plan, options: argparse.Namespace) -> tuple[Timetable, tuple[Clash, ...], str]:
    from core.arrange.arranging import arrange
    from core.arrange.effort import Effort

    if sys.stderr.isatty():
        print(f"Arranging for about {options.seconds:g} s ...", file=sys.stderr, flush=True)
    outcome = arrange(plan, Effort.seconds(options.seconds, options.seed))
    return outcome.timetable, outcome.clashes, outcome.fit.value


def _require_file(path: Path, what: str) -> None:
    if path.is_dir():
        raise Refusal(f"“{path}” is a folder. Choose the {what} inside it.")
    if not path.exists():
        raise Refusal(f"There is no {what} “{path}”. Look for it, or mend the name.")
    if not path.is_file():
        raise Refusal(f"“{path}” is not a file that can hold a {what}. Choose another one.")
    if path.stat().st_size == 0:
        raise Refusal(f"“{path.name}” is empty: there is no {what} in it.")


def _begins(path: Path, mark: bytes) -> bool:
    with path.open("rb") as file:
        return file.read(len(mark)) == mark


def _is_timetable(path: Path) -> bool:
    from core.timetable.as_text import MARK

    with path.open("rb") as file:
        return f'"{MARK}"'.encode() in file.read(_HEAD)


# ---- what goes out


def require_place(path: Path, endings: tuple[str, ...]) -> None:
    """Refuse, before any work is done, a place where the file cannot be written."""
    if path.suffix.lower() not in endings:
        raise Refusal(f"“{path.name}” must end in {' or '.join(endings)}.")
    if path.is_dir():
        raise Refusal(f"“{path}” is a folder. Give the name of a file in it.")
    if not path.parent.is_dir():
        raise Refusal(f"There is no folder “{path.parent}” to write “{path.name}” into; make it first.")
    if path.exists() and not path.is_file():
        raise Refusal(f"“{path}” is not a file that can be written over. Choose another name.")
    if path.exists() and not (path.stat().st_mode & 0o222 and os.access(path, os.W_OK)):
        raise Refusal(f"“{path.name}” may only be read. Choose another name, or let it be written.")
    if not os.access(path.resolve().parent, os.W_OK):
        raise Refusal(f"Nothing can be written in the folder “{path.parent}”. Choose another one.")


def _require_no_other(path: Path, plan: Path) -> None:
    """Refuse to write a timetable over the plan, or over any file that is not a timetable."""
    if not path.exists():
        return
    if plan.exists() and path.samefile(plan):
        raise Refusal(f"“{path.name}” is the plan itself. Give the timetable another name.")
    if path.stat().st_size and not _is_timetable(path):
        raise Refusal(f"“{path.name}” is there already and is no timetable. Choose another name.")


@contextmanager
def appearing(path: Path) -> Iterator[Path]:
    """Hand out a draft beside a file; at the end it takes the file's place, whole, or after an error it goes."""
    path = path.resolve()  # through a link, to the file it names
    draft = path.with_name(f".{path.stem[:100]}.{secrets.token_hex(4)}{path.suffix}")
    try:
        yield draft
        draft.replace(path)
    except OSError as wrong:
        raise Refusal(
            f"“{path.name}” could not be written ({wrong.strerror or wrong}). Choose another place."
        ) from wrong
    finally:
        with suppress(OSError):
            draft.unlink(missing_ok=True)


def _print_steps(plan: Plan, timetable: Timetable) -> None:
    """Print every load that is placed, day by day."""
    from core.sheets.places import place_of
    from core.sheets.words import clock_at, day_name, plain

    day = None
    for placed in sorted(timetable.placed, key=lambda each: (each.start, each.step, each.load)):
        at = plan.wall(placed.start)
        if at.date() != day:
            day = at.date()
            print(day_name(day))
        loads = len(timetable.loads_of[placed.step])
        load = f" (load {placed.load + 1} of {loads})" if loads > 1 else ""
        where = place_of(plan, placed)
        said = f"{plain(plan.dish_of[placed.step].name)}: {plain(plan.steps[placed.step].does)}{load}"
        times = f"{clock_at(plan, placed.start)}-{clock_at(plan, placed.end)}"
        print(f"  {times}  {said}{f'  [{where}]' if where else ''}")


def told(plan: Plan, timetable: Timetable, clashes: tuple[Clash, ...], fit: str) -> int:
    """Print the clashes or that everything meets; return the exit code."""
    from core.measures.words import plural
    from core.sheets.words import full_date

    if not plan.steps:
        print("The plan has no steps yet, so there is nothing to place.")
    elif not clashes:
        print(
            f"Everything meets on {full_date(plan.wall(0))}: {plural(len(timetable.placed), 'load')} placed."
        )
    if not clashes:
        return MEETS
    print(f"{plural(len(clashes), 'clash')}{f' ({fit})' if fit else ''}:")
    for clash in clashes:
        print(f"  {' '.join(clash.sentence.split())}")
    return CLASHES
