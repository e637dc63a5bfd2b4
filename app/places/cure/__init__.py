"""The curing and brining desk: sums for cures, brines and ferments, with limits, sources and cautions."""

from app.places.cure.desk_beside import DeskBeside
from app.places.cure.dress import cure_sheet

__all__ = ["DeskBeside", "cure_sheet"]
