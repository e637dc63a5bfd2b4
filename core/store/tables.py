"""The tables of a plan file, mapped. What fills them is told by `core.store.shapes`; a test compares the two.

Every constraint has a name, so that a later migration can speak of it. `position` says the order. Columns that
came with a later layout have what stood for them before as their default; every row written fills them all.
"""

from __future__ import annotations

from typing import Any, ClassVar

from sqlalchemy import CheckConstraint, ForeignKey, MetaData, Text, UniqueConstraint, text
from sqlalchemy.orm import DeclarativeBase, Mapped, mapped_column

NAMING = {
    "pk": "pk_%(table_name)s",
    "fk": "fk_%(table_name)s_%(column_0_name)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
    "ix": "ix_%(table_name)s_%(column_0_N_name)s",
}


class Table(DeclarativeBase):
    """What all tables share: named constraints, text without a length."""

    metadata = MetaData(naming_convention=NAMING)
    type_annotation_map: ClassVar[dict[Any, Any]] = {str: Text()}


class PlanRow(Table):
    """The one row of the file's plan; `revision` counts the saves."""

    __tablename__ = "plan"
    __table_args__ = (CheckConstraint("id = 1", name="one_row"),)
    id: Mapped[int] = mapped_column(primary_key=True)
    revision: Mapped[int]
    name: Mapped[str]
    plating_local: Mapped[str]
    plating_zone: Mapped[str]
    kitchen_name: Mapped[str]
    transfer: Mapped[int]
    opens: Mapped[int | None]
    manner: Mapped[str]
    wish_fresh: Mapped[int]
    wish_calm: Mapped[int]
    wish_oven: Mapped[int]
    wish_sleep: Mapped[int]
    wish_keep: Mapped[int]
    kitchen_walk: Mapped[int] = mapped_column(server_default=text("1"))
    wish_sleep_until: Mapped[int] = mapped_column(server_default=text("480"))
    covers: Mapped[int | None]
    kitchen_room: Mapped[int | None]
    rules: Mapped[str] = mapped_column(server_default=text("''"))
    mark: Mapped[str] = mapped_column(server_default=text("''"))


class StationRow(Table):
    """A station; its shelves are rows of their own."""

    __tablename__ = "station"
    id: Mapped[str] = mapped_column(primary_key=True)
    position: Mapped[int] = mapped_column(unique=True)
    name: Mapped[str]
    kind: Mapped[str]
    units: Mapped[int]
    heater: Mapped[str | None]
    fan: Mapped[bool]
    place: Mapped[str]
    hours: Mapped[str]
    lighting: Mapped[int]
    burns: Mapped[int | None]
    laying: Mapped[int] = mapped_column(server_default=text("5"))
    fires: Mapped[int] = mapped_column(server_default=text("1"))
    not_with: Mapped[str] = mapped_column(server_default=text("'[]'"))
    wide: Mapped[int] = mapped_column(server_default=text("0"))
    deep: Mapped[int] = mapped_column(server_default=text("0"))
    keeps_at: Mapped[int | None]


class ShelfRow(Table):
    """A shelf of a station; position 0 is the lowest."""

    __tablename__ = "shelf"
    station: Mapped[str] = mapped_column(ForeignKey("station.id", ondelete="CASCADE"), primary_key=True)
    position: Mapped[int] = mapped_column(primary_key=True)
    area: Mapped[int]
    height: Mapped[int]
    name: Mapped[str]


class VesselRow(Table):
    """A kind of vessel."""

    __tablename__ = "vessel"
    id: Mapped[str] = mapped_column(primary_key=True)
    position: Mapped[int] = mapped_column(unique=True)
    name: Mapped[str]
    count: Mapped[int]
    size: Mapped[str]
    washing: Mapped[int]
    by_hand: Mapped[bool] = mapped_column(server_default=text("1"))
    fits: Mapped[str] = mapped_column(server_default=text("'[]'"))


class CookRow(Table):
    """A cook."""

    __tablename__ = "cook"
    id: Mapped[str] = mapped_column(primary_key=True)
    position: Mapped[int] = mapped_column(unique=True)
    name: Mapped[str]
    skills: Mapped[str]
    present: Mapped[str]
    breaks: Mapped[str]
    night: Mapped[str | None]


class DishRow(Table):
    """A dish; its steps and ingredients are rows of their own."""

    __tablename__ = "dish"
    id: Mapped[str] = mapped_column(primary_key=True)
    position: Mapped[int] = mapped_column(unique=True)
    name: Mapped[str]
    code: Mapped[str]
    written_for: Mapped[int]
    wanted: Mapped[int]
    course: Mapped[int]
    served: Mapped[bool]
    keep: Mapped[str]
    allergens: Mapped[str]
    plating: Mapped[str]
    note: Mapped[str]
    scale: Mapped[str | None]
    pan: Mapped[str] = mapped_column(server_default=text("''"))
    pan_wanted: Mapped[str] = mapped_column(server_default=text("''"))


