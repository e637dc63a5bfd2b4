"""`cookday cure`: a cure's ingoing nitrite, its limit, source and sum, without a window and without a plan."""

from __future__ import annotations

import argparse
from textwrap import wrap
from typing import TYPE_CHECKING

from app.scripted import CLASHES, MEETS
from core.measures.refusal import Refusal

if TYPE_CHECKING:
    from fractions import Fraction

    from core.food.curing import Cure
    from core.measures.quantity import Quantity

_WIDTH = 110


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Say what may be asked of the curing desk."""
    parser.add_argument(
        "--meat", required=True, metavar="WEIGHT", help="green weight of the meat, such as 1kg"
    )
    dose = parser.add_mutually_exclusive_group(required=True)
    dose.add_argument("--cure", metavar="WEIGHT", help="weight of the curing mix, such as 2.5g")
    dose.add_argument(
        "--target", metavar="PPM", help="tell how much of the mix makes so many ppm, such as 120"
    )
    parser.add_argument(
        "--fraction",
        required=True,
        metavar="PERCENT",
        help="sodium nitrite in the mix, from its label: 6.25%%, 6.25 or 0.0625",
    )
    parser.add_argument(
        "--method",
        required=True,
        help="comminuted, dry, pumped, immersion-pickup, immersion-equilibrium, or for bellies bacon-dry,"
        " bacon-pumped, bacon-pickup, bacon-equilibrium",
    )
    parser.add_argument("--nitrate", metavar="PERCENT", help="sodium nitrate in the mix, if any, such as 4%%")
    parser.add_argument("--salt", metavar="WEIGHT", help="salt beside the mix")
    parser.add_argument("--pickle", metavar="WEIGHT", help="weight of the whole pickle, mix and salt in it")
    parser.add_argument(
        "--pump", metavar="PERCENT", help="pump or pick-up, a share of the meat's weight: 10%%"
    )
    parser.add_argument(
        "--skin-on", action="store_true", help="a belly with its skin: the limit is a tenth less"
    )
    parser.add_argument("--thickness", metavar="LENGTH", help="tell also how long it lies in the cure: 4cm")
    parser.set_defaults(run=cure)


def cure(options: argparse.Namespace) -> int:
    """Print ppm, limit, source and sums; the code is 1 over a limit."""
    from core.food.curing import ingoing
    from core.food.curing_time import cure_time, said_cure_time
    from core.food.curing_words import cautions, cure_lines, said_target

    asked = _asked(options)
    time = said_cure_time(cure_time(_amount(options.thickness))) if options.thickness else ""
    found = ingoing(asked)
    lines = list(cure_lines(found))
    if options.target is not None:
        lines.insert(1, said_target(found))
    lines += [time] if time else []
    for line in (*lines, "", *cautions(found)):
        print("\n".join(wrap(line, _WIDTH, subsequent_indent="  ", break_long_words=False)))
    return CLASHES if found.over or found.nitrate_over else MEETS


def _asked(options: argparse.Namespace) -> Cure:
    """Return what is asked, with the cure's weight found from the target where that is given."""
    from dataclasses import replace
    from fractions import Fraction

    from core.food.curing import Cure, cure_for
    from core.food.curing_rules import method_named
    from core.food.curing_shares import NITRATE, NITRITE, PUMP, parse_share
    from core.measures.quantity import Quantity

    asked = Cure(
        method_named(options.method),
        _amount(options.meat),
        _amount(options.cure) if options.cure else Quantity(Fraction(1, 1000), "g"),
        parse_share(options.fraction, NITRITE),
        parse_share(options.nitrate, NITRATE) if options.nitrate else Fraction(0),
        _amount(options.pickle) if options.pickle else None,
        parse_share(options.pump, PUMP) if options.pump else None,
        _amount(options.salt) if options.salt else None,
        options.skin_on,
    )
    if options.target is None:
        return asked
    return replace(asked, cure=cure_for(_ppm(options.target), asked))


def _amount(text: str) -> Quantity:
    from core.measures.quantity import parse_quantity

    return parse_quantity(text)


def _ppm(text: str) -> Fraction:
    from core.measures.number import read_number
    from core.measures.refusal import quoted

    number = read_number(text.casefold().removesuffix("ppm"))
    if number is None:
        raise Refusal(f"{quoted(text)} is no number of ppm; write one such as 120.")
    return number
