"""The Kitchen place: stations, vessels and cooks."""

from app.places.kitchen.kitchen_place import KitchenPlace

__all__ = ["KitchenPlace"]
