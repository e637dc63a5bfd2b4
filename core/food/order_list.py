"""The order list: amounts gathered over dishes, what trimming takes, what is in store, packs to buy.

As purchased is the edible amount over the yield; to buy is that less what is in store; packs are whole.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from core.food.sound import in_unit, same_kind, some, sound
from core.measures.quantity import TO_TASTE, Quantity
from core.measures.refusal import Refusal
from core.measures.words import plural_of
from core.plan.check_words import short

_SINGULARS = {plural_of(each): each for each in ("leaf", "loaf", "half", "calf", "knife", "shelf", "tomato", "potato")}


@dataclass(frozen=True, slots=True)
class Need:
    """What a dish wants: the item, how much of it ready to use (to taste: no amount), by when.

    `by`: minutes from plating, None: not known. `at_home`: it need not be bought. `made`: how much of it
    comes from another dish.
    """

    item: str
    quantity: Quantity
    dish: str
    by: int | None = None
    aisle: str = ""
    at_home: bool = False
    made: Quantity | None = None


@dataclass(frozen=True, slots=True)
class Supply:
    """What is known of an item: how much is in store, the pack it is sold in, its yield after trimming.

    `sold_as`: what its pack is called, such as net or pot.
    """

    in_store: Quantity | None = None
    pack: Quantity | None = None
    usable: Fraction = Fraction(1)
    sold_as: str = "pack"


@dataclass(frozen=True, slots=True)
class OrderLine:
    """One item to order. All amounts are in one unit; of what is added to taste there is none.

    `ready`: what the dishes want; `purchased`: that over the yield; `at_home`: what is in store, and what of
    the wanted is made or ticked as on hand; `buy`: the rest; `packs` None: sold loose. `in_store`: what of it is
    known to be in store (None: not told).
    """

    item: str
    needs: tuple[Need, ...]
    ready: Quantity
    purchased: Quantity
    at_home: Quantity
    buy: Quantity
    pack: Quantity | None = None
    packs: int | None = None
    sold_as: str = "pack"
    in_store: Quantity | None = None

    @property
    def by(self) -> int | None:
        """Return when it is first wanted, in minutes from plating."""
        return min((each.by for each in self.needs if each.by is not None), default=None)

    @property
    def dishes(self) -> tuple[str, ...]:
        """Return for which dishes, each once, in the menu's order."""
        return tuple(dict.fromkeys(each.dish for each in self.needs))

    @property
    def aisle(self) -> str:
        """Return where the shop has it, as the first line that says so."""
        return next((each.aisle for each in self.needs if each.aisle), "")

    @property
    def bought(self) -> Quantity:
        """Return what is carried home: whole packs, or the amount itself where it is sold loose."""
        if self.pack is None or self.packs is None:
            return self.buy
        return self.pack.times(self.packs)


def key_of(item: str) -> str:
    """Return by what name an item is known: capitals, spaces and a plural at its end do not matter."""
    *before, last = item.casefold().split() or [""]
    return " ".join([*before, _singular(last)])


def _singular(word: str) -> str:
    """Return a word without its plural ending: a key, not a word to show."""
    if word in _SINGULARS:
        return _SINGULARS[word]
    if word.endswith("ies") and len(word) > 4:
        return word[:-3] + "y"
    if word.endswith(("ches", "shes", "sses", "xes", "oes")):
        return word[:-2]
    if word.endswith("s") and len(word) > 3 and not word.endswith(("ss", "us", "is")):
        return word[:-1]
    return word


def order_list(needs: Iterable[Need], supplies: Mapping[str, Supply] | None = None) -> tuple[OrderLine, ...]:
    """Return one line for each item, in order of first appearance; `supplies` by the item's name.

    An item wanted by weight and by volume has two lines, and what is in store counts for the one it compares
    with. Raise Refusal for amounts below 0, unknown units, a yield outside 0 to 1, and a store or pack that
    compares with no line of its item.
    """
    known = {key_of(item): supply for item, supply in (supplies or {}).items()}
    found = []
    for item, group in _by_item(needs).items():
        supply = known.get(item, Supply())
        kinds = _by_kind(group)
        _refuse_strange(kinds, supply, group[0].item)
        found += [_line(kind, supply) for kind in kinds]
    return tuple(found)


