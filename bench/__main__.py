"""Run the measurements: python -m bench [--only NAME ...] [--seconds S] [--instances FOLDER]."""

from __future__ import annotations

import argparse
import importlib
import pkgutil
import sys
import time
import traceback
from pathlib import Path

import bench
from bench.asked import ASKED
from bench.machine import busy, described
from bench.reach import Measured, table
from bench.row import Row
from core.measures.refusal import Refusal

_PREFIX = "row_"
_LINE = "{:<44} {:<12} {:>18}   {}"


def names() -> list[str]:
    """Return the names of all row files."""
    found = [module.name for module in pkgutil.iter_modules(bench.__path__)]
    return sorted(name.removeprefix(_PREFIX) for name in found if name.startswith(_PREFIX))


def main(arguments: list[str] | None = None) -> int:
    """Print the table; return 1 when a measurement failed."""
    parser = argparse.ArgumentParser(prog="python -m bench", description="Measure, and print the figures.")
    parser.add_argument(
        "--only", action="append", choices=names(), metavar="NAME", help=f"one of: {', '.join(names())}"
    )
    words = "of the short run of arranging: 10, or 5 for a quick look"
    parser.add_argument("--seconds", type=float, default=10.0, help=words)
    parser.add_argument("--instances", type=Path, metavar="FOLDER", help="of .sm and .sch files to measure with")
    parser.add_argument("--most", type=int, default=ASKED.most, help="files of one size (default: %(default)s)")
    chosen = parser.parse_args(arguments)
    ASKED.instances, ASKED.most = chosen.instances, max(1, chosen.most)
    for line in (*described(), busy()):
        print(line)
    print()
    print(_LINE.format("what", "size", "measured", "to reach"))
    measured: Measured = []
    failed = [name for name in chosen.only or names() if not _measured(name, chosen.seconds, measured)]
    print()
    for line in (*described(), busy(), *table(measured)):
        print(line)
    if failed:
        print(f"\nfailed: {', '.join(failed)}")
    return 1 if failed else 0


def _measured(name: str, seconds: float, measured: Measured) -> bool:
    before = time.perf_counter()
    print(f"-- {name}", flush=True)
    try:
        for row in importlib.import_module(f"bench.{_PREFIX}{name}").rows(seconds):
            measured.append((name, row))
            _print(row)
    except Refusal as refusal:
        print(refusal.text)
        return False
    except Exception:  # noqa: BLE001  one broken measurement must not hide the others; it is shown and counted
        traceback.print_exc()
        return False
    print(f"   ({time.perf_counter() - before:.0f} s)", flush=True)
    return True


def _print(row: Row) -> None:
    print(_LINE.format(row.what, row.size, row.figure, row.target).rstrip(), flush=True)


if __name__ == "__main__":
    sys.exit(main())
