"""Lengths: reserved minutes, longer where the place is full, in pieces where the step may be cut into them.

What is done or under way is judged by the day instead (clashes_day).
"""

from __future__ import annotations

from collections.abc import Collection, Iterator

from core.plan.ids import StationId, StepId
from core.timetable import sentences_length as sentences
from core.timetable.book import Book
from core.timetable.clash import Clash, ClashKind
from core.timetable.lengths import Length, length_alone, length_of, slower_when_full
from core.timetable.naming import load
from core.timetable.pieces import pieces_of
from core.timetable.timetable import Hand, Placed


def length_clashes(book: Book, placed: Placed) -> Iterator[Clash]:
    """Judge the length of a load; that of one in a place which may be full is judged with the place."""
    if placed.length > 0 and slower_when_full(book, placed):
        return
    whole = book.facts.plan.steps[placed.step].least_piece is None
    if not whole or placed.length != length_alone(book, placed):
        yield from _judged(book, placed)


def full_clashes(book: Book, stations: Collection[StationId]) -> Iterator[Clash]:
    """Judge the length of everything on stations where being full matters."""
    loads: dict[tuple[StepId, int], Placed] = {}
    for station in book.facts.slower:
        if station in stations:
            on_it = {(thing.step, thing.load) for thing in book.things(station) if thing.waiting is None}
            for step in {step for step, _load in on_it}:
                loads |= {each.key: each for each in book.loads[step] if each.key in on_it}
    for placed in loads.values():
        yield from _judged(book, placed)


def _judged(book: Book, placed: Placed) -> Iterator[Clash]:
    if placed.key in book.facts.known:
        return
    true = length_of(book, placed)
    pieces = pieces_of(book.facts, placed, true.minutes)
    if pieces is not None and [(each.start, each.minutes) for each in pieces] != [
        (placed.start, placed.length)
    ]:
        yield from _pieces(book, placed, pieces, true)
    elif placed.length != true.minutes:
        yield _wrong(book, placed, true, placed.length, placed.end)


def _wrong(book: Book, placed: Placed, true: Length, given: int, until: int) -> Clash:
    """Say that so many minutes, done by then, are too many or too few."""
    facts, name = book.facts, load(book.facts, placed.step, placed.load)
    steps: tuple[StepId, ...] = (placed.step,)
    if true.minutes != true.alone:
        steps = tuple(dict.fromkeys((placed.step, *(step for each in true.full for step in each.steps))))
        sentence = sentences.longer_when_full(facts, name, given, true, placed.step)
    elif given == true.crowded:
        sentence = sentences.not_full(name, given, true.minutes)
    else:
        setting = placed.setting if true.minutes != facts.need(placed.step, placed.way).length else None
        sentence = sentences.wrong_length(name, given, true.minutes, setting)
    start, end = sorted((until, until + true.minutes - given))
    return Clash(ClashKind.LENGTH, sentence, start, end, steps, by=end - start)


def _pieces(book: Book, placed: Placed, pieces: tuple[Hand, ...], true: Length) -> Iterator[Clash]:
    """Judge pieces: together as long as the step, none too short, one at a time, from its start to its end."""
    facts, steps, name = book.facts, (placed.step,), load(book.facts, placed.step, placed.load)
    least = facts.plan.steps[placed.step].least_piece or 0
    together = sum(piece.minutes for piece in pieces)
    if together != true.minutes:
        until = max(_end(piece) for piece in pieces)
        if len(pieces) == 1 or true.minutes != true.alone or together == true.crowded:
            yield _wrong(book, placed, true, together, until)
        else:
            sentence = sentences.pieces_together(name, len(pieces), together, true.minutes)
            start, end = sorted((until, until + true.minutes - together))
            yield Clash(ClashKind.LENGTH, sentence, start, end, steps, by=end - start)
    for piece in pieces:
        if piece.minutes < least:
            when = (piece.start, _end(piece))
            sentence = sentences.short_piece(facts, name, when, least)
            yield Clash(ClashKind.LENGTH, sentence, *when, steps, by=least - piece.minutes)
    done = pieces[0]
    for piece in pieces[1:]:
        if piece.start < _end(done):
            when = (piece.start, min(_end(done), _end(piece)))
            sentence = sentences.two_pieces(facts, name, when)
            yield Clash(ClashKind.LENGTH, sentence, *when, steps, by=when[1] - when[0])
        done = max(done, piece, key=_end)
    hull = (pieces[0].start, _end(done))
    if hull != (placed.start, placed.end):
        given = (placed.start, placed.end)
        sentence = sentences.pieces_span(facts, name, given, hull)
        by = abs(given[0] - hull[0]) + abs(given[1] - hull[1])
        yield Clash(ClashKind.LENGTH, sentence, min(*given, *hull), max(*given, *hull), steps, by=by)


def _end(piece: Hand) -> int:
    return piece.start + piece.minutes
