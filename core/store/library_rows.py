"""Dishes and kitchens of the library as rows of its tables and back. Pure: no database here."""

from __future__ import annotations

import unicodedata
from collections.abc import Mapping
from datetime import UTC, datetime
from typing import Any

from core.plan.edits.library import OwnCopy
from core.plan.kitchen import Kitchen
from core.store.library_values import OwnDish, OwnKitchen
from core.store.plain import Unreadable, decode, encode

Row = dict[str, str | int]


def called(name: str) -> str:
    """Return a name as it is compared: spaces and the case of letters do not count."""
    return " ".join(unicodedata.normalize("NFKC", name).casefold().split())


def dish_row(own: OwnDish) -> Row:
    """Return the row of a dish; raise Unreadable where it would not come back as it is."""
    return {
        "key": own.key,
        "called": called(own.name),
        "copy": _written(OwnCopy, own.copy),
        "origin": own.origin,
        "kept": own.kept.isoformat(),
        "changed": own.changed.isoformat(),
        "revision": own.revision,
    }


def dish_of(row: Mapping[Any, Any]) -> OwnDish:
    """Return the dish of a row; raise Unreadable."""
    copy = decode(OwnCopy, row["copy"])
    key, origin, revision = _text(row["key"]), _text(row["origin"]), _number(row["revision"])
    return OwnDish(key, copy, origin, _when(row["kept"]), _when(row["changed"]), revision)


def kitchen_row(own: OwnKitchen) -> Row:
    """Return the row of a kitchen; raise Unreadable where it would not come back as it is."""
    return {
        "called": called(own.name),
        "kitchen": _written(Kitchen, own.kitchen),
        "kept": own.kept.isoformat(),
        "changed": own.changed.isoformat(),
        "revision": own.revision,
    }


def kitchen_of(row: Mapping[Any, Any]) -> OwnKitchen | None:
    """Return the kitchen of a row; None where it cannot be read."""
    try:
        kitchen = decode(Kitchen, row["kitchen"])
        return OwnKitchen(kitchen, _when(row["kept"]), _when(row["changed"]), _number(row["revision"]))
    except Unreadable:
        return None


def _written(kind: type, value: object) -> str:
    text = encode(value)
    if decode(kind, text) != value:
        raise Unreadable(f"a {kind.__name__} that would not come back as it is")
    return text


def _when(cell: object) -> datetime:
    try:
        moment = datetime.fromisoformat(_text(cell))
    except ValueError as error:
        raise Unreadable(f"{cell!r} is no moment") from error
    return moment.astimezone(UTC) if moment.tzinfo is not None else moment.replace(tzinfo=UTC)


def _text(cell: object) -> str:
    if not isinstance(cell, str):
        raise Unreadable(f"{cell!r} is not text")
    return cell


def _number(cell: object) -> int:
    if type(cell) is not int:
        raise Unreadable(f"{cell!r} is not a number")
    return cell
