"""The cook's own dishes beside the menu: searched and taken in, kept and sent back improved."""

from app.places.library.dress import library_sheet
from app.places.library.keep_note import KeepNote
from app.places.library.my_dishes import MyDishes
from app.places.library.shelf import Shelf

__all__ = ["KeepNote", "MyDishes", "Shelf", "library_sheet"]
