"""The command `cookday`: opens the window, or does one thing for scripts and machines without a display.

Exit codes: 0 done and everything meets, 1 clashes remain, it cannot be met or a cure is over its limit,
2 bad input (one clear line on stderr).
"""

from __future__ import annotations

import argparse
import io
import os
import sys
from collections.abc import Callable, Sequence
from difflib import get_close_matches
from math import isfinite
from pathlib import Path
from typing import Any, NoReturn

from core.measures.refusal import Refusal

BAD_INPUT, STOPPED, NOBODY_READS = 2, 130, 141
"""The last two are what a shell makes of a program ended by an interrupt or by a closed pipe."""

_WAYS = (
    *("arrange", "check", "why", "ways", "quality", "chances", "late"),
    *("sheet", "picture", "list", "draft", "cure", "schema", "demo"),
)
_MOST_FAULTS = 3
_LONGEST_SEARCH = 86_400
_NARROWEST, _WIDEST = 400, 20_000
_EXAMPLES = """\
examples:
  cookday                                            open the window
  cookday feast.cookday                              open a plan in it
  cookday demo plans                                 put the demo plans into the folder plans
  cookday arrange plans/harvest_supper.toml --timetable supper.json
  cookday sheet plans/harvest_supper.toml --timetable supper.json --to supper.pdf
  cookday sheet plans/harvest_supper.toml --kind prep --to prep.pdf   and other sheets; --for NAME one cook's copy
  cookday sheet plans/harvest_supper.toml --kind run,prep,order --to all.pdf   several sheets, one PDF
  cookday sheet plans/harvest_supper.toml --kind phone --to day.html   and calendar, csv, spreadsheet, picture
  cookday list plans/harvest_supper.toml --kind order   what to buy, on which day
  cookday draft tart.html --to supper.toml --untimed 10   put a saved page's recipe into a plan
  cookday cure --meat 1kg --cure 2.5g --fraction 6.25% --method comminuted   ppm against the limit
  cookday ways plans/too_much.toml                   what to change so that all meets
  cookday late plans/harvest_supper.toml --timetable supper.json --at 18:40 --by 20

exit codes: 0 done and everything meets, 1 clashes remain, it cannot be met or a cure is over its limit, 2 bad input
"""


class _Parser(argparse.ArgumentParser):
    """An argument parser whose errors are one line and exit 2."""

    def error(self, message: str) -> NoReturn:
        self.exit(BAD_INPUT, f"cookday: {message} (see {self.prog} --help)\n")


