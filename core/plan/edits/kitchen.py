"""Edits of the kitchen: its name, ways, stations, vessels and cooks."""

from __future__ import annotations

from dataclasses import dataclass, replace

from core.measures.minutes import show_minutes
from core.measures.refusal import Refusal
from core.plan.check_words import station_name
from core.plan.edits.edit import Edit
from core.plan.edits.parts import cook_in, station_in, swapped, vessel_in, with_kitchen
from core.plan.edits.said import Said
from core.plan.edits.strays import without_strays
from core.plan.ids import CookId, StationId, VesselId
from core.plan.kitchen import Cook, Kitchen, Station, Vessel
from core.plan.plan import Plan


@dataclass(frozen=True, slots=True)
class RenameKitchen(Edit):
    """Give the kitchen another name."""

    name: str

    def said(self, words: Said) -> str:
        """Return what is done."""
        return f"Rename the kitchen to {words.name(self.name)}"

    def change(self, plan: Plan) -> Plan:
        """Return the plan with the name."""
        return with_kitchen(plan, name=self.name)


@dataclass(frozen=True, slots=True)
class ChangeKitchen(Edit):
    """Cook in another kitchen altogether."""

    kitchen: Kitchen

    def said(self, words: Said) -> str:
        """Return what is done."""
        return f"Cook in {words.name(self.kitchen.name)}"

    def change(self, plan: Plan) -> Plan:
        """Return the plan with the kitchen, without pins to what it has not."""
        return without_strays(replace(plan, kitchen=self.kitchen))


@dataclass(frozen=True, slots=True)
class SetWalk(Edit):
    """Choose how many minutes lie between stations in different places."""

    minutes: int

    def said(self, words: Said) -> str:  # noqa: ARG002  it is about no one thing
        """Return what is done."""
        return f"Take {show_minutes(self.minutes)} to walk from one place to another"

    def change(self, plan: Plan) -> Plan:
        """Return the plan with the minutes."""
        return with_kitchen(plan, walk=self.minutes)


@dataclass(frozen=True, slots=True)
class AddStation(Edit):
    """Add a station to the kitchen, last."""

    station: Station

    def said(self, words: Said) -> str:
        """Return what is done."""
        return f"Add {words.name(self.station.name)}"

    def change(self, plan: Plan) -> Plan:
        """Return the plan with the station."""
        return with_kitchen(plan, stations=(*plan.kitchen.stations, self.station))


@dataclass(frozen=True, slots=True)
class ChangeStation(Edit):
    """Put another station in a station's place; the id stays."""

    station: StationId
    replacement: Station

    def said(self, words: Said) -> str:
        """Return what is done."""
        return f"Change {words.station(self.station)}"

    def change(self, plan: Plan) -> Plan:
        """Return the plan with the replacement, without pins that it cannot hold."""
        station_in(plan, self.station)
        new = replace(self.replacement, id=self.station)
        stations = swapped(plan.kitchen.stations, lambda each: each.id == self.station, lambda _each: new)
        return without_strays(with_kitchen(plan, stations=stations))


@dataclass(frozen=True, slots=True)
class AllowFires(Edit):
    """Let a fire be lit so many times."""

    station: StationId
    fires: int

    def said(self, words: Said) -> str:
        """Return what is done."""
        often = {1: "once", 2: "twice"}.get(self.fires, f"{self.fires} times")
        return f"Let {words.station(self.station)} be lit {often}"

    def change(self, plan: Plan) -> Plan:
        """Return the plan with so many fires; refuse a station that is no fire."""
        station = station_in(plan, self.station)
        if not station.is_fire:
            raise Refusal(
                f"{station_name(station)} is not lit, nor does it burn out; give it minutes for one of the two"
                " under Kitchen first."
            )
        return ChangeStation(self.station, replace(station, fires=self.fires)).change(plan)


