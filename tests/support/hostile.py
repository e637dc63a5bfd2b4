"""Plans whose every word is one that a careless writer would take for mark-up, a formula or a command."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from core.measures.quantity import Quantity
from core.plan.kitchen import Cook
from core.plan.menu import Ingredient
from core.plan.plan import Plan
from core.plan.step import Attention, Doneness
from tests.support.builders import a_bench, a_cook, a_kitchen, a_step, at_oven, chained

HOSTILE = {
    "quotes": "Ann's \"best\" `stew`, it; said: \\n",
    "markup": '</script></style><script>window.hurt=1</script><img src=x onerror="window.hurt=2"><!--',
    "template": "<!--:data--> {{7*7}} ${7*7} <%= 7*7 %> #[text] {% if 1 %} %s \\1 \\g<1>",
    "formula": "=HYPERLINK(\"http://example.invalid/\"&A1,\"stew\")",
    "plus": "+1+cmd|' /C calc'!A0",
    "minus": "-2+3",
    "at": "@SUM(1+1)*cmd|' /C calc'!A0",
    "full width": "＝1+1",
    "space before": "  =1+1",
    "long": "Supercalifragilistic" * 15,
    "emoji": "Stew \N{POT OF FOOD}\N{CHICKEN}\N{ZERO WIDTH JOINER}\N{FIRE} \N{REGIONAL INDICATOR SYMBOL LETTER F}",
    "arabic": "مرق الدجاج مع الكمون",
    "newline": "Stew\r\nBEGIN:VALARM\nX-HURT:1\x0bend",
    "escapes": "_x0041_ _x000D_ &amp; &#65; ]]>",
    "turning": "safe\u202eetirw\u2066 \x00\x07\ufffe end",
}


def hostile_plan(words: str) -> Plan:
    """Return a feast in which names, acts, notes and signs all say `words`."""
    steps = (
        a_step(
            "stew.cut", words, 20, note=words, skill=words, doneness=Doneness(words, 75, 10),
        ),
        a_step("stew.bake", words, 60, attention=Attention.HANDS_OFF, uses=(at_oven(180),), note=words),
        a_step("stew.carve", words, 10),
    )  # fmt: skip
    cook: Cook = a_cook("ann", words, name=words)
    plan = a_bench(*steps, links=chained(*steps), name=words, kitchen=a_kitchen(cooks=(cook,)))
    dish = plan.menu.dishes[0]
    line = Ingredient(words, Quantity(Fraction(3, 2), "kg"), words, aisle=words, allergens=(words,))
    dish = replace(dish, name=words, code=words, plating=words, note=words, ingredients=(line,))
    return replace(plan, menu=replace(plan.menu, dishes=(dish,)))
