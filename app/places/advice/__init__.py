"""How the day stands: why it cannot meet and ways out, or how good and sure it is, and what late guests do to it."""

from app.places.advice.beside import Beside
from app.places.advice.look_line import LookLine
from app.places.advice.pane import AdvicePane

__all__ = ["AdvicePane", "Beside", "LookLine"]