@dataclass(frozen=True, slots=True)
class RemoveStation(Edit):
    """Take a station out of the kitchen, lift pins to it, and let no other one be kept apart from it."""

    station: StationId

    def said(self, words: Said) -> str:
        """Return what is done."""
        return f"Remove {words.station(self.station)}"

    def change(self, plan: Plan) -> Plan:
        """Return the plan without the station."""
        station_in(plan, self.station)
        stations = tuple(self._apart(each) for each in plan.kitchen.stations if each.id != self.station)
        return without_strays(with_kitchen(plan, stations=stations))

    def _apart(self, other: Station) -> Station:
        if self.station not in other.not_with:
            return other
        return replace(other, not_with=tuple(each for each in other.not_with if each != self.station))


@dataclass(frozen=True, slots=True)
class AddVessel(Edit):
    """Add a kind of vessel to the kitchen, last."""

    vessel: Vessel

    def said(self, words: Said) -> str:
        """Return what is done."""
        return f"Add {words.name(self.vessel.name)}"

    def change(self, plan: Plan) -> Plan:
        """Return the plan with the vessel."""
        return with_kitchen(plan, vessels=(*plan.kitchen.vessels, self.vessel))


@dataclass(frozen=True, slots=True)
class ChangeVessel(Edit):
    """Put another kind of vessel in a vessel's place; the id stays."""

    vessel: VesselId
    replacement: Vessel

    def said(self, words: Said) -> str:
        """Return what is done."""
        return f"Change {words.vessel(self.vessel)}"

    def change(self, plan: Plan) -> Plan:
        """Return the plan with the replacement."""
        vessel_in(plan, self.vessel)
        new = replace(self.replacement, id=self.vessel)
        vessels = swapped(plan.kitchen.vessels, lambda each: each.id == self.vessel, lambda _each: new)
        return with_kitchen(plan, vessels=vessels)


@dataclass(frozen=True, slots=True)
class RemoveVessel(Edit):
    """Take a kind of vessel out of the kitchen."""

    vessel: VesselId

    def said(self, words: Said) -> str:
        """Return what is done."""
        return f"Remove {words.vessel(self.vessel)}"

    def change(self, plan: Plan) -> Plan:
        """Return the plan without the vessel."""
        vessel_in(plan, self.vessel)
        return with_kitchen(
            plan, vessels=tuple(each for each in plan.kitchen.vessels if each.id != self.vessel)
        )


@dataclass(frozen=True, slots=True)
class AddCook(Edit):
    """Add a cook to the kitchen, last."""

    cook: Cook

    def said(self, words: Said) -> str:
        """Return what is done."""
        return f"Add {words.name(self.cook.name)}"

    def change(self, plan: Plan) -> Plan:
        """Return the plan with the cook."""
        return with_kitchen(plan, cooks=(*plan.kitchen.cooks, self.cook))


@dataclass(frozen=True, slots=True)
class ChangeCook(Edit):
    """Put another cook in a cook's place; the id stays."""

    cook: CookId
    replacement: Cook

    def said(self, words: Said) -> str:
        """Return what is done."""
        return f"Change {words.cook(self.cook)}"

    def change(self, plan: Plan) -> Plan:
        """Return the plan with the replacement."""
        cook_in(plan, self.cook)
        new = replace(self.replacement, id=self.cook)
        cooks = swapped(plan.kitchen.cooks, lambda each: each.id == self.cook, lambda _each: new)
        return with_kitchen(plan, cooks=cooks)


@dataclass(frozen=True, slots=True)
class RemoveCook(Edit):
    """Take a cook out of the kitchen, and lift pins to them."""

    cook: CookId

    def said(self, words: Said) -> str:
        """Return what is done."""
        return f"Remove {words.cook(self.cook)}"

    def change(self, plan: Plan) -> Plan:
        """Return the plan without the cook."""
        cook_in(plan, self.cook)
        cooks = tuple(each for each in plan.kitchen.cooks if each.id != self.cook)
        return without_strays(with_kitchen(plan, cooks=cooks))
