"""The usual runs of steps themselves. Lengths are starting points for one home-sized dish, to be typed over.

Sources: US FDA Food Code 2022, 3-403.11 (reheating), 3-501.14 (cooling), 3-501.16 (holding); USDA FSIS advice to
consumers on cooking, brining and keeping (safe minimum internal temperatures, poultry brining, cold food storage).
What is marked "common practice" or "from memory" is a cook's habit and no rule.
"""

from __future__ import annotations

from core.plan.blocks import Block, BlockKind, BlockStep, BlockWait
from core.plan.kitchen import StationKind
from core.plan.step import Attention, Doneness, Heat, Holding, Span, Touch, Use, Wait

_HOUR, _DAY = 60, 24 * 60
_PRACTICE = "common practice"
_MEMORY = "from memory"

_TRAY = Use(StationKind.FRIDGE, area=600, height=12)
"""A dish of 30 x 20 cm, 12 cm high: room for one home-sized thing in a box or pan (common practice)."""
_COLD = Wait(Holding.FRIDGE, _TRAY)
_LAST_WORD = "The food-safety code of your country comes first."

_CORE = (
    "Before it rests the thickest part has reached 63 °C (145 °F) for whole cuts of beef, pork, veal and lamb, with "
    "3 min of rest or more, and 74 °C (165 °F) for poultry (USDA FSIS); never count on the rest to reach it. "
    + _LAST_WORD
)
_BRINE = (
    "Only in the fridge at 5 °C (41 °F) or below, never on the counter; wholly under the brine, on the lowest shelf, "
    "in a box that does not leak, for 2 days at most (USDA FSIS). " + _LAST_WORD
)
_BRINE_AWAY = (
    "Throw the brine away, it has held raw meat. Pat dry, do not rinse; wash hands, sink and boards (USDA FSIS)."
)
_BLANCHED = (
    "What waits goes covered into the fridge at 5 °C (41 °F) or below, from 57 to 21 °C within 2 h and to 5 °C within "
    "6 h in all (Food Code 2022, 3-501.14 and 3-501.16). Boiling water and steam scald. " + _LAST_WORD
)
_COOLING = (
    "From 57 to 21 °C (135 to 70 °F) within 2 h, then to 5 °C (41 °F) within 6 h in all (Food Code 2022, 3-501.14): "
    "shallow pans, small portions, ice and stirring (3-501.15). Write the temperatures down. " + _LAST_WORD
)
_REHEAT = (
    "To 74 °C (165 °F) in every part for 15 s, within 2 h, if it is then held hot at 57 °C or more (Food Code 2022, "
    "3-403.11 and 3-501.16); in a microwave, covered, and left standing for 2 min. Reheat once only (common practice). "
    + _LAST_WORD
)

_REST_AND_CARVE = Block(
    BlockKind.REST_AND_CARVE,
    (
        BlockStep(
            "Rest, loosely covered, in a warm place",
            Span(20, 30, 45),
            f"a roast of 1 to 3 kg rests 20 to 45 min: {_PRACTICE}",
            Attention.HANDS_OFF,
            follows=BlockWait(0, 5, source=f"it is taken out when it is done: {_PRACTICE}"),
            caution=_CORE,
        ),
        BlockStep(
            "Carve",
            Span(5, 10, 15),
            f"a roast for 6 to 12: {_PRACTICE}",
            follows=BlockWait(0, 15, source=f"covered it stays hot for an hour in all: {_PRACTICE}"),
        ),
    ),
)

_BRINE_OVERNIGHT = Block(
    BlockKind.BRINE_OVERNIGHT,
    (
        BlockStep(
            "Stir the brine and put it in cold",
            Span(10, 15, 20),
            f"3/4 cup of table salt to a US gallon, about 55 g a litre: USDA FSIS; minutes {_PRACTICE}",
        ),
        BlockStep(
            "Brine in the fridge, wholly covered",
            Span(8 * _HOUR, 12 * _HOUR, _DAY),
            f"a chicken 8 to 24 h: {_PRACTICE}; at most 2 days: USDA FSIS",
            Attention.HANDS_OFF,
            (Use(StationKind.FRIDGE, area=600, height=12, raw=True),),
            follows=BlockWait(0, 15, source=f"raw meat goes back into the cold at once: {_PRACTICE}"),
            caution=_BRINE,
        ),
        BlockStep(
            "Take out of the brine, pat dry",
            Span(3, 5, 10),
            _PRACTICE,
            follows=BlockWait(
                0,
                12 * _HOUR,
                Wait(Holding.FRIDGE, Use(StationKind.FRIDGE, area=600, height=12, raw=True)),
                f"with the slow length 36 h, below the 2 days of USDA FSIS: {_PRACTICE}",
            ),
            caution=_BRINE_AWAY,
        ),
    ),
)

