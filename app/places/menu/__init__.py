"""The Menu place: the plan's facts, dishes, their steps, what follows what, ingredients."""

from app.places.menu.menu_place import MenuPlace

__all__ = ["MenuPlace"]
