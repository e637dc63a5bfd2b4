"""The open plan: edit, undo, redo, listen, ask for an arrangement."""

from core.desk.change import Change
from core.desk.desk import Desk, Keeper
from core.desk.request import Aim, Request

__all__ = ["Aim", "Change", "Desk", "Keeper", "Request"]