_PROOF_AND_BAKE = Block(
    BlockKind.PROOF_AND_BAKE,
    (
        BlockStep(
            "Let the shaped dough rise, covered",
            Span(30, 45, 60),
            f"30 to 60 min shaped at 24 to 27 °C: {_MEMORY}",
            Attention.HANDS_OFF,
            doneness=Doneness("a dent springs back slowly"),
        ),
        BlockStep(
            "Bake",
            Span(30, 35, 45),
            f"a loaf of 500 to 800 g at 200 to 220 °C: {_PRACTICE}",
            Attention.HANDS_OFF,
            (Use(StationKind.OVEN, heat=Heat(210, 200, 220)),),
            doneness=Doneness("well browned, sounds hollow when knocked"),
            follows=BlockWait(0, 20, source=f"a risen dough is ready for 20 to 40 min: {_MEMORY}"),
            caution="Raw flour and dough are not for tasting; bake through before anybody eats it (common practice).",
        ),
        BlockStep(
            "Cool on a rack",
            Span(20, 30, 60),
            f"until the crumb has set: {_PRACTICE}",
            Attention.HANDS_OFF,
            follows=BlockWait(0, 5, source=f"out of the tin before the crust sweats: {_PRACTICE}"),
        ),
    ),
)

_BLANCH_AND_FINISH = Block(
    BlockKind.BLANCH_AND_FINISH,
    (
        BlockStep(
            "Bring salted water to the boil",
            Span(10, 15, 20),
            f"4 litres with a lid on a strong burner: {_PRACTICE}",
            Attention.HANDS_OFF,
            (Use(StationKind.BURNER),),
        ),
        BlockStep(
            "Blanch",
            Span(2, 3, 5),
            f"green beans and the like: {_PRACTICE}",
            uses=(Use(StationKind.BURNER),),
            doneness=Doneness("bright, with a bite"),
            follows=BlockWait(0, 10, source=f"the lid keeps it on the boil: {_PRACTICE}"),
        ),
        BlockStep(
            "Chill in ice water, drain",
            Span(3, 5, 8),
            f"as long as it was blanched, and drained: {_PRACTICE}",
            follows=BlockWait(0, 0, source=f"at once, or it cooks on: {_PRACTICE}"),
            doneness=Doneness("cold in the middle"),
            caution=_BLANCHED,
        ),
        BlockStep(
            "Finish in hot fat",
            Span(3, 4, 5),
            f"3 to 5 min to finish: {_PRACTICE}",
            uses=(Use(StationKind.BURNER),),
            follows=BlockWait(
                0, _DAY, Wait(Holding.FRIDGE, Use(StationKind.FRIDGE, area=600, height=8)),
                f"24 h, drained, covered and cold: {_MEMORY}",
            ),
        ),
    ),
)  # fmt: skip

_MAKE_AHEAD_AND_REHEAT = Block(
    BlockKind.MAKE_AHEAD_AND_REHEAT,
    (
        BlockStep(
            "Cool to 21 °C in shallow pans on ice",
            Span(60, 90, 2 * _HOUR),
            f"2 h at most: Food Code 2022, 3-501.14(A)(1); the likely length {_PRACTICE}",
            Attention.TENDED,
            touches=(Touch(20, 2, "stir and probe"), Touch(45, 2, "stir and probe")),
            doneness=Doneness("21 °C or below in the middle"),
            follows=BlockWait(0, 15, source=f"into shallow pans while it is hot: {_PRACTICE}"),
            caution=_COOLING,
        ),
        BlockStep(
            "Chill to 5 °C in the fridge",
            Span(2 * _HOUR, 3 * _HOUR, 4 * _HOUR),
            "6 h at most with the 2 h before: Food Code 2022, 3-501.14(A)(2)",
            Attention.HANDS_OFF,
            (_TRAY,),
            doneness=Doneness("5 °C or below in the middle"),
            follows=BlockWait(0, 0, source="the limit counts on: Food Code 2022, 3-501.14(A)"),
        ),
        BlockStep(
            "Reheat to 74 °C all through",
            Span(10, 20, 40),
            f"2 h at most: Food Code 2022, 3-403.11(D); the lengths {_PRACTICE}",
            Attention.TENDED,
            (Use(StationKind.BURNER),),
            (Touch(3, 1, "stir"), Touch(3, 2, "stir and probe", from_end=True)),
            Doneness("steaming hot, 74 °C in every part", 74),
            BlockWait(0, 3 * _DAY, _COLD, "cooked food keeps 3 to 4 days in the fridge: USDA FSIS"),
            _REHEAT,
        ),
    ),
)

_ALL = (_REST_AND_CARVE, _BRINE_OVERNIGHT, _PROOF_AND_BAKE, _BLANCH_AND_FINISH, _MAKE_AHEAD_AND_REHEAT)
BLOCKS: dict[BlockKind, Block] = {block.kind: block for block in _ALL}
"""All usual runs by kind, in the order in which they are offered."""
