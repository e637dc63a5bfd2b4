"""Between the cook's window and the core: plan changes as one signal, arranging beside the interface."""

from app.bridge.arranger import Arranger
from app.bridge.open_plan import OpenPlan
from app.bridge.places import PlanPlace

__all__ = ["Arranger", "OpenPlan", "PlanPlace"]
