"""The scheduler: places every step of a plan so that all meets at plating."""

from core.arrange.effort import Effort
from core.arrange.outcome import Fit, Outcome, WishKind, WishReached

__all__ = ["Effort", "Fit", "Outcome", "WishKind", "WishReached", "arrange", "reflow"]


def __getattr__(name: str) -> object:
    """Bring in the solver only when somebody asks for it (importing OR-Tools takes half a second)."""
    if name == "arrange":
        from core.arrange.arranging import arrange

        return arrange
    if name == "reflow":
        from core.arrange.reflowing import reflow

        return reflow
    raise AttributeError(name)
