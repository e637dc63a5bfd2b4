"""How much of a thing is taken at every minute of a feast."""

from __future__ import annotations

from array import array


class Taken:
    """Amounts minute by minute between two offsets, against a limit."""

    def __init__(self, low: int, high: int, limit: int) -> None:
        self.low, self.limit = low, limit
        self.minutes = array("H", bytes(2 * (high - low)))

    def room(self, start: int, end: int, amount: int = 1) -> bool:
        """Return whether so much more fits from start to end, all inside the feast."""
        first, last = start - self.low, end - self.low
        if first < 0 or last > len(self.minutes):
            return False
        return first >= last or max(self.minutes[first:last]) + amount <= self.limit

    def take(self, start: int, end: int, amount: int = 1) -> None:
        """Take so much from start to end; a negative amount gives it back."""
        for minute in range(start - self.low, end - self.low):
            self.minutes[minute] += amount
