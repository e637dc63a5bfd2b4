"""Tables as a spreadsheet: a minimal workbook of ECMA-376 (Office Open XML), one sheet a table.

Written here with the standard library: what is needed is small (texts, numbers, dates, a heading that stays), texts
are stored as texts and can never be formulas, and the tests read it back with a library that had no part in it.
"""

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Iterable, Iterator, Sequence
from datetime import date, datetime, time
from fractions import Fraction
from xml.sax.saxutils import escape, quoteattr

from core.hatch.csv_file import is_formula, number_text
from core.hatch.table import Cell, Column, Table

_EPOCH = datetime(1899, 12, 30)
"""Day 0 of the sheet's calendar, which counts a 29 February 1900 (18.17.4.1)."""
_MOST = 32_767
"""Characters a cell holds."""
_FIXED = (1980, 1, 1, 0, 0, 0)
_HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n'
_MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
_RELATIONS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
_PACKAGE = "http://schemas.openxmlformats.org/package/2006"
_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml"
_PLAIN, _HEADING, _DAY, _TIME, _QUOTED = range(5)
_ESCAPE = re.compile(r"_(?=x[0-9A-Fa-f]{4}_)")
_ILLEGAL = re.compile(r"[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
"""What no XML 1.0 document may hold."""


def as_spreadsheet(tables: Sequence[Table]) -> bytes:
    """Return the workbook of at least one table; the same tables give the same bytes."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, text in _parts(tables):
            archive.writestr(zipfile.ZipInfo(name, _FIXED), (_HEAD + text).encode("utf-8"), zipfile.ZIP_DEFLATED)
    return out.getvalue()


def _parts(tables: Sequence[Table]) -> Iterator[tuple[str, str]]:
    numbers = range(1, len(tables) + 1)
    yield "[Content_Types].xml", _content_types(numbers)
    main = _relation("rId1", "officeDocument", "xl/workbook.xml")
    yield "_rels/.rels", f'<Relationships xmlns="{_PACKAGE}/relationships">{main}</Relationships>'
    sheets = "".join(
        f'<sheet name={quoteattr(table.name)} sheetId="{at}" r:id="rId{at}"/>'
        for at, table in zip(numbers, tables, strict=True)
    )
    yield "xl/workbook.xml", f'<workbook xmlns="{_MAIN}" xmlns:r="{_RELATIONS}"><sheets>{sheets}</sheets></workbook>'
    related = [_relation(f"rId{at}", "worksheet", f"worksheets/sheet{at}.xml") for at in numbers]
    related.append(_relation(f"rId{len(tables) + 1}", "styles", "styles.xml"))
    yield (
        "xl/_rels/workbook.xml.rels",
        f'<Relationships xmlns="{_PACKAGE}/relationships">{"".join(related)}</Relationships>',
    )
    yield "xl/styles.xml", _styles()
    for at, table in zip(numbers, tables, strict=True):
        yield f"xl/worksheets/sheet{at}.xml", _sheet(table)


def _relation(name: str, kind: str, target: str) -> str:
    return f'<Relationship Id="{name}" Type="{_RELATIONS}/{kind}" Target="{target}"/>'


def _content_types(numbers: Iterable[int]) -> str:
    parts = [("/xl/workbook.xml", "sheet.main"), ("/xl/styles.xml", "styles")]
    parts += [(f"/xl/worksheets/sheet{at}.xml", "worksheet") for at in numbers]
    told = "".join(f'<Override PartName="{part}" ContentType="{_TYPE}.{kind}+xml"/>' for part, kind in parts)
    return (
        f'<Types xmlns="{_PACKAGE}/content-types"><Default Extension="rels" '
        'ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
        f'<Default Extension="xml" ContentType="application/xml"/>{told}</Types>'
    )


def _styles() -> str:
    """Return the five looks of a cell: plain, heading, day, time, and a text that would look like a formula."""
    wrapped = '<alignment vertical="top" wrapText="1"/>'
    about = (("0", ""), ("0", ' fontId="1" borderId="1"'), ("164", ""), ("165", ""), ("0", ' quotePrefix="1"'))
    looks = "".join(f'<xf numFmtId="{number}"{more} applyAlignment="1">{wrapped}</xf>' for number, more in about)
    font = '<sz val="11"/><name val="Noto Sans"/>'
    edge = "<left/><right/><top/>"
    return (
        f'<styleSheet xmlns="{_MAIN}"><numFmts count="2"><numFmt numFmtId="164" formatCode="yyyy\\-mm\\-dd"/>'
        '<numFmt numFmtId="165" formatCode="yyyy\\-mm\\-dd\\ hh:mm"/></numFmts>'
        f'<fonts count="2"><font>{font}</font><font><b/>{font}</font></fonts>'
        '<fills count="2"><fill><patternFill patternType="none"/></fill>'
        '<fill><patternFill patternType="gray125"/></fill></fills>'
        f'<borders count="2"><border>{edge}<bottom/><diagonal/></border>'
        f'<border>{edge}<bottom style="medium"/><diagonal/></border></borders>'
        '<cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs>'
        f'<cellXfs count="{len(about)}">{looks}</cellXfs>'
        '<cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles></styleSheet>'
    )


def _sheet(table: Table) -> str:
    """Return a sheet whose heading stays while its rows scroll, and can be filtered by."""
    last = f"{_letters(len(table.columns))}{len(table.rows) + 1}"
    widths = "".join(_width(at, column) for at, column in enumerate(table.columns, 1))
    heading = _row(1, [column.name for column in table.columns], _HEADING)
    rows = "".join(_row(at, row, _PLAIN) for at, row in enumerate(table.rows, 2))
    return (
        f'<worksheet xmlns="{_MAIN}"><dimension ref="A1:{last}"/><sheetViews><sheetView workbookViewId="0">'
        '<pane ySplit="1" topLeftCell="A2" activePane="bottomLeft" state="frozen"/></sheetView></sheetViews>'
        f'<cols>{widths}</cols><sheetData>{heading}{rows}</sheetData><autoFilter ref="A1:{last}"/></worksheet>'
    )


def _width(at: int, column: Column) -> str:
    return f'<col min="{at}" max="{at}" width="{column.width}" customWidth="1"/>'


def _row(number: int, cells: Sequence[Cell], look: int) -> str:
    found = (_cell(f"{_letters(at)}{number}", cell, look) for at, cell in enumerate(cells, 1))
    return f'<row r="{number}">{"".join(found)}</row>'


def _cell(place: str, cell: Cell, look: int) -> str:
    if cell is None or cell == "":
        return ""
    if isinstance(cell, datetime):
        return f'<c r="{place}" s="{_TIME}"><v>{_serial(cell)}</v></c>'
    if isinstance(cell, date):
        return f'<c r="{place}" s="{_DAY}"><v>{_serial(datetime.combine(cell, time.min))}</v></c>'
    if isinstance(cell, (int, Fraction)):
        return f'<c r="{place}" s="{look}"><v>{number_text(Fraction(cell))}</v></c>'
    look = _QUOTED if is_formula(cell) and look == _PLAIN else look
    return f'<c r="{place}" s="{look}" t="inlineStr"><is><t xml:space="preserve">{_text(cell)}</t></is></c>'


def _text(text: str) -> str:
    """Return a text as its cell holds it; what would read as an escape of the format's own is escaped (22.9.2.19)."""
    whole = _ILLEGAL.sub("\N{REPLACEMENT CHARACTER}", text)[:_MOST]
    return escape(_ESCAPE.sub("_x005F_", whole))


def _serial(at: datetime) -> str:
    """Return days since the sheet's epoch, to the second."""
    gap = at - _EPOCH
    return number_text(Fraction(gap.days)) if not gap.seconds else f"{gap.days + gap.seconds / 86_400:.9f}"


def _letters(number: int) -> str:
    """Return a column's name: A, Z, AA."""
    found = ""
    while number:
        number, at = divmod(number - 1, 26)
        found = chr(ord("A") + at) + found
    return found
