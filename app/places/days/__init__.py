"""Days kept by name above the timeline, and what moved between two days."""

from app.places.days.days_bar import DaysBar
from app.places.days.fit_note import FitNote
from app.places.days.keeper import DayKeeper
from app.places.days.moves_list import MovesList
from app.places.days.what_moved import WhatMoved

__all__ = ["DayKeeper", "DaysBar", "FitNote", "MovesList", "WhatMoved"]
