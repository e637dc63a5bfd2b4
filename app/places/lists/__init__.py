"""The order list and the pull list, to fill in and tick off."""

from app.places.lists.order_leaf import OrderLeaf
from app.places.lists.pull_leaf import PullLeaf

__all__ = ["OrderLeaf", "PullLeaf"]
