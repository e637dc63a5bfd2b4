"""Writes projects in the published formats, so that whoever has no benchmark set at hand can try one."""

from __future__ import annotations

from bench.project import Project

_RULE = "*" * 72


def written_sm(project: Project) -> str:
    """Return the text of a `.sm` file; every lag must be the length of what comes before."""
    followers: dict[int, list[int]] = {number: [] for number in range(len(project.activities))}
    for lag in project.lags:
        if lag.minutes != project.activities[lag.before].length:
            raise ValueError("a file of this kind holds no lags")
        followers[lag.before].append(lag.after)
    count, kinds = len(project.activities), len(project.capacities)
    heads = "".join(f"  R{number + 1:2}" for number in range(kinds))
    out = [
        _RULE,
        f"file with basedata            : {project.name}.bas",
        "initial value random generator: 0",
        _RULE,
        "projects                      :  1",
        f"jobs (incl. supersource/sink ):  {count}",
        f"horizon                       :  {project.horizon}",
        "RESOURCES",
        f"  - renewable                 :  {kinds}   R",
        "  - nonrenewable              :  0   N",
        "  - doubly constrained        :  0   D",
        _RULE,
        "PRECEDENCE RELATIONS:",
        "jobnr.    #modes  #successors   successors",
    ]
    for number, those in followers.items():
        named = "".join(f"{each + 1:5}" for each in those)
        out.append(f"{number + 1:4}        1  {len(those):9}      {named}".rstrip())
    out += [_RULE, "REQUESTS/DURATIONS:", f"jobnr. mode duration{heads}", "-" * 72]
    for number, activity in enumerate(project.activities):
        amounts = "".join(f"{each:5}" for each in _demands(project, number))
        out.append(f"{number + 1:3}      1  {activity.length:6}   {amounts}")
    out += [_RULE, "RESOURCEAVAILABILITIES:", heads, "".join(f"{each:5}" for each in project.capacities), _RULE]
    return "\n".join(out) + "\n"


def written_sch(project: Project) -> str:
    """Return the text of a `.sch` file."""
    out = [f"{project.end - 1}\t{len(project.capacities)}\t0\t0"]
    for number in range(len(project.activities)):
        own = [lag for lag in project.lags if lag.before == number]
        words = [number, 1, len(own), *(lag.after for lag in own), *(f"[{lag.minutes}]" for lag in own)]
        out.append("\t".join(str(word) for word in words))
    for number, activity in enumerate(project.activities):
        out.append("\t".join(str(word) for word in (number, 1, activity.length, *_demands(project, number))))
    out.append("\t".join(str(each) for each in project.capacities))
    return "\n".join(out) + "\n"


def _demands(project: Project, number: int) -> tuple[int, ...]:
    return project.activities[number].demands or (0,) * len(project.capacities)
