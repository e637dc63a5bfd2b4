"""Dated copies of a plan file, kept in a folder of their own: something to go back to."""

from __future__ import annotations

import hashlib
import os
import re
from datetime import datetime
from pathlib import Path

from core.store.connect import reading
from core.store.mark import SUFFIX
from core.store.peek import require_plan_file
from core.store.placing import written_beside
from core.store.sentences import told


def keep_copies(path: Path, folder: Path, most: int = 10, now: datetime | None = None) -> Path | None:
    """Copy a plan file into a folder under the date and time, unless nothing changed since the newest copy.

    Of this file's copies the newest `most` stay. Return the new copy, None if none was needed; refuse what is
    no plan file and what cannot be read or written.
    """
    path, folder = Path(path), Path(folder)
    require_plan_file(path)
    kept = kept_copies(path, folder)
    with told(path):
        with reading(path.resolve()) as source:
            content = source.serialize()
        if kept and kept[0].read_bytes() == content:
            return None
    moment = (now or datetime.now().astimezone()).strftime("%Y-%m-%d %H%M%S")
    target = folder / f"{_stem(path)} {moment}{SUFFIX}"
    with told(target):
        folder.mkdir(parents=True, exist_ok=True)
        with written_beside(target) as draft, draft.open("wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        for old in kept_copies(path, folder)[most:]:
            old.unlink()
    return target


def kept_copies(path: Path, folder: Path) -> tuple[Path, ...]:
    """Return the copies of a plan file that a folder keeps, newest first."""
    form = re.compile(re.escape(_stem(Path(path))) + r" \d{4}-\d\d-\d\d \d{6}" + re.escape(SUFFIX))
    folder = Path(folder)
    if not folder.is_dir():
        return ()
    return tuple(sorted((each for each in folder.iterdir() if form.fullmatch(each.name)), reverse=True))


def _stem(path: Path) -> str:
    # Two files of one name in two folders must not push each other's copies out.
    place = hashlib.sha256(os.fsencode(path.absolute().parent)).hexdigest()[:6]
    return f"{path.stem} {place}"
