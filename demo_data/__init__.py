"""Plans to try the planner on, all of invented occasions: a weeknight, a harvest supper, a hall of sixty."""

from __future__ import annotations

from importlib.resources import files as _inside
from pathlib import Path

from core.measures.refusal import Refusal

_FILES = ("weeknight_supper.toml", "harvest_supper.toml", "hall_celebration.toml")


def files() -> tuple[str, ...]:
    """Return the names of the plans, the smallest first."""
    return _FILES


def text_of(name: str) -> str:
    """Return the text of one of the plans."""
    return _inside(__name__).joinpath(name).read_text(encoding="utf-8")


def put(folder: Path) -> list[Path]:
    """Write all plans into a folder, made if need be, and return their paths.

    Raise Refusal, and write nothing, when a file of the same name with another content is there.
    """
    if folder.exists() and not folder.is_dir():
        raise Refusal(f"{folder.name} is a file, not a folder; name another place for the demo plans.")
    paths = [folder / name for name in _FILES]
    taken = [path.name for path in paths if path.exists() and _differs(path)]
    if taken:
        raise Refusal(
            f"{' and '.join(taken)} in {folder.name or folder} would be overwritten, and differs from the demo; "
            "name an empty folder, or move it away first."
        )
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for path in paths:
            path.write_text(text_of(path.name), encoding="utf-8", newline="\n")
    except OSError as error:
        why = error.strerror or error
        raise Refusal(
            f"The demo plans cannot be written to {folder.name} ({why}); name another folder."
        ) from None
    return paths


def _differs(path: Path) -> bool:
    try:
        return path.read_text(encoding="utf-8") != text_of(path.name)
    except (OSError, UnicodeDecodeError):
        return True
