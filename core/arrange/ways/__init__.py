"""Ways out of a plan that cannot be met: changes that were solved before they are offered."""

from core.arrange.ways.way import Change, Effect, Unit, WayKind, WayOut

__all__ = ["Change", "Effect", "Unit", "WayKind", "WayOut", "ways_out"]


def __getattr__(name: str) -> object:
    """Bring in the solver only when somebody asks for it (importing OR-Tools takes half a second)."""
    if name == "ways_out":
        from core.arrange.ways.seeking import ways_out

        return ways_out
    raise AttributeError(name)