def total(needs: Iterable[Need], unit: str) -> Quantity:
    """Return what needs come to in a unit, exact; refuse what does not compare with it."""
    return Quantity(sum((in_unit(each.quantity, unit, each.item) for each in needs), Fraction(0)), unit)


def _by_item(needs: Iterable[Need]) -> dict[str, list[Need]]:
    groups: dict[str, list[Need]] = {}
    for need in needs:
        sound(need.quantity, need.item)
        groups.setdefault(key_of(need.item), []).append(need)
    return groups


def _by_kind(needs: list[Need]) -> list[list[Need]]:
    """Part needs that cannot be added; what is to taste goes with the first amount."""
    kinds: list[list[Need]] = []
    tasted = [each for each in needs if each.quantity.to_taste]
    for need in needs:
        if need.quantity.to_taste:
            continue
        mine = next((kind for kind in kinds if same_kind(kind[0].quantity, need.quantity)), None)
        if mine is None:
            kinds.append([need])
        else:
            mine.append(need)
    if not kinds:
        return [tasted]
    kinds[0] = [each for each in needs if each in kinds[0] or each.quantity.to_taste]
    return kinds


def _refuse_strange(kinds: list[list[Need]], supply: Supply, item: str) -> None:
    name = short(item)
    if not 0 < supply.usable <= 1:
        raise Refusal(f"The yield of {name} is {float(supply.usable):g}; write above 0 and up to 1, as 0.9.")
    if supply.in_store is not None:
        sound(supply.in_store, f"{name} in store")
    if supply.pack is not None:
        some(supply.pack, f"A pack of {name}")
    for what, amount in (("What is in store", supply.in_store), ("The pack", supply.pack)):
        wanted = [each.quantity for kind in kinds for each in kind if not each.quantity.to_taste]
        if amount is None or amount.to_taste or not wanted:
            continue
        if not any(same_kind(amount, each) for each in wanted):
            raise Refusal(
                f"{what} of {name} is {amount}, but the dishes want {wanted[0]}; write both in one kind of unit."
            )


def _line(needs: list[Need], supply: Supply) -> OrderLine:
    amounts = [each for each in needs if not each.quantity.to_taste]
    if not amounts:
        return OrderLine(needs[0].item, tuple(needs), TO_TASTE, TO_TASTE, TO_TASTE, TO_TASTE)
    unit = amounts[0].quantity.unit
    item = amounts[0].item
    pack = _alike(supply.pack, amounts[0].quantity)
    ready = total(amounts, unit)
    purchased = ready.times(1 / supply.usable)
    at_home = sum((_had(each, unit, supply) for each in amounts), Fraction(0))
    store = _alike(supply.in_store, amounts[0].quantity)
    if store is not None:
        at_home += in_unit(store, unit, item)
    buy = max(Fraction(0), purchased.amount - at_home)
    return OrderLine(
        needs[0].item,
        tuple(needs),
        ready,
        purchased,
        Quantity(at_home, unit),
        Quantity(buy, unit),
        pack,
        None if pack is None else ceil(buy / in_unit(pack, unit, item)),
        supply.sold_as,
        store,
    )


def _had(need: Need, unit: str, supply: Supply) -> Fraction:
    """Return how much of a need, as purchased, must not be bought: all that is ticked, else what is made."""
    wanted = in_unit(need.quantity, unit, need.item)
    if need.at_home:
        return wanted / supply.usable
    if need.made is None or need.made.to_taste or not same_kind(need.made, need.quantity):
        return Fraction(0)
    return min(wanted, in_unit(sound(need.made, need.item), unit, need.item)) / supply.usable


def _alike(amount: Quantity | None, wanted: Quantity) -> Quantity | None:
    return amount if amount is not None and not amount.to_taste and same_kind(amount, wanted) else None
