"""What the cook can do to a plan: small frozen values that make a new plan out of a plan."""

from core.plan.edits.blocks import AddBlock
from core.plan.edits.decisions import (
    AddOrder,
    Choose,
    LiftAllPins,
    LiftPin,
    PinStep,
    RemoveOrder,
    SetLength,
    SetManner,
    SetWishes,
)
from core.plan.edits.dishes import AddDish, ChangeDish, CopyDish, MoveDish, RemoveDish, RenameDish
from core.plan.edits.edit import Edit
from core.plan.edits.foods import ChooseRules, SetRoom, TellCare, TellFood
from core.plan.edits.house import RemoveGuest, RemoveStock, SetCovers, SetGuest, SetStock
from core.plan.edits.kitchen import (
    AddCook,
    AddStation,
    AddVessel,
    AllowFires,
    ChangeCook,
    ChangeKitchen,
    ChangeStation,
    ChangeVessel,
    RemoveCook,
    RemoveStation,
    RemoveVessel,
    RenameKitchen,
    SetWalk,
)
from core.plan.edits.later import ServeDishLater, ServeLater
from core.plan.edits.links import AddLink, ChangeLink, RemoveLink, require_possible
from core.plan.edits.plan import RenamePlan, SetOpens, SetPlating, SetTransfer
from core.plan.edits.scaling import SetDishPans, SetDishScale
from core.plan.edits.several import PinSteps
from core.plan.edits.steps import AddStep, ChangeStep, CopyStep, MoveStepInDish, RemoveStep, new_step_id
from core.plan.edits.stretch import StretchStep
from core.plan.edits.together import Together
from core.plan.edits.use_kitchen import UseKitchen

__all__ = [
    "AddBlock",
    "AddCook",
    "AddDish",
    "AddLink",
    "AddOrder",
    "AddStation",
    "AddStep",
    "AddVessel",
    "AllowFires",
    "ChangeCook",
    "ChangeDish",
    "ChangeKitchen",
    "ChangeLink",
    "ChangeStation",
    "ChangeStep",
    "ChangeVessel",
    "Choose",
    "ChooseRules",
    "CopyDish",
    "CopyStep",
    "Edit",
    "LiftAllPins",
    "LiftPin",
    "MoveDish",
    "MoveStepInDish",
    "PinStep",
    "PinSteps",
    "RemoveCook",
    "RemoveDish",
    "RemoveGuest",
    "RemoveLink",
    "RemoveOrder",
    "RemoveStation",
    "RemoveStep",
    "RemoveStock",
    "RemoveVessel",
    "RenameDish",
    "RenameKitchen",
    "RenamePlan",
    "ServeDishLater",
    "ServeLater",
    "SetCovers",
    "SetDishPans",
    "SetDishScale",
    "SetGuest",
    "SetLength",
    "SetManner",
    "SetOpens",
    "SetPlating",
    "SetRoom",
    "SetStock",
    "SetTransfer",
    "SetWalk",
    "SetWishes",
    "StretchStep",
    "TellCare",
    "TellFood",
    "Together",
    "UseKitchen",
    "new_step_id",
    "require_possible",
]
