"""The open plan: edit, undo, redo, listen, ask for an arrangement, keep days by name."""

from core.desk.change import Change
from core.desk.desk import Desk, Keeper
from core.desk.fits import Fits, as_kept, fits
from core.desk.keeping import DropDay, KeepAgain, KeepDay, KeptEdit, RenameDay, SwitchTo
from core.desk.kept import KeptDay, KeptDays
from core.desk.request import Aim, Request

__all__ = [
    "Aim",
    "Change",
    "Desk",
    "DropDay",
    "Fits",
    "KeepAgain",
    "KeepDay",
    "Keeper",
    "KeptDay",
    "KeptDays",
    "KeptEdit",
    "RenameDay",
    "Request",
    "SwitchTo",
    "as_kept",
    "fits",
]
