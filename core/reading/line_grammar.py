"""The help page of the cook's line, as data: what can be said, how it is written, and an example of each."""

from __future__ import annotations

from dataclasses import dataclass

from core.reading.line_value import Says


@dataclass(frozen=True, slots=True)
class Row:
    """One row of the page. The phrase of `example` that `written` speaks of is understood as `kind`."""

    what: str
    written: str
    example: str
    kind: Says


OPENING = (
    "A step is one line: first what is done, then the rest in any order, with spaces or commas between. "
    "What is not understood stays in the words of the step. Words in quotes are never read as anything else. "
    "A dish is its name and one line for each step; a step follows the line above it."
)

GRAMMAR: tuple[Row, ...] = (
    Row("Length", "45-50 min, 1h20, 4 min each side", "bake 45-50 min", Says.LENGTH),
    Row("Quick, likely, slow", "20/25/35 (minutes), 4h/5h/6h", "simmer 20/25/35", Says.LENGTH),
    Row(
        "About, overnight",
        "about reaches a tenth to either side; overnight is 8 to 14 h",
        "soak overnight",
        Says.LENGTH,
    ),
    Row("Temperature", "190C, 375F, gas 5, fan 170", "roast 40 min 375F", Says.HEAT),
    Row(
        "What it bears",
        "170-190C, 190C ±10; alone it bears 15 °C to either side",
        "bake 30 min 170-190C",
        Says.HEAT,
    ),
    Row(
        "Heat still changing",
        "not steady, after the temperature",
        "roast 90 min 160C not steady",
        Says.STEADY,
    ),
    Row(
        "Place", "oven, grill, burner, fridge ... or in the oven", "warm 20 min in the oven 100C", Says.PLACE
    ),
    Row("Racks, rings, places", "1 rack, 2 rings, grill 8 places", "fry 12 min, 2 rings", Says.UNITS),
    Row("One station", "on B2, in the lower oven, at and its short name", "simmer 2 h on B2", Says.PLACE),
    Row("Shelf wanted", "after the place: 40x30 cm, or 1200 cm2", "chill 4 h, fridge 40x30 cm", Says.AREA),
    Row(
        "Height wanted", "after the place: 12 cm high", "chill 4 h, fridge 40x30 cm, 12 cm high", Says.HEIGHT
    ),
    Row("Raw food", "raw, after the place", "thaw 24 h, fridge 40x15 cm, raw", Says.RAW),
    Row("No place", "no place, where the verb names one", "roast the spices 2 min, no place", Says.NO_PLACE),
    Row("Vessel", "in the casserole, 2 tins, using the whisk", "stew 2 h in the casserole", Says.VESSEL),
    Row(
        "Attention",
        "hands-on, tended, hands-off; left out: as the verb says",
        "simmer 15 min hands-on",
        Says.ATTENTION,
    ),
    Row("Cooks", "2 cooks", "carry the pots 5 min, 2 cooks", Says.HANDS),
    Row(
        "Skill",
        "its word after a comma, by able, skill pastry",
        "fillet the fish 15 min, skill able",
        Says.SKILL,
    ),
    Row("Touch", "turn at 25, stir at 10 and 20, cover at the end", "bake 50 min, turn at 25", Says.TOUCH),
    Row(
        "Touch again and again",
        "baste every 20, stir now and then",
        "roast 90 min, baste every 20",
        Says.TOUCH,
    ),
    Row(
        "Touch before the end",
        "probe 10 min before the end",
        "roast 90 min, probe 10 min before the end",
        Says.TOUCH,
    ),
    Row(
        "How long a touch takes",
        "for 3 min; by able asks a skill",
        "bake 50 min, swap tins at 20 for 3 min by able",
        Says.TOUCH,
    ),
    Row("Loads", "18 skewers 6 at a time, 4 batches", "grill 18 skewers 6 at a time 8 min", Says.LOADS),
    Row(
        "Between loads",
        "2 min between loads",
        "fry 24 pieces 8 at a time 4 min, 2 min between loads",
        Says.BETWEEN,
    ),
    Row("Putting in, taking out", "put in 3 min, take out 0", "bake 30 min, take out 3 min", Says.TAKE_OUT),
    Row(
        "In pieces",
        "in pieces of 5 min: other work may come between",
        "shell the peas 30 min, in pieces of 5 min",
        Says.PIECE,
    ),
    Row(
        "Not before, done by",
        "counted from plating",
        "whip the cream 8 min, not before 2 h before",
        Says.EARLIEST,
    ),
    Row(
        "Clock",
        "at 18:40, at 18:40 the day before",
        "collect the bread 20 min, at 16:00 the day before",
        Says.CLOCK,
    ),
    Row("Done when", "until and the cue, up to a comma", "bake 40 min until golden", Says.CUE),
    Row("Core temperature", "core 63C, until 63C inside", "roast 40 min 190C, core 63C", Says.CORE),
    Row(
        "Rest of the core",
        "rested 10 min, after the core temperature",
        "roast 40 min 190C, core 60C rested 10 min",
        Says.RESTED,
    ),
    Row(
        "Wait for the next step",
        "then up to 2 h, rest 10-30 on counter, then at once",
        "roast 1 h, rest 10-30 on counter",
        Says.WAIT,
    ),
    Row(
        "Where it waits",
        "in the fridge, in its vessel, held hot at and a station",
        "brine 1 h, then up to 2 days in the fridge",
        Says.WAIT,
    ),
    Row(
        "Serving", "serve within 15, keeps up to 3 h in the fridge", "toast 5 min, serve within 15", Says.KEEP
    ),
    Row(
        "Follows another step",
        "after slice, also after slice, with the roast, after nothing",
        "dress 5 min, after nothing",
        Says.FOLLOWS,
    ),
    Row(
        "Short name",
        "a word and a colon at the beginning: others can name the step by it",
        "slice: peel and slice 20 min",
        Says.LABEL,
    ),
)
