"""The library of the cook's own dishes and kitchens: one SQLite file in the user's data folder, apart from all plans.

Every change is one transaction, so a power cut or another window leaves it whole. Rows are changed only as they were
last seen here: what another window did meanwhile is refused to be written over, never lost.
"""

from __future__ import annotations

import dataclasses
import secrets
from collections.abc import Callable, Collection, Iterator, Mapping
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path
from threading import RLock
from types import TracebackType
from typing import Any, Self

from sqlalchemy import Connection, delete, insert, select, update

from core.plan.edits.library import OwnCopy
from core.plan.kitchen import Kitchen
from core.store.connect import Database
from core.store.library_opening import free_beside, open_library
from core.store.library_rows import called, dish_of, dish_row, kitchen_of, kitchen_row
from core.store.library_search import Found, found_in
from core.store.library_sentences import (
    changed_meanwhile,
    elsewhere,
    name_taken,
    no_longer_kept,
    only_read,
    told,
)
from core.store.library_tables import DISHES, KITCHENS
from core.store.library_values import OwnDish, OwnKitchen
from core.store.peek import identity
from core.store.plain import Unreadable

LIBRARY_NAME = "own.cooklib"
"""What the file is called in the user's data folder."""


class Library:
    """The library, open. Any thread may use it, one at a time. `unread` counts what could not be read last time."""

    def __init__(self, path: Path, database: Database, read_only: bool, now: Callable[[], datetime]) -> None:
        """Take over an open database; use `open`."""
        self.path = path
        self.read_only = read_only
        self.unread = 0
        self._database = database
        self._identity = identity(path)
        self._now = now
        self._lock = RLock()
        self._closed = False
        self._read: dict[tuple[str, int], OwnDish] = {}

    @classmethod
    def open(cls, path: Path, now: Callable[[], datetime] = lambda: datetime.now(UTC)) -> Library:
        """Open the library at a path, making it and its folder where there is none.

        Raise `library_sentences.Damaged` for a file that does not hold together or is none (it stays as it is),
        Refusal for one of a newer program, or where nothing can be made. `now` tells the moment in UTC.
        """
        path = Path(path)
        database, read_only = open_library(path)
        return cls(path, database, read_only, now)

    @staticmethod
    def set_aside(path: Path) -> Path:
        """Give a file that is refused another name beside it, so that a new library can begin; return that name."""
        path = Path(path)
        with told(path):
            free = free_beside(path, "damaged")
            for ending in ("", "-journal", "-wal", "-shm"):
                part = path.with_name(path.name + ending)
                if part.exists():
                    part.rename(free.with_name(free.name + ending))
        return free

    @property
    def still_there(self) -> bool:
        """Tell whether the file is where it was; if not, what is kept would be seen by nobody: open it again."""
        return identity(self.path) == self._identity

    def dishes(self) -> tuple[OwnDish, ...]:
        """Return all dishes by name, other windows' too; one that cannot be read is left out and stays in the file."""
        with self._lock, told(self.path), self._database.transaction("BEGIN") as connection:
            rows = connection.execute(select(DISHES).order_by(DISHES.c.called)).mappings().all()
        found = [self._dish(row) for row in rows]
        dishes = tuple(each for each in found if each is not None)
        self.unread = len(found) - len(dishes)
        self._read = {(each.key, each.revision): each for each in dishes}
        return dishes

    def search(self, words: str) -> tuple[Found, ...]:
        """Return the dishes that have all of some words, the best first, each with why; no words: all of them."""
        return found_in(self.dishes(), words)

    def named(self, name: str) -> OwnDish | None:
        """Return the dish that is kept under a name, in whatever letters."""
        return next((each for each in self.dishes() if called(each.name) == called(name)), None)

    def keep_dish(self, copy: OwnCopy, origin: str = "", *, another: bool = False) -> OwnDish:
        """Keep a dish and return it as it is kept; refuse a name that is taken, or, `another`, give it a number."""
        moment = self._moment()
        with self._writing() as connection:
            taken = set(connection.execute(select(DISHES.c.called)).scalars())
            if called(copy.dish.name) in taken:
                if not another:
                    raise name_taken(copy.dish.name)
                copy = _numbered(copy, taken)
            own = OwnDish(secrets.token_hex(8), copy, origin, moment, moment)
            connection.execute(insert(DISHES), [dish_row(own)])
        return own

    def replace(self, held: OwnDish, copy: OwnCopy, origin: str = "") -> OwnDish:
        """Put another copy in the place of a dish kept, as it was last seen; its key and first day stay.

        Refuse where it was changed or removed meanwhile, and a name that another dish bears.
        """
        own = OwnDish(held.key, copy, origin, held.kept, self._moment(), held.revision + 1)
        with self._writing() as connection:
            _require_as_seen(connection, held)
            _require_name_free(connection, own)
            connection.execute(update(DISHES).where(DISHES.c.key == held.key).values(dish_row(own)))
        return own

    def remove(self, held: OwnDish) -> None:
        """Take a dish out, as it was last seen; refuse where it was changed or removed meanwhile."""
        with self._writing() as connection:
            _require_as_seen(connection, held)
            connection.execute(delete(DISHES).where(DISHES.c.key == held.key))

    def put_back(self, own: OwnDish) -> OwnDish:
        """Bring back a dish that was removed; under a number where its name was given to another meanwhile.

        It gets a key of its own again: a key and a revision stand for one content, in all windows.
        """
        with self._writing() as connection:
            taken = set(connection.execute(select(DISHES.c.called)).scalars())
            copy = own.copy if called(own.name) not in taken else _numbered(own.copy, taken)
            own = OwnDish(secrets.token_hex(8), copy, own.origin, own.kept, own.changed)
            connection.execute(insert(DISHES), [dish_row(own)])
        return own

    def kitchens(self) -> tuple[OwnKitchen, ...]:
        """Return all kitchens by name; one that cannot be read is left out and stays in the file."""
        with self._lock, told(self.path), self._database.transaction("BEGIN") as connection:
            rows = connection.execute(select(KITCHENS).order_by(KITCHENS.c.called)).mappings().all()
        return tuple(each for row in rows if (each := kitchen_of(row)) is not None)

    def keep_kitchen(self, kitchen: Kitchen) -> OwnKitchen:
        """Keep a kitchen under its name, in the place of one that bears it; return it as it is kept."""
        moment = self._moment()
        bears = KITCHENS.c.called == called(kitchen.name)
        with self._writing() as connection:
            row = connection.execute(select(KITCHENS).where(bears)).mappings().first()
            held = None if row is None else kitchen_of(row)
            own = OwnKitchen(kitchen, moment, moment)
            if held is not None:
                own = OwnKitchen(kitchen, held.kept, moment, held.revision + 1)
            connection.execute(delete(KITCHENS).where(bears))
            connection.execute(insert(KITCHENS), [kitchen_row(own)])
        return own

    def remove_kitchen(self, name: str) -> None:
        """Take a kitchen out; refuse a name that none bears."""
        with self._writing() as connection:
            if connection.execute(delete(KITCHENS).where(KITCHENS.c.called == called(name))).rowcount != 1:
                raise no_longer_kept(name)

    def close(self) -> None:
        """Close the file; closing twice does no harm."""
        with self._lock:
            if not self._closed:
                self._closed = True
                self._database.close()

    def __enter__(self) -> Self:
        """Return the open library."""
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        """Close the file."""
        self.close()

    def _moment(self) -> datetime:
        return self._now().astimezone(UTC).replace(microsecond=0)

    @contextmanager
    def _writing(self) -> Iterator[Connection]:
        """Hand out a transaction of its own: all of it is written, or nothing."""
        with self._lock:
            if self.read_only:
                raise only_read(self.path)
            if not self.still_there:
                raise elsewhere(self.path)
            with told(self.path), self._database.transaction() as connection:
                yield connection

    def _dish(self, row: Mapping[Any, Any]) -> OwnDish | None:
        """Return the dish of a row, as it was read before where its revision is the same."""
        try:
            return self._read.get((row["key"], row["revision"])) or dish_of(row)
        except Unreadable:
            return None


def _require_name_free(connection: Connection, own: OwnDish) -> None:
    same = (DISHES.c.called == called(own.name), DISHES.c.key != own.key)
    if connection.execute(select(DISHES.c.key).where(*same)).first() is not None:
        raise name_taken(own.name)


def _require_as_seen(connection: Connection, held: OwnDish) -> None:
    there = connection.execute(select(DISHES.c.revision).where(DISHES.c.key == held.key)).scalar()
    if there is None:
        raise no_longer_kept(held.name)
    if there != held.revision:
        raise changed_meanwhile(held.name)


def _numbered(copy: OwnCopy, taken: Collection[str]) -> OwnCopy:
    """Return a copy under its name with the first number that is free."""
    name, number = copy.dish.name, 2
    while called(name) in taken:
        name, number = f"{copy.dish.name} {number}", number + 1
    return dataclasses.replace(copy, dish=dataclasses.replace(copy.dish, name=name))
