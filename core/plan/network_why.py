"""Why a bound is where it is, and which limits cannot hold together, in a cook's words."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from core.measures.clock import show_clock
from core.measures.minutes import show_minutes
from core.plan.check_words import Words
from core.plan.menu import Link, LinkKind
from core.plan.network import Network, Side
from core.plan.network_limits import Key, Limit, LimitKind

PLATING = "plating"
_DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
_WEEK = 7


@dataclass(frozen=True, slots=True)
class Contradiction:
    """Limits in a circle: each one's `after` is the next one's `before`; their minutes add up to `over`."""

    chain: tuple[Limit, ...]
    over: int
    sentence: str


def forcing(network: Network) -> Any:
    """Return a networkx DiGraph of what forces each earliest start; edges bear their `limit`."""
    import networkx

    graph = networkx.DiGraph()
    graph.add_nodes_from([PLATING, *network.keys])
    for number in network.first.because:
        limit = network.limits[number]
        graph.add_edge(limit.before or PLATING, limit.after, limit=limit)
    return graph


def contradiction_in(network: Network) -> Contradiction:
    """Return limits of an inconsistent network that cannot hold together, those the furthest apart."""
    import networkx

    graph = forcing(network)
    if network.first.rest:
        # What forces is a tree from plating; the bound passed the furthest leads back and closes one circle.
        _over, number = max(
            (start - minutes, -number)
            for start, bounds in zip(network.first.starts, network.web.ceilings, strict=True)
            for minutes, number in bounds
        )
        graph.add_edge(network.limits[-number].before, PLATING, limit=network.limits[-number])
    around = [graph.edges[edge]["limit"] for edge in networkx.find_cycle(graph)]
    first = next((place for place, limit in enumerate(around) if limit.before is None), 0)
    circle = tuple(around[first:] + around[:first])
    over = sum(limit.minutes for limit in circle)
    asked = "; ".join(clause(network, limit) for limit in circle)
    much = show_minutes(over)
    mend = f"That is {much} too much; give one of them {much} more room."
    return Contradiction(circle, over, f"These cannot all hold: {asked}. {mend}")


def chain(network: Network, key: Key, side: Side) -> tuple[Limit, ...]:
    """Return the limits that force a bound, from the load to what is fixed; refuse as `earliest` does."""
    found: list[Limit] = []
    at: Key | None = key
    while at is not None:
        force = network.forced_by(at, side)
        if force is None:
            break
        found.append(force.limit)
        at = force.by
    return tuple(found)


def clause(network: Network, limit: Limit) -> str:
    """Return a limit in words, part of a sentence."""
    if limit.link is not None:
        return _Spoken(network).of_link(limit, limit.link)
    return _Spoken(network).of_bound(limit)


class _Spoken:
    """Puts limits into words: which step, how long, when by the clock."""

    def __init__(self, network: Network) -> None:
        self.network = network
        self.words = Words(network.plan)

    def of_link(self, limit: Limit, link: Link) -> str:
        """Return a link's least or most wait in words."""
        before, after = self.load(limit.before), self.load(limit.after)
        if limit.kind is LimitKind.MOST:
            before, after = after, before
        if link.kind is not LinkKind.END_TO_START:
            verb = "begins" if link.kind is LinkKind.START_TO_START else "ends"
            if limit.kind is LimitKind.MOST:
                return f"{after} {verb} at most {show_minutes(link.most or 0)} after {before} {verb}"
            return f"{after} {verb} at least {show_minutes(link.least)} after {before} {verb}"
        if limit.kind is LimitKind.MOST:
            early = self.network.lengths.reserved[link.before].early
            may = f" (which may be done {show_minutes(early)} sooner)" if early else ""
            return f"{after} begins at most {show_minutes(link.most or 0)} after {before} ends{may}"
        wait = f"at least {show_minutes(link.least)} " if link.least else ""
        return f"{after} begins {wait}after {before}, which takes {self.length(limit.before)}"

    def of_bound(self, limit: Limit) -> str:
        """Return any other limit in words."""
        plan = self.network.plan
        key = limit.after or limit.before
        if key is None:
            return ""
        name, when = self.load(key), self.clock(limit.minutes if limit.before is None else -limit.minutes)
        match limit.kind:
            case LimitKind.LOADS:
                wait = show_minutes(limit.minutes)
                return f"{name} begins {wait} after {self.load(limit.before)}, change-over included"
            case LimitKind.ORDER | LimitKind.FOLLOWS:
                why = "as decided" if limit.kind is LimitKind.ORDER else "as they stand on the timetable"
                before, takes = self.load(limit.before), self.length(limit.before)
                return f"{name} comes after {before}, which takes {takes}, {why}"
            case LimitKind.SERVED:
                dish = plan.dish_of[key[0]]
                served = "is served at" if dish.served else "must be done by"
                return f"{name} takes {self.length(key)} and {served} {self.clock(dish.course)}"
            case LimitKind.KEEPS:
                return self.keeps(key)
            case LimitKind.EARLIEST:
                return f"{name} may not begin before {when}"
            case LimitKind.LATEST:
                by = self.clock(plan.steps[key[0]].latest or 0)
                return f"{name} takes {self.length(key)} and must be done by {by}"
            case LimitKind.CLOCK:
                return f"{name} is fixed at {when}"
            case LimitKind.PIN:
                return f"{name} is pinned at {when}"
            case _:
                return f"nothing may begin before {when}, not even {name}"

    def keeps(self, key: Key) -> str:
        """Return how long a last step's food keeps, in words."""
        from core.plan.meaning import keep_of

        plan, (step, _load) = self.network.plan, key
        keep = keep_of(plan, plan.steps[step])
        most = keep.most if keep is not None and keep.most is not None else 0
        early = self.network.lengths.reserved[step].early
        may = f" and may be done {show_minutes(early)} sooner" if early else ""
        return (
            f"{self.load(key)} takes {self.length(key)}{may}, and keeps at most {show_minutes(most)}"
            f" until it is served at {self.clock(plan.dish_of[step].course)}"
        )

    def load(self, key: Key | None) -> str:
        """Return a step's name, with the number of the load where it has several."""
        if key is None:
            return PLATING
        several = self.network.lengths.loads[key[0]] > 1
        return self.words.step(key[0]) + (f" (load {key[1] + 1})" if several else "")

    def length(self, key: Key | None) -> str:
        """Return how long a load takes."""
        return "no time" if key is None else show_minutes(self.network.lengths.minutes[key])

    def clock(self, offset: int) -> str:
        """Return an offset as time of day, with its day where that is not plating's."""
        wall, plating = self.network.plan.wall(offset), self.network.plan.wall(0)
        if wall.date() == plating.date():
            return show_clock(wall)
        if abs((wall.date() - plating.date()).days) < _WEEK:
            return f"{_DAYS[wall.weekday()]} {show_clock(wall)}"
        return f"{_DAYS[wall.weekday()]} {wall:%Y-%m-%d} {show_clock(wall)}"
