"""Time: loads, links, orders, serving, earliest and latest, the clock.

On the day what has begun is a fact: it is not told that it began too soon or too late, or was served too late. What
it asks of the steps that are still to come is judged, and how long food waits that waits now.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import chain, pairwise

from core.plan.calendar import clock_offset
from core.plan.day import State
from core.plan.decisions import Order
from core.plan.ids import StepId
from core.plan.menu import Link, LinkKind
from core.timetable import sentences
from core.timetable.book import Book
from core.timetable.clash import Clash, ClashKind
from core.timetable.facts import Facts, Need
from core.timetable.naming import first_load, last_load, load
from core.timetable.timetable import Placed


def time_clashes(book: Book, steps: Iterable[StepId], everything: bool) -> Iterator[Clash]:
    """Find what is too early, too late, out of order or waits too long, for these steps and their links."""
    plan = book.facts.plan
    links: Iterable[Link] = plan.menu.links
    known = [step for step in dict.fromkeys(steps) if step in book.loads]
    if not everything:
        touching = chain.from_iterable((*plan.links_from[step], *plan.links_to[step]) for step in known)
        links = {link.key: link for link in touching}.values()
    for link in links:
        for number, before, after in book.pairs(link):
            yield from _bond(book.facts, link, number, before, after)
    among = set(known)
    for order in plan.decisions.orders:
        if order.first in among or order.then in among:
            yield from _order(book, order)
    for step in known:
        loads = book.loads[step]
        need = book.facts.need(step, loads[0].way)
        yield from _loads(book.facts, need, loads)
        yield from _served(book.facts, need, loads)
        yield from _bounds(book.facts, need, loads)


def _loads(facts: Facts, need: Need, loads: list[Placed]) -> Iterator[Clash]:
    """Judge that load k+1 starts not before load k has ended and the place is changed over."""
    change_over = need.step.loads.change_over if need.step.loads is not None else 0
    for one, other in pairwise(loads):
        gap = other.start - one.end
        if gap < change_over and other.start >= facts.now and _next(facts, one, other):
            kind = ClashKind.OUT_OF_ORDER if gap < 0 else ClashKind.WAIT_TOO_SHORT
            sentence = sentences.next_load(facts, one.step, other.load, other.start, gap, change_over)
            yield Clash(kind, sentence, other.start, one.end + change_over, (one.step,), by=change_over - gap)


def _next(facts: Facts, one: Placed, other: Placed) -> bool:
    """Return whether a load is the next one after another: what lies between was dropped."""
    between = range(one.load + 1, other.load)
    return all((one.step, load) in facts.dropped for load in between)


def _bond(
    facts: Facts, link: Link, number: int, before: list[Placed], after: list[Placed]
) -> Iterator[Clash]:
    """Judge one bond of a link between loads: all of both steps, or one pair."""
    if link.kind is LinkKind.END_TO_START:
        yield from _follows(facts, link, number, before, after)
        return
    if link.kind is LinkKind.START_TO_START:
        one, other = before[0].start, after[0].start
    else:
        one, other = before[-1].end, after[-1].end
    yield from _too_soon(facts, link, number, one, other)
    if link.most is not None and other - one > link.most and other >= facts.now:
        gap, limit = other - one, one + link.most
        names = _names(facts, link, number)
        sentence = sentences.too_late_after(facts, link.kind, names, other, gap, link.most)
        steps = (link.before, link.after)
        yield Clash(ClashKind.WAITED_TOO_LONG, sentence, limit, other, steps, by=gap - link.most)


def _follows(
    facts: Facts, link: Link, number: int, before: list[Placed], after: list[Placed]
) -> Iterator[Clash]:
    """Judge an end-to-start bond: the last load before and the first one after, the longest wait of all."""
    yield from _too_soon(facts, link, number, max(map(_end, before)), min(map(_start, after)))
    if link.most is None:
        return
    done, until = _done_at(facts, before[0]), after[-1].start
    early = before[0].end - done
    wait = until - done
    if wait > link.most and until >= facts.now:
        names = _names(facts, link, number, longest=True)
        length = (wait, link.most)
        sentence = sentences.waits(facts, names[0], done, f"{names[1]} starts", length, early > 0)
        steps = (link.before, link.after)
        yield Clash(ClashKind.WAITED_TOO_LONG, sentence, done + link.most, until, steps, by=wait - link.most)


def _done_at(facts: Facts, placed: Placed) -> int:
    """Return when food may be done at the soonest: by the low length where that was cautious, unless it is known."""
    fact = facts.known.get(placed.key) if facts.known else None
    if fact is None:
        return placed.end - facts.need(placed.step, placed.way).early
    if fact.state is State.DONE or fact.end is not None:
        return placed.end
    return min(placed.end, max(facts.now, placed.end - facts.need(placed.step, placed.way).early))


def _names(facts: Facts, link: Link, number: int, longest: bool = False) -> tuple[str, str]:
    """Return the names of the loads that a bond ties."""
    if facts.paired(link):
        return load(facts, link.before, number), load(facts, link.after, number)
    if link.kind is LinkKind.END_TO_END:
        return last_load(facts, link.before), last_load(facts, link.after)
    if longest or link.kind is LinkKind.START_TO_START:
        after = last_load if longest else first_load
        return first_load(facts, link.before), after(facts, link.after)
    return last_load(facts, link.before), first_load(facts, link.after)


def _too_soon(facts: Facts, link: Link, number: int, one: int, other: int) -> Iterator[Clash]:
    gap = other - one
    if gap < link.least and other >= facts.now:
        names = _names(facts, link, number)
        kind = ClashKind.OUT_OF_ORDER if gap < 0 else ClashKind.WAIT_TOO_SHORT
        sentence = sentences.too_soon(facts, link.kind, names, other, gap, link.least)
        steps = (link.before, link.after)
        yield Clash(kind, sentence, other, one + link.least, steps, by=link.least - gap)


def _order(book: Book, order: Order) -> Iterator[Clash]:
    """Judge that what the cook put later begins only after the other has ended."""
    before, after = book.loads.get(order.first, []), book.loads.get(order.then, [])
    if not before or not after:
        return
    done, start = max(each.end for each in before), min(each.start for each in after)
    facts = book.facts
    if start < done and start >= facts.now:
        names = (last_load(facts, order.first), first_load(facts, order.then))
        sentence = sentences.ordered(facts, names, start, done - start)
        yield Clash(ClashKind.OUT_OF_ORDER, sentence, start, done, (order.first, order.then), by=done - start)


def _served(facts: Facts, need: Need, loads: list[Placed]) -> Iterator[Clash]:
    """Judge that a last step is done by its course, and not so early that the food waits too long."""
    if not need.last:
        return
    course, step = need.dish.course, need.step.id
    done = max(each.end for each in loads)
    if done > course and done > facts.now:
        sentence = sentences.late_at_table(facts, last_load(facts, step), done, course, need.dish.served)
        yield Clash(ClashKind.LATE, sentence, course, done, (step,), by=done - course)
    if need.keep is None or need.keep.most is None:
        return
    done = _done_at(facts, loads[0])
    early = loads[0].end - done
    wait, most = course - done, need.keep.most
    if wait > most and course > facts.now:
        name, length = first_load(facts, step), (wait, most)
        sentence = sentences.waits(facts, name, done, "it is served", length, early > 0)
        yield Clash(ClashKind.WAITED_TOO_LONG, sentence, done + most, course, (step,), by=wait - most)


def _bounds(facts: Facts, need: Need, loads: list[Placed]) -> Iterator[Clash]:
    """Judge the step's own earliest, latest and clock time, and the plan's opening."""
    step, opens, steps = need.step, facts.plan.opens, (need.step.id,)
    first, last = min(loads, key=_start), max(loads, key=_end)
    start, end = first.start, last.end
    to_come = start >= facts.now
    if opens is not None and start < opens and to_come:
        name = load(facts, step.id, first.load)
        sentence = sentences.before_opening(facts, name, start, opens)
        yield Clash(ClashKind.TOO_EARLY, sentence, start, opens, steps, by=opens - start)
    if step.earliest is not None and start < step.earliest and to_come:
        name = load(facts, step.id, first.load)
        sentence = sentences.too_early(facts, name, start, step.earliest)
        yield Clash(ClashKind.TOO_EARLY, sentence, start, step.earliest, steps, by=step.earliest - start)
    if step.latest is not None and end > step.latest and end > facts.now:
        sentence = sentences.too_late(facts, load(facts, step.id, last.load), end, step.latest)
        yield Clash(ClashKind.LATE, sentence, step.latest, end, steps, by=end - step.latest)
    if step.clock is not None:
        start, set_for = loads[0].start, clock_offset(facts.plan, step.clock)
        if start != set_for and start >= facts.now:
            kind = ClashKind.TOO_EARLY if start < set_for else ClashKind.LATE
            sentence = sentences.off_the_clock(facts, load(facts, step.id, loads[0].load), start, set_for)
            begin, until = sorted((start, set_for))
            yield Clash(kind, sentence, begin, until, steps, by=until - begin)


def _start(placed: Placed) -> int:
    return placed.start


def _end(placed: Placed) -> int:
    return placed.end
