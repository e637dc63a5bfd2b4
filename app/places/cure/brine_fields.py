"""The fields of a brine or dry brine, and what the desk says of them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from app.fields import Picked, Spec, Ticked
from app.places.cure.outcome import Noting, Outcome, tr
from app.places.cure.typed_cure import share_of, understood_share, understood_weight, weight_of
from core.food.brine import Brine, dry_brine, equilibrium_brine, gradient_brine, said_brine
from core.food.curing_shares import SALT
from core.measures.number import show_decimal

BEGIN: dict[str, Any] = {"sort": "equilibrium", "whole": True}
NEEDED = ("meat", "water", "share", "salt")
_KEYS = {
    "equilibrium": ("water", "share"),
    "gradient": ("water", "salt"),
    "dry": ("share", "whole"),
}


def brine_specs() -> list[Spec]:
    """Return all fields of a brine."""
    sorts = [
        ("equilibrium", tr("Wet, until meat and water are alike (equilibrium)")),
        ("gradient", tr("Wet and strong, taken out in time (gradient)")),
        ("dry", tr("Dry: salt rubbed on")),
    ]
    share = tr("Of meat and water together; of the meat alone where it is dry")
    return [
        Spec("sort", tr("How it is brined"), Picked(lambda: sorts), grows=2),
        _weight("meat", tr("Meat, weight"), "", "2 kg"),
        _weight("water", tr("Water, weight"), tr("Weighed: a litre is 1 kg"), "2 kg"),
        Spec("share", tr("Salt wanted"), share_of(SALT), share, "1.5%", hint=understood_share),
        _weight("salt", tr("Salt, weight"), "", "120 g"),
        Spec("whole", tr("a whole bird or roast"), Ticked(), tr("Not ticked: steaks and pieces")),
    ]


def brine_keys(chosen: Mapping[str, Any]) -> set[str]:
    """Return the keys of the fields that a sort of brine asks for."""
    return {"sort", "meat", *_KEYS[chosen["sort"]]}


def brine_outcome(values: Mapping[str, Any]) -> Outcome:
    """Return what the desk says of a brine. Raise Refusal where the values do not go together."""
    brine = _brine(values)
    said = said_brine(brine)
    lines = said[: len(said) - len(brine.cautions)]
    water = () if values.get("water") is None else (tr("In {water} of water.").format(water=values["water"]),)
    noting = Noting(
        tr("Brine, from the curing desk"),
        (tr("For {meat} of meat.").format(meat=values["meat"]), *water, *lines, *brine.cautions),
        tr("for the brine, weighed"),
        ((tr("Salt"), brine.salt),),
    )
    return Outcome(_headline(brine, values["sort"]), lines=lines, cautions=brine.cautions, noting=noting)


def _headline(brine: Brine, sort: str) -> str:
    amount = f"{show_decimal(brine.salt, 1)} g"
    low, high = brine.hours
    if sort == "gradient":
        said = tr("{amount} of salt, out again after {low} to {high} h; left in, the meat ends at {ends} salt at most")
    else:
        said = tr("{amount} of salt, {low} to {high} h in the fridge; the meat ends at {ends} salt")
    return said.format(amount=amount, low=low, high=high, ends=f"{show_decimal(brine.ends * 100, 2)}%")


def _brine(values: Mapping[str, Any]) -> Brine:
    if values["sort"] == "dry":
        return dry_brine(values["meat"], values["share"], bool(values["whole"]))
    if values["sort"] == "gradient":
        return gradient_brine(values["meat"], values["water"], values["salt"])
    return equilibrium_brine(values["meat"], values["water"], values["share"])


def _weight(key: str, label: str, tip: str, empty: str) -> Spec:
    return Spec(key, label, weight_of(label), tip, empty, hint=understood_weight)
