"""What giving up a wish weighs: what the cook can change at the table is light."""

from __future__ import annotations

from core.arrange.demand import DemandKind

EACH = 10
"""What each wish weighs that is given up, whatever its kind."""
WEIGHT = {
    DemandKind.PIN: 0,
    DemandKind.ORDER: 0,
    DemandKind.MOST_WAIT: 2,
    DemandKind.KEEPS: 2,
    DemandKind.EARLIEST: 3,
    DemandKind.LATEST: 4,
    DemandKind.SERVED: 4,
    DemandKind.OPENS: 6,
    DemandKind.CLOCK: 8,
    DemandKind.ABSENT: 10,
    DemandKind.CLOSED: 15,
    DemandKind.VESSEL: 15,
    DemandKind.HANDS: 20,
    DemandKind.STATION: 20,
    DemandKind.NOT_WITH: 20,
    DemandKind.HEAT: 20,
    DemandKind.FIRE: 20,
}
"""What a wish weighs beside the ten of being one more."""
