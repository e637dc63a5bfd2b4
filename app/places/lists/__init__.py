"""What the Sheets place shows: the run sheet, the order list, the pull list."""

from app.places.lists.order_leaf import OrderLeaf
from app.places.lists.pull_leaf import PullLeaf
from app.places.lists.run_leaf import RunLeaf

__all__ = ["OrderLeaf", "PullLeaf", "RunLeaf"]
