"""Between the cook's window and the core: plan changes as one signal, arranging and advice beside the interface."""

from app.bridge.adviser import Adviser, Question
from app.bridge.arranger import Arranger
from app.bridge.dragged_odds import DraggedOdds
from app.bridge.open_plan import OpenPlan
from app.bridge.places import PlanPlace

__all__ = ["Adviser", "Arranger", "DraggedOdds", "OpenPlan", "PlanPlace", "Question"]
