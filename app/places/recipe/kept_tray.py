"""The tray in a small file of the user's own, so that a half-worked recipe is there after the power went.

The file is JSON: the recipe's text with its pieces, and the cook's lines. What is read of the text is read again.
"""

from __future__ import annotations

import json
import os
import secrets
from contextlib import suppress
from dataclasses import asdict, replace
from pathlib import Path
from typing import Any

from app.places.recipe.tray import Tray
from app.places.recipe.worked import MOST_ROWS, Row, Thing, Worked
from core.intake.pages.pieces import Piece, PieceKind, RecipeText
from core.measures.refusal import Refusal
from core.measures.unit_names import SYSTEMS

_NAME = "recipes-being-read.json"
_VERSION = 1
_MOST_BYTES = 20_000_000


def tray_path(folder: Path | None = None) -> Path:
    """Return where the tray is kept: in the user's folder for states, or in one that is told."""
    if folder is None:
        from platformdirs import user_state_path

        folder = user_state_path("cookday", appauthor=False)
    return folder / _NAME


def keep_tray(tray: Tray, path: Path) -> None:
    """Write the tray down, wholly or not at all; raise Refusal where it cannot be written."""
    fresh = path.with_name(f".{path.name}.{secrets.token_hex(4)}.new")
    try:
        if not tray.sheets and tray.aside is None:
            path.unlink(missing_ok=True)
            return
        path.parent.mkdir(parents=True, exist_ok=True)
        with fresh.open("w", encoding="utf-8", newline="\n") as file:
            json.dump(_out(tray), file, ensure_ascii=True)
            file.flush()
            os.fsync(file.fileno())
        fresh.replace(path)
    except OSError as error:
        with suppress(OSError):
            fresh.unlink(missing_ok=True)
        raise Refusal(
            f"The recipe being read is not kept ({error.strerror or error}); take it into the menu before you close."
        ) from None


def kept_tray(path: Path) -> tuple[Tray, str]:
    """Return the tray that is kept, and a sentence where it could not be read ("": it could, or there is none)."""
    try:
        return _in(json.loads(_read(path))), ""
    except FileNotFoundError:
        return Tray(), ""
    except (OSError, ValueError, KeyError, TypeError, AttributeError, IndexError, RecursionError, Refusal):
        aside = path.with_name(f"{path.stem}-unreadable{path.suffix}")
        with suppress(OSError):
            path.replace(aside)
        return Tray(), f"The recipe that was being read last time cannot be read any more; it lies in {aside.name}."


def _read(path: Path) -> str:
    if path.stat().st_size > _MOST_BYTES:
        raise ValueError
    return path.read_text(encoding="utf-8")


def _out(tray: Tray) -> dict[str, Any]:
    aside = None if tray.aside is None else _sheet_out(tray.aside)
    return {"version": _VERSION, "at": tray.at, "sheets": [_sheet_out(each) for each in tray.sheets], "aside": aside}


def _sheet_out(worked: Worked) -> dict[str, Any]:
    recipe = worked.recipe
    return {
        "text": recipe.text,
        "pieces": [[each.kind.value, each.start, each.end, each.section] for each in recipe.pieces],
        "remarks": list(recipe.remarks),
        "system": worked.system,
        "name": worked.name,
        "servings": worked.servings,
        "rows": [asdict(each) for each in worked.rows],
        "things": [asdict(each) for each in worked.things],
        "settled": sorted(worked.settled),
    }


def _in(said: dict[str, Any]) -> Tray:
    if said["version"] != _VERSION:
        raise ValueError
    sheets = tuple(_sheet_in(each) for each in said["sheets"])
    aside = None if said["aside"] is None else _sheet_in(said["aside"])
    return Tray(sheets, max(0, min(int(said["at"]), len(sheets) - 1)), aside)


def _sheet_in(said: dict[str, Any]) -> Worked:
    text = _text(said["text"])
    pieces = tuple(
        Piece(PieceKind(kind), *_place(start, end, text), _text(section))
        for kind, start, end, section in said["pieces"]
    )
    recipe = RecipeText(text, pieces, tuple(_text(each) for each in said["remarks"]))
    if said["system"] not in SYSTEMS or len(said["rows"]) > 3 * MOST_ROWS or len(said["things"]) > MOST_ROWS:
        raise ValueError
    servings = None if said["servings"] is None else int(said["servings"])
    rows = tuple(_row_in(each, text) for each in said["rows"])
    things = tuple(_thing_in(each) for each in said["things"])
    settled = frozenset(map(int, said["settled"]))
    return _whole(Worked(recipe, said["system"], _text(said["name"]), servings, rows, things, settled))


def _row_in(said: dict[str, Any], text: str) -> Row:
    start, end = _place(said["start"], said["end"], text)
    steps, after = (tuple(map(int, said[name])) for name in ("steps", "after"))
    flags = (bool(said[name]) for name in ("out", "understood", "guess"))
    return Row(int(said["key"]), _text(said["line"]), start, end, steps, after, *flags)


def _thing_in(said: dict[str, Any]) -> Thing:
    step = None if said["step"] is None else int(said["step"])
    return Thing(int(said["number"]), _text(said["line"]), step, bool(said["out"]), bool(said["understood"]))


def _whole(worked: Worked) -> Worked:
    """Return a recipe whose lines fit its text and each other; refuse any other with ValueError."""
    draft, above = worked.draft, set[int]()
    for row in worked.rows:
        if row.key in above or not set(row.after) <= above or not set(row.steps) <= set(range(len(draft.steps))):
            raise ValueError
        above.add(row.key)
    numbers = [each.number for each in worked.things]
    wanted = list(range(max(len(numbers), len(draft.ingredients))))  # the cook may have added some
    if numbers != wanted or {each.step for each in worked.things} - {None, *above}:
        raise ValueError
    return replace(worked, read=draft)


def _text(said: object) -> str:
    if not isinstance(said, str):
        raise TypeError
    return said


def _place(start: object, end: object, text: str) -> tuple[int, int]:
    if not isinstance(start, int) or not isinstance(end, int) or not 0 <= start <= end <= len(text):
        raise ValueError
    return start, end
