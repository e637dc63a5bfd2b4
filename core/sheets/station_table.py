"""The station sheet's lines as rows: in, out, what, where, until what, who."""

from __future__ import annotations

from core.sheets.station_sheet import StationDay, StationLine
from core.sheets.table import Column, Group, Look, Row

COLUMNS = (
    Column("", Look.TICK),
    Column("in", Look.STRONG),
    Column("out", Look.THING),
    Column("what", Look.THING, share=1.7),
    Column("°C, where", Look.TEXT, share=0.8),
    Column("look, done when", Look.TEXT, share=1.1),
    Column("who", Look.TEXT, wide=23),
    Column("real out", Look.BLANK, wide=17),
)


def station_group(day: StationDay) -> Group:
    """Return a day's lines as a group."""
    return Group(day.title, tuple(_row(line) for line in day.lines), day.about, columns=COLUMNS)


def _row(line: StationLine) -> Row:
    if not line.dish:
        said = " · ".join((f"{line.act} {line.what}".strip(), *line.details))
        return Row(("", line.clock, "", said, "", "", line.who, ""))
    dish = f"{line.code} {line.dish}".strip()
    return Row(
        ("", line.clock, line.out, f"{dish}\n{line.what}", line.place, "\n".join(line.details), line.who, "")
    )
