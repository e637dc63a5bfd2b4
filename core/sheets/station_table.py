"""The station sheet's lines as rows: in, out, what, where, until what, who."""

from __future__ import annotations

from core.sheets.names import brief_names, who_width
from core.sheets.station_sheet import StationDay, StationLine
from core.sheets.table import WHO, Column, Group, Look, Row

_COLUMNS = (
    Column("", Look.TICK),
    Column("in", Look.TIME),
    Column("out", Look.THING),
    Column("what", Look.THING, share=1.55),
    Column("°C, where", Look.SMALL, share=0.8),
    Column("look, done when", Look.SMALL, share=1.25),
)
_REAL = Column("real out", Look.BLANK, wide=16)


def station_group(day: StationDay) -> Group:
    """Return a day's lines as a group."""
    who = Column(WHO, Look.SMALL, wide=who_width(line.who for line in day.lines))
    brief = brief_names(line.dish for line in day.lines if line.dish)
    told: set[str] = set()
    rows = []
    for line in day.lines:
        rows.append(_row(line, brief.get(line.dish, "") if line.dish in told else line.dish))
        told.add(line.dish)
    return Group(day.title, tuple(rows), day.about, columns=(*_COLUMNS, who, _REAL))


def _row(line: StationLine, dish: str) -> Row:
    if not line.dish:
        # What is set has the room of what is cooked, where and how long.
        said = "\n".join(filter(None, (f"{line.act} {line.what}".strip(), " · ".join(line.details))))
        return Row(("", line.clock, "", said, "", "", line.who, ""), over=(3, 2))
    said = f"{line.code} {dish}".strip()
    return Row(("", line.clock, line.out, f"{said}\n{line.what}", line.place, "\n".join(line.details), line.who, ""))
