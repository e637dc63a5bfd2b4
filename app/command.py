"""The command `cookday`: opens the window, or does one thing for scripts and machines without a display.

Exit codes: 0 done and everything meets, 1 clashes remain, 2 bad input (one clear line on stderr).
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import NoReturn

from core.measures.refusal import Refusal

MEETS, CLASHES, BAD_INPUT = 0, 1, 2


class _Parser(argparse.ArgumentParser):
    """An argument parser whose errors are one line and exit 2."""

    def error(self, message: str) -> NoReturn:
        self.exit(BAD_INPUT, f"cookday: {message}\n")


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command with these arguments (the process's own by default); return its exit code."""
    given = list(sys.argv[1:] if arguments is None else arguments)
    try:
        if not given or (given[0] not in _WAYS and not given[0].startswith("-")):
            return _open_window(given)
        options = _parser().parse_args(given)
        if options.way is None:
            return _open_window([])
        run: Callable[[argparse.Namespace], int] = options.run
        return run(options)
    except Refusal as refusal:
        print(f"cookday: {' '.join(str(refusal).split())}", file=sys.stderr)
        return BAD_INPUT
    except OSError as wrong:
        name = f"{wrong.filename}: " if wrong.filename else ""
        print(f"cookday: {name}{wrong.strerror or wrong}", file=sys.stderr)
        return BAD_INPUT
    except KeyboardInterrupt:
        print("cookday: stopped", file=sys.stderr)
        return 130


def _open_window(files: list[str]) -> int:
    if len(files) > 1:
        raise Refusal(f"Give one plan to open, not {len(files)}.")
    from app.start import start

    return start(Path(files[0]) if files else None)


def _parser() -> _Parser:
    from app import scripted

    parser = _Parser(prog="cookday", description="Cook-Day Planner: everything meets at plating.")
    ways = parser.add_subparsers(dest="way", metavar="WAY", parser_class=_Parser)

    arrange = ways.add_parser("arrange", help="place every step so that all meets")
    _plan(arrange)
    _effort(arrange)
    arrange.add_argument("--timetable", type=Path, metavar="OUT.json", help="write the timetable here")
    arrange.set_defaults(run=scripted.arrange)

    check = ways.add_parser("check", help="tell what clashes in a timetable, without arranging")
    _plan(check)
    check.add_argument("--timetable", type=Path, metavar="IN.json", required=True)
    check.set_defaults(run=scripted.check)

    for way, about, run, ends in (
        ("sheet", "write the run sheet", scripted.sheet, "OUT.pdf"),
        ("picture", "write a picture of the timeline", scripted.picture, "OUT.png|OUT.svg"),
    ):
        one = ways.add_parser(way, help=about)
        _plan(one)
        _effort(one)
        one.add_argument("--timetable", type=Path, metavar="IN.json", help="use this one; else arrange first")
        one.add_argument("--to", type=Path, required=True, metavar=ends)
        one.set_defaults(run=run)
    ways.choices["sheet"].add_argument("--paper", choices=("a4", "letter"), default="a4")
    ways.choices["picture"].add_argument("--by", choices=("station", "dish"), default="station")
    ways.choices["picture"].add_argument("--dark", action="store_true", help="on a dark ground")
    ways.choices["picture"].add_argument("--width", type=int, default=1800, metavar="PIXELS")

    schema = ways.add_parser("schema", help="print the JSON Schema of plans written as text")
    schema.set_defaults(run=scripted.schema)

    demo = ways.add_parser("demo", help="put the demo plans into a folder")
    demo.add_argument("folder", type=Path, metavar="DIR")
    demo.set_defaults(run=scripted.demo)
    return parser


_WAYS = frozenset({"arrange", "check", "sheet", "picture", "schema", "demo"})


def _plan(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("plan", type=Path, metavar="FILE", help="a plan file (.cookday) or a plan as text")


def _effort(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--seconds", type=_seconds, default=10.0, metavar="S", help="how long to arrange (10)"
    )
    parser.add_argument("--seed", type=int, default=0, metavar="N", help="another number, another search (0)")


def _seconds(text: str) -> float:
    try:
        seconds = float(text)
    except ValueError:
        raise argparse.ArgumentTypeError(f'"{text}" is no number of seconds') from None
    if not 0 < seconds <= 86400:
        raise argparse.ArgumentTypeError(f"{text} seconds: give more than 0 and at most 86400")
    return seconds


if __name__ == "__main__":
    sys.exit(main())
