"""The cook's small sums: scaling, loads, order list, boiling, thawing, cooling, hands. All are proposals."""

from core.food.altitude import boiling_point
from core.food.boiling import Boil, Ring, boil, useful_power, with_kettle
from core.food.cooling import Action, CoolingLog, Judged, Reading, State, cooling_log, judged, next_limit
from core.food.cooling_rules import FROM_HOT, FROM_ROOM, Checkpoint, CoolingRule, Limit, Scale
from core.food.hands import HandsBudget, Person, Reach, Shares, Task, hands, shared
from core.food.hands_of_plan import hands_budget
from core.food.loads import LoadWork, frying_load, in_loads
from core.food.measured import measured, show_measured
from core.food.needs import needs_of
from core.food.order_list import Need, OrderLine, Supply, order_list
from core.food.pans import Pan, parse_pan, said_pan
from core.food.pull_list import PullLine, PullList, pull_list
from core.food.roasting import Estimate
from core.food.scale_by import Scaling, by_factor, by_pan, by_servings, by_weight, scaling_of
from core.food.scale_notes import piece_notes
from core.food.scaling import Grows, Scaled, scaled, scaled_dish, usual_growth
from core.food.shopping import Purchase, Shopping, Trip, order_lines, shopping
from core.food.thawing import Thaw, ThawOffer, in_cold_water, in_fridge, thaw_offers
from core.food.tins import Tin, Tins, area_wanted, baking_time, tin, tins_for
from core.food.weighing import Weight, weighed

__all__ = [
    "FROM_HOT",
    "FROM_ROOM",
    "Action",
    "Boil",
    "Checkpoint",
    "CoolingLog",
    "CoolingRule",
    "Estimate",
    "Grows",
    "HandsBudget",
    "Judged",
    "Limit",
    "LoadWork",
    "Need",
    "OrderLine",
    "Pan",
    "Person",
    "PullLine",
    "PullList",
    "Purchase",
    "Reach",
    "Reading",
    "Ring",
    "Scale",
    "Scaled",
    "Scaling",
    "Shares",
    "Shopping",
    "State",
    "Supply",
    "Task",
    "Thaw",
    "ThawOffer",
    "Tin",
    "Tins",
    "Trip",
    "Weight",
    "area_wanted",
    "baking_time",
    "boil",
    "boiling_point",
    "by_factor",
    "by_pan",
    "by_servings",
    "by_weight",
    "cooling_log",
    "frying_load",
    "hands",
    "hands_budget",
    "in_cold_water",
    "in_fridge",
    "in_loads",
    "judged",
    "measured",
    "needs_of",
    "next_limit",
    "order_lines",
    "order_list",
    "parse_pan",
    "piece_notes",
    "pull_list",
    "said_pan",
    "scaled",
    "scaled_dish",
    "scaling_of",
    "shared",
    "shopping",
    "show_measured",
    "thaw_offers",
    "tin",
    "tins_for",
    "useful_power",
    "usual_growth",
    "weighed",
    "with_kettle",
]
