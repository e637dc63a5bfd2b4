"""The book of the timetable that was looked at last, so that drawing it place by place reads it once."""

from __future__ import annotations

from core.plan.plan import Plan
from core.timetable.book import Book
from core.timetable.facts import Facts
from core.timetable.timetable import Timetable

_last: list[tuple[Plan, Timetable, Book]] = []


def book_of(plan: Plan, timetable: Timetable) -> Book:
    """Return the book of a timetable; for the same two values as the last time the same book."""
    last = _last[0] if _last else None
    if last is not None and last[0] is plan and last[1] is timetable:
        return last[2]
    book = Book(Facts(plan), timetable)
    _last[:] = [(plan, timetable, book)]
    return book
