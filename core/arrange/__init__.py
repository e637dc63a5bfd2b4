"""The scheduler: places every step of a plan so that all meets at plating, and gives reasons for what it does."""

from importlib import import_module

from core.arrange.effort import Effort
from core.arrange.outcome import Fit, Outcome, WishKind, WishReached

_LATER = {
    "arrange": "core.arrange.arranging",
    "reflow": "core.arrange.reflowing",
    "why_not": "core.arrange.why.answer",
    "ways_out": "core.arrange.ways",
    "how_late": "core.arrange.late_guests",
    "guests_late": "core.arrange.late_guests",
}
"""What is brought in only when somebody asks for it: importing OR-Tools takes half a second."""

__all__ = [
    "Effort",
    "Fit",
    "Outcome",
    "WishKind",
    "WishReached",
    "arrange",
    "guests_late",
    "how_late",
    "reflow",
    "ways_out",
    "why_not",
]


def __getattr__(name: str) -> object:
    """Bring in what needs the solver or numpy."""
    if name in _LATER:
        return getattr(import_module(_LATER[name]), name)
    raise AttributeError(name)
