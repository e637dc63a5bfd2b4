"""Benchmark projects: share proven within 1, 5 and 10 s and mean gap, ours beside a plain model and PyJobShop.

One worker each, one after the other in the same run. The gap is to the best that any of them found here; every
answer is checked against the project itself. `--instances FOLDER` takes the folder's `.sm` and `.sch` files.
"""

from __future__ import annotations

from collections.abc import Iterator

from bench.asked import ASKED
from bench.contest import Answer, peer_installed, solvers
from bench.instance_files import made, sets_of
from bench.project import Project
from bench.row import Row

CHECKED_AT = (1.0, 5.0, 10.0)
OURS = ("ours", "our model at once")


def rows(seconds: float) -> Iterator[Row]:
    """Measure set by set."""
    if not peer_installed():
        yield Row("PyJobShop", "", "not installed", "make peer installs it")
    sets = made() if ASKED.instances is None else sets_of(ASKED.instances, ASKED.most)
    for name, projects in sets.items():
        yield from _set(name, projects, seconds)


def _set(name: str, projects: list[Project], seconds: float) -> Iterator[Row]:
    taking_part = solvers()
    answers: dict[str, list[Answer]] = {who: [] for who in taking_part}
    for number, project in enumerate(projects):
        order = list(taking_part)
        order = order[number % len(order) :] + order[: number % len(order)]  # nobody always goes first
        for who in order:
            answers[who].append(taking_part[who](project, seconds))
    least = _least(answers)
    marks = [at for at in CHECKED_AT if at <= seconds] or [seconds]
    told = ", ".join(f"{at:g}" for at in marks)
    figures = {who: (_proven(own, marks), _gap(own, least)) for who, own in answers.items()}
    peers = [figure for who, figure in figures.items() if who not in OURS]
    best_share, best_gap = max(each[0][-1] for each in peers), min(each[1] for each in peers)
    for who, (shares, gap) in figures.items():
        mine = who in OURS
        yield Row(
            f"{who}: proven in {told} s; gap",
            f"{name} ({len(projects)})",
            f"{', '.join(f'{each:.0f}' for each in shares)} %; {gap:.2f} %",
            f"{best_share:.0f} %; {best_gap:.2f} %" if mine else "",
            line="projects" if who == OURS[0] else "",
            met=shares[-1] >= best_share and gap <= best_gap if mine else None,
        )


def _least(answers: dict[str, list[Answer]]) -> list[int | None]:
    """Return the best makespan of each project; answers that contradict each other stop the measurement."""
    found = []
    for each in zip(*answers.values(), strict=True):
        known = [answer.makespan for answer in each if answer.makespan is not None]
        least = min(known, default=None)
        if any(answer.proven and answer.makespan != least for answer in each):
            raise RuntimeError(f"proven answers differ: {each}")
        found.append(least)
    return found


def _proven(own: list[Answer], marks: list[float]) -> list[float]:
    """Return per cent proven by each mark (2 % of grace, since a limit is noticed a little late)."""
    return [100 * sum(each.proven and each.seconds <= 1.02 * at for each in own) / len(own) for at in marks]


def _gap(own: list[Answer], least: list[int | None]) -> float:
    """Return the mean per cent above the best; nothing found where there is something counts 100."""
    over = [
        0.0 if best is None else 100.0 if each.makespan is None else 100 * (each.makespan - best) / best
        for each, best in zip(own, least, strict=True)
    ]
    return sum(over) / len(over)