class _Version(argparse.Action):
    """Prints the version; looks it up only when asked."""

    def __call__(self, parser: argparse.ArgumentParser, *_given: object) -> None:
        from importlib.metadata import PackageNotFoundError, version

        try:
            print(f"cookday {version('cookday')}")
        except PackageNotFoundError:
            print("cookday, run from its source without being installed")
        parser.exit(0)


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command with these arguments (the process's own by default); return its exit code."""
    _speak_plainly()
    try:
        try:
            return _run(list(sys.argv[1:] if arguments is None else arguments))
        finally:
            _flush()
    except BrokenPipeError:
        _give_up_output()
        return NOBODY_READS
    except Refusal as refusal:
        return _refused(refusal)
    except OSError as wrong:
        _give_up_output()
        name = f"{wrong.filename}: " if wrong.filename else ""
        return _say(f"{name}{wrong.strerror or wrong}", BAD_INPUT)
    except KeyboardInterrupt:
        return _say("stopped", STOPPED)


def _run(given: list[str]) -> int:
    if not given or (given[0] not in _WAYS and not given[0].startswith("-")):
        return _open_window(given)
    options = _parser().parse_args(given)
    if options.way is None:
        return _open_window([])
    run: Callable[[argparse.Namespace], int] = options.run
    return run(options)


def _open_window(files: list[str]) -> int:
    if files and not Path(files[0]).exists():
        near = get_close_matches(files[0], _WAYS, 1)
        mend = f"Did you mean “cookday {near[0]}”?" if near else "Mend the name, or see cookday --help."
        raise Refusal(f"There is no plan “{files[0]}”. {mend}")
    if len(files) > 1:
        raise Refusal(f"Give one plan to open, not {len(files)}.")
    if _has_no_display():
        raise Refusal(
            "There is no display here for the window. Use cookday arrange, check, sheet or picture; "
            "cookday --help tells how and what else there is."
        )
    from app.start import start

    return start(Path(files[0]) if files else None)


def _has_no_display() -> bool:
    if not sys.platform.startswith("linux"):
        return False
    return not any(os.environ.get(name) for name in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"))


# ---- what is said


def _speak_plainly() -> None:
    """Let no character that the terminal lacks end the program."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="backslashreplace")


def _refused(refusal: Refusal) -> int:
    """Say a refusal in one line: of many faults the first ones, and how many more there are."""
    head, *faults = str(refusal).splitlines() or [""]
    said = [head, *faults[:_MOST_FAULTS]]
    if len(faults) > _MOST_FAULTS:
        said.append(f"And {len(faults) - _MOST_FAULTS} more.")
    return _say(" ".join(said), BAD_INPUT)


def _say(sentence: str, code: int) -> int:
    print(f"cookday: {' '.join(sentence.split())}", file=sys.stderr)
    return code


def _flush() -> None:
    if sys.stdout is not None:
        sys.stdout.flush()


def _give_up_output() -> None:
    """Where the output can no longer be written, point it at nothing: else Python complains again as it ends."""
    try:
        _flush()
    except OSError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


# ---- what may be asked


def _parser() -> argparse.ArgumentParser:
    from app import scripted, scripted_cure

    parser = _Parser(
        prog="cookday",
        description="Cook-Day Planner: places every step of a feast so that all meets at plating.",
        epilog=_EXAMPLES,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        usage="cookday [FILE] | cookday WAY ...",
        allow_abbrev=False,
    )
    parser.add_argument("--version", action=_Version, nargs=0, help="print the version")
    ways = parser.add_subparsers(prog="cookday", dest="way", metavar="WAY", title="ways without a window")
    _arrange_way(ways.add_parser("arrange", help="place every step so that all meets"), scripted.arrange)
    _check_way(
        ways.add_parser("check", help="tell what clashes in a timetable, without arranging"), scripted.check
    )
    _advice_ways(ways)
    sheet = "write the run sheet or other sheets as PDF, a page for a phone, a calendar file, tables or a picture"
    _sheet_way(ways.add_parser("sheet", help=sheet))
    _picture_way(ways.add_parser("picture", help="write a picture of the timeline"), scripted.picture)
    _list_way(ways.add_parser("list", help="print what to buy, or what to pull out of the cupboards"))
    _draft_way(ways.add_parser("draft", help="read a recipe: print it as a text plan, or put it into a plan"))
    scripted_cure.add_arguments(ways.add_parser("cure", help="reckon a cure's nitrite against its limit"))
    schema = ways.add_parser("schema", help="print the JSON Schema of plans written as text")
    schema.set_defaults(run=scripted.schema)
    demo = ways.add_parser("demo", help="put the demo plans into a folder")
    demo.add_argument("folder", type=Path, metavar="DIR", help="made if it is not there")
    demo.set_defaults(run=scripted.demo)
    return parser


Way = Callable[[argparse.Namespace], int]


def _arrange_way(parser: argparse.ArgumentParser, run: Way) -> None:
    _plan(parser)
    _effort(parser)
    parser.add_argument("--timetable", type=Path, metavar="OUT.json", help="write the timetable here")
    parser.set_defaults(run=run)


def _check_way(parser: argparse.ArgumentParser, run: Way) -> None:
    _plan(parser)
    parser.add_argument("--timetable", type=Path, metavar="IN.json", required=True, help="what to check")
    parser.set_defaults(run=run)


def _advice_ways(ways: Any) -> None:
    """Add what tells about a plan: why not, ways out, how good, how sure, guests late."""
    from app import scripted

    why = ways.add_parser("why", help="tell why a plan cannot be met")
    _plan(why)
    _seconds_of(why, 8.0, "how long to look for reasons")
    why.set_defaults(run=scripted.why)
    out = ways.add_parser("ways", help="tell what to change so that all meets, each way tried")
    _plan(out)
    _seconds_of(out, 1.0, "how long to look for each kind of way out")
    out.set_defaults(run=scripted.ways)
    for name, run, words in (
        ("quality", scripted.quality, "tell how good the day is, wish by wish, and what better would cost"),
        ("chances", scripted.chances, "tell how likely all is in time, and what threatens it"),
        ("late", scripted.late, "tell how long the menu can stand when the guests are late"),
    ):
        parser = ways.add_parser(name, help=words)
        _plan(parser)
        _effort(parser)
        _used(parser)
        parser.set_defaults(run=run)
        if name == "late":
            parser.add_argument("--at", default="-30 min", metavar="TIME", help="heard of at, such as 18:40 (-30 min)")
            parser.add_argument("--by", default="", metavar="MIN", help="and what happens if serving is so much later")


def _sheet_way(parser: argparse.ArgumentParser) -> None:
    from app import scripted_out, scripted_sheets

    _made_from_a_timetable(parser, "OUT")
    scripted_sheets.add_arguments(parser)
    scripted_out.add_arguments(parser, scripted_sheets.KINDS, scripted_sheets.KIND_HELP)


def _picture_way(parser: argparse.ArgumentParser, run: Way) -> None:
    from app.scripted_out import WIDTH

    _made_from_a_timetable(parser, "OUT.png|OUT.svg")
    parser.add_argument(
        "--by", choices=("station", "dish", "cook"), default="station", help="what a row is (station)"
    )
    parser.add_argument("--dark", action="store_true", help="on a dark ground")
    parser.add_argument(
        "--width", type=_width, default=WIDTH, metavar="PIXELS", help=f"how wide ({WIDTH})"
    )
    parser.set_defaults(run=run)


def _list_way(parser: argparse.ArgumentParser) -> None:
    from app import scripted_lists

    _plan(parser)
    _effort(parser)
    _used(parser)
    kinds = "order: what to buy, when, for what; pull: vessels, tools and serving dishes, the most in use at once"
    parser.add_argument("--kind", choices=scripted_lists.KINDS, required=True, help=kinds)
    parser.set_defaults(run=scripted_lists.lists)


def _draft_way(parser: argparse.ArgumentParser) -> None:
    from app import scripted_draft
    from core.measures.unit_names import SYSTEMS

    page = "a saved web page, JSON with a schema.org Recipe, or plain text; or a draft finished as text (.toml)"
    parser.add_argument("page", type=Path, metavar="PAGE", help=page)
    parser.add_argument("--to", type=Path, metavar="PLAN", help="put it into this plan, new or there already")
    untimed = "the length of each step whose length the page does not tell, such as 10 or 8/10/15"
    parser.add_argument("--untimed", type=_span, metavar="MIN", help=untimed)
    cups = "whose spoons, cups and pints plain ones are (us)"
    parser.add_argument("--measures", choices=tuple(SYSTEMS), default="us", help=cups)
    parser.set_defaults(run=scripted_draft.draft)


def _made_from_a_timetable(parser: argparse.ArgumentParser, ends: str) -> None:
    _plan(parser)
    _effort(parser)
    _used(parser)
    parser.add_argument("--to", type=Path, required=True, metavar=ends, help="write it here")


def _used(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--timetable",
        type=Path,
        metavar="IN.json",
        help="use this one; else the one last seen in the plan file, else arrange",
    )


def _plan(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "plan", type=Path, metavar="FILE", help="a plan file (.cookday) or a plan as text (.toml, .json)"
    )


def _effort(parser: argparse.ArgumentParser) -> None:
    _seconds_of(parser, 10.0, "how long to arrange")
    parser.add_argument(
        "--seed", type=_seed, default=0, metavar="N", help="another number, another search (0)"
    )


def _seconds_of(parser: argparse.ArgumentParser, usual: float, words: str) -> None:
    parser.add_argument("--seconds", type=_seconds, default=usual, metavar="S", help=f"{words} ({usual:g})")


def _seconds(text: str) -> float:
    try:
        seconds = float(text)
    except ValueError:
        raise argparse.ArgumentTypeError(f"“{text}” is no number of seconds; give one such as 10") from None
    if not isfinite(seconds) or not 0 < seconds <= _LONGEST_SEARCH:
        raise argparse.ArgumentTypeError(f"“{text}” seconds: give more than 0 and at most {_LONGEST_SEARCH}")
    return seconds


def _span(text: str) -> Any:
    from core.measures.minutes import parse_span
    from core.plan.step import Span

    try:
        low, likely, high = parse_span(text)
    except Refusal as refusal:
        raise argparse.ArgumentTypeError(refusal.text) from None
    if low < 1:
        raise argparse.ArgumentTypeError(f"“{text}” is no length for a step; give 1 min or more")
    return Span(low, likely, high)


def _seed(text: str) -> int:
    return _whole(text, 0, 2**31 - 1)


def _width(text: str) -> int:
    return _whole(text, _NARROWEST, _WIDEST)


def _whole(text: str, least: int, most: int) -> int:
    if not text.strip().isdecimal() or not least <= int(text) <= most:
        raise argparse.ArgumentTypeError(f"“{text}” is not a whole number from {least} to {most}")
    return int(text)


if __name__ == "__main__":
    sys.exit(main())
