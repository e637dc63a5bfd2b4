"""The plain model that ours is measured beside: starts, lags, one cumulative for each resource, the end made small."""

from __future__ import annotations

from ortools.sat.python import cp_model

from bench.project import Project


def plain_model(project: Project) -> tuple[cp_model.CpModel, list[cp_model.IntVar]]:
    """Return the model of a project and its starts."""
    model = cp_model.CpModel()
    horizon = project.horizon
    starts = [model.new_int_var(0, horizon, f"s{number}") for number in range(len(project.activities))]
    model.add(starts[0] == 0)
    intervals = [
        model.new_fixed_size_interval_var(start, activity.length, "")
        for start, activity in zip(starts, project.activities, strict=True)
    ]
    for lag in project.lags:
        model.add(starts[lag.after] >= starts[lag.before] + lag.minutes)
    for start, activity in zip(starts, project.activities, strict=True):
        model.add(start + activity.length <= starts[-1])
    for resource, capacity in enumerate(project.capacities):
        taking = [
            (interval, activity.demands[resource])
            for interval, activity in zip(intervals, project.activities, strict=True)
            if activity.demands and activity.demands[resource] > 0
        ]
        if taking:
            model.add_cumulative([each for each, _units in taking], [units for _each, units in taking], capacity)
    model.minimize(starts[-1])
    return model, starts
