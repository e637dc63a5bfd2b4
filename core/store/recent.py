"""The plan files opened last, newest first, in a small file of the user's own. Losing it loses no plan."""

from __future__ import annotations

import json
import secrets
from contextlib import suppress
from pathlib import Path

MOST = 10
"""How many files are remembered."""

_NAME = "recent.json"


def recent_plans(folder: Path | None = None) -> tuple[Path, ...]:
    """Return the remembered files, newest first, there or not; none if the list is broken."""
    try:
        said = json.loads(_list_in(folder).read_text(encoding="utf-8"))
    except (OSError, ValueError, RecursionError):
        return ()
    files = said.get("files") if isinstance(said, dict) else None
    if not isinstance(files, list):
        return ()
    paths = [Path(each) for each in files if isinstance(each, str) and each and "\0" not in each]
    return tuple(dict.fromkeys(paths))[:MOST]


def remember(path: Path, folder: Path | None = None) -> tuple[Path, ...]:
    """Put a file first in the list and return the list; a list that cannot be written stays as it was."""
    path = Path(path).absolute()
    return _keep([path, *(each for each in recent_plans(folder) if each != path)][:MOST], folder)


def forget(path: Path | None = None, folder: Path | None = None) -> tuple[Path, ...]:
    """Take one file out of the list, or all (None), and return the list."""
    left = [] if path is None else [each for each in recent_plans(folder) if each != Path(path).absolute()]
    return _keep(left, folder)


def _keep(paths: list[Path], folder: Path | None) -> tuple[Path, ...]:
    target = _list_in(folder)
    draft = target.with_name(f".{_NAME}.{secrets.token_hex(4)}.new")
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        draft.write_text(
            json.dumps({"files": [str(each) for each in paths]}, indent=1) + "\n", encoding="utf-8"
        )
        draft.replace(target)
    except OSError:
        with suppress(OSError):
            draft.unlink(missing_ok=True)
        return recent_plans(folder)
    return tuple(paths)


def _list_in(folder: Path | None) -> Path:
    if folder is None:
        from platformdirs import user_state_path

        folder = user_state_path("cookday", appauthor=False)
    return Path(folder) / _NAME
