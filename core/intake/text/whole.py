"""A whole plan as typed: the tables of its text, and what they come to."""

from __future__ import annotations

from typing import Annotated

from pydantic import BeforeValidator, Field

from core.intake.text.decisions import DecisionsText
from core.intake.text.dishes import DishText
from core.intake.text.entry import Entry, OneOrMore, listed
from core.intake.text.follows import LinkText
from core.intake.text.guests import GuestText
from core.intake.text.kitchen import CookText, StationText, VesselText
from core.intake.text.places import Celsius
from core.intake.text.scalars import MarkText, Minutes, MomentText, Offset
from core.intake.text.stocks import StockText
from core.plan.kitchen import Kitchen


class PlanText(Entry):
    """A plan: its name and plating, the kitchen, the dishes, and what was decided."""

    name: str
    """What the plan is called."""
    mark: MarkText = ""
    """What calendars and phones know the plan by, a UUID; leave it out in a plan that begins."""
    plating: MomentText
    """When the main plates are served, with the time zone."""
    kitchen: str = Kitchen().name
    """What the kitchen is called."""
    walk: Minutes = Kitchen().walk
    """Minutes from one place of the kitchen (room, terrace) to another."""
    room: Celsius | None = None
    """How warm the kitchen is: "31 C"; left out: not told."""
    transfer: Minutes = 1
    """Minutes of a cook for putting in and for taking out, where nothing else is said."""
    opens: Offset | None = None
    """Nothing starts before this; left out: worked out."""
    covers: int | None = None
    """How many sit down; left out: not told."""
    guest: Annotated[list[GuestText], BeforeValidator(listed), OneOrMore()] = Field(
        default=[], description="guests with what they cannot or will not eat"
    )
    stock: Annotated[list[StockText], BeforeValidator(listed), OneOrMore()] = Field(
        default=[], description="what is in the house, and how the shop sells things"
    )
    station: dict[str, StationText] = Field(default={}, description="stations by id")
    vessel: dict[str, VesselText] = Field(default={}, description="vessels by id")
    cook: dict[str, CookText] = Field(default={}, description="cooks by id")
    dish: dict[str, DishText] = Field(default={}, description="dishes by id, in order")
    link: Annotated[list[LinkText], BeforeValidator(listed), OneOrMore()] = Field(
        default=[], description="links that no step could say in its own place, after all others"
    )
    decisions: DecisionsText = Field(default_factory=DecisionsText)
    """What was decided."""