class StepRow(Table):
    """A step of a dish."""

    __tablename__ = "step"
    __table_args__ = (UniqueConstraint("dish", "position"),)
    id: Mapped[str] = mapped_column(primary_key=True)
    dish: Mapped[str] = mapped_column(ForeignKey("dish.id", ondelete="CASCADE"))
    position: Mapped[int]
    does: Mapped[str]
    length_low: Mapped[int]
    length_likely: Mapped[int]
    length_high: Mapped[int]
    attention: Mapped[str]
    hands: Mapped[int]
    skill: Mapped[str]
    touches: Mapped[str]
    put_in: Mapped[int | None]
    take_out: Mapped[int | None]
    uses: Mapped[str]
    vessels: Mapped[str]
    loads: Mapped[str | None]
    least_piece: Mapped[int | None]
    doneness: Mapped[str | None]
    earliest: Mapped[int | None]
    latest: Mapped[int | None]
    clock: Mapped[str | None]
    keeps: Mapped[str | None]
    alternatives: Mapped[str]
    note: Mapped[str]
    yields: Mapped[str | None]
    food: Mapped[str | None]


class IngredientRow(Table):
    """A line of a dish's ingredients; it has no name of its own but its place in the dish."""

    __tablename__ = "ingredient"
    dish: Mapped[str] = mapped_column(ForeignKey("dish.id", ondelete="CASCADE"), primary_key=True)
    position: Mapped[int] = mapped_column(primary_key=True)
    item: Mapped[str]
    quantity: Mapped[str | None]
    preparation: Mapped[str]
    step: Mapped[str | None] = mapped_column(ForeignKey("step.id", ondelete="SET NULL"), index=True)
    aisle: Mapped[str]
    on_hand: Mapped[bool]
    allergens: Mapped[str]
    per_kg_of: Mapped[str]
    pieces: Mapped[int] = mapped_column(server_default=text("0"))
    food: Mapped[str | None]
    arrives: Mapped[str | None]
    thick: Mapped[int] = mapped_column(server_default=text("0"))


class LinkRow(Table):
    """A link between two steps."""

    __tablename__ = "link"
    before: Mapped[str] = mapped_column(ForeignKey("step.id", ondelete="CASCADE"), primary_key=True)
    after: Mapped[str] = mapped_column(
        ForeignKey("step.id", ondelete="CASCADE"), primary_key=True, index=True
    )
    kind: Mapped[str] = mapped_column(primary_key=True)
    position: Mapped[int] = mapped_column(unique=True)
    least: Mapped[int]
    most: Mapped[int | None]
    wait: Mapped[str]
    brings: Mapped[str | None]


class StockRow(Table):
    """What the house knows of an item."""

    __tablename__ = "stock"
    item: Mapped[str] = mapped_column(primary_key=True)
    position: Mapped[int] = mapped_column(unique=True)
    in_store: Mapped[str | None]
    pack: Mapped[str | None]
    sold_as: Mapped[str]
    usable: Mapped[str]
    aisle: Mapped[str]
    keeps: Mapped[int | None]


class GuestRow(Table):
    """A guest, or several alike."""

    __tablename__ = "guest"
    name: Mapped[str] = mapped_column(primary_key=True)
    position: Mapped[int] = mapped_column(unique=True)
    count: Mapped[int]
    allergies: Mapped[str]
    aversions: Mapped[str]
    at_risk: Mapped[str]


class PinRow(Table):
    """Where the cook put a load of a step; a station or cook that goes leaves that part open."""

    __tablename__ = "pin"
    step: Mapped[str] = mapped_column(ForeignKey("step.id", ondelete="CASCADE"), primary_key=True)
    load: Mapped[int] = mapped_column(primary_key=True)
    position: Mapped[int] = mapped_column(unique=True)
    start: Mapped[int | None]
    station: Mapped[str | None] = mapped_column(ForeignKey("station.id", ondelete="SET NULL"))
    cook: Mapped[str | None] = mapped_column(ForeignKey("cook.id", ondelete="SET NULL"))


class ChoiceRow(Table):
    """The alternative chosen for a step."""

    __tablename__ = "choice"
    step: Mapped[str] = mapped_column(ForeignKey("step.id", ondelete="CASCADE"), primary_key=True)
    position: Mapped[int] = mapped_column(unique=True)
    way: Mapped[int]


class LengthChoiceRow(Table):
    """The manner of length chosen for a step."""

    __tablename__ = "length_choice"
    step: Mapped[str] = mapped_column(ForeignKey("step.id", ondelete="CASCADE"), primary_key=True)
    position: Mapped[int] = mapped_column(unique=True)
    manner: Mapped[str]


class PrecedenceRow(Table):
    """An order between two steps that the cook decided."""

    __tablename__ = "precedence"
    first: Mapped[str] = mapped_column(ForeignKey("step.id", ondelete="CASCADE"), primary_key=True)
    then: Mapped[str] = mapped_column(ForeignKey("step.id", ondelete="CASCADE"), primary_key=True, index=True)
    position: Mapped[int] = mapped_column(unique=True)


class SeenRow(Table):
    """The timetable last seen, as text: kept beside the plan and no part of it, so that opening shows it again."""

    __tablename__ = "seen"
    id: Mapped[int] = mapped_column(primary_key=True)
    timetable: Mapped[str]
    __table_args__ = (CheckConstraint("id = 1", name="one_row"),)


class KeptRow(Table):
    """A timetable kept by name, as text, with when (UTC, ISO 8601) and of what state of the plan; one is current."""

    __tablename__ = "kept"
    name: Mapped[str] = mapped_column(primary_key=True)
    position: Mapped[int]
    timetable: Mapped[str]
    at: Mapped[str]
    mark: Mapped[str]
    current: Mapped[bool]


TABLES = Table.metadata.tables
