"""Food limits in the window: worked out beside it, listed, marked, mended; one food's temperatures over the days."""

from app.places.food.watching import FoodWatch, watch_of

__all__ = ["FoodWatch", "watch_of"]
