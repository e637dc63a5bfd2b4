"""The tables of the library. A row is a dish or a kitchen as JSON text: new fields of the values need no new layout."""

from __future__ import annotations

from typing import Any, ClassVar

from sqlalchemy import Connection, MetaData, Text
from sqlalchemy.orm import DeclarativeBase, Mapped, mapped_column

from core.store.tables import NAMING

LIBRARY_ID = 0x434B444C
"""In the header of every library (SQLite's `application_id`): the letters CKDL."""
LIBRARY_LAYOUT = 1
"""The newest layout of these tables that this program reads and writes (SQLite's `user_version`)."""


class LibraryTable(DeclarativeBase):
    """What the library's tables share; they are none of the plan file's."""

    metadata = MetaData(naming_convention=NAMING)
    type_annotation_map: ClassVar[dict[Any, Any]] = {str: Text()}


class OwnDishRow(LibraryTable):
    """A dish: what it is called in small letters, the copy as JSON, where from, when (UTC, ISO 8601)."""

    __tablename__ = "own_dish"
    key: Mapped[str] = mapped_column(primary_key=True)
    called: Mapped[str] = mapped_column(unique=True)
    copy: Mapped[str]
    origin: Mapped[str]
    kept: Mapped[str]
    changed: Mapped[str]
    revision: Mapped[int]


class OwnKitchenRow(LibraryTable):
    """A kitchen: what it is called in small letters, the kitchen as JSON, when (UTC, ISO 8601)."""

    __tablename__ = "own_kitchen"
    called: Mapped[str] = mapped_column(primary_key=True)
    kitchen: Mapped[str]
    kept: Mapped[str]
    changed: Mapped[str]
    revision: Mapped[int]


DISHES = LibraryTable.metadata.tables["own_dish"]
KITCHENS = LibraryTable.metadata.tables["own_kitchen"]


def make_tables(connection: Connection) -> None:
    """Make all tables and mark the file as a library, inside the transaction that is open."""
    LibraryTable.metadata.create_all(connection, checkfirst=False)
    connection.exec_driver_sql(f"PRAGMA application_id = {LIBRARY_ID}")
    connection.exec_driver_sql(f"PRAGMA user_version = {LIBRARY_LAYOUT}")
