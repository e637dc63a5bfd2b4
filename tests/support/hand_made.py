"""The harvest supper's timetable as it was made by hand (design, G13 and G14), for the demo plan.

Each line: step, when it begins, who does its hands-on parts in order of time, where it stands. Lengths are the
likely ones. Where the hand-made plan is coarser than the steps, or differs from what a plan means, it is adapted
as little as possible:

- A transfer or a turning counts inside the step, so "gratin into the oven 17:12 to 17:13" is the first minute of
  its bake from 17:13; so with the squash (18:39 becomes 18:40) and the oil (19:02 becomes 19:03).
- Taking out after the end ("pork out 18:15 to 18:17", bread 15:32, gratin 18:28) is the first touch of the step
  that follows: rest, cooling, standing. Nobody takes the braise out at 19:10: lifting the meat at 19:12 does.
- The oven is hot when the bread goes in at 15:07 (not 15:05), so it is switched on at 14:42 (not 14:40); the days
  before it is switched on at 12:37 on Thursday and 15:30 on Friday, which the plan does not say.
- The dough's folds are counted from the end of mixing, so that mixing begins at 16:45 on Friday (not 17:00); folds
  and fridge are as planned.
- "Pork out of the fridge 15:20" names nobody: the head cook does it.
- Friday's cheeks wait 12 min between browning and sweating, while the panna cotta is poured; the braise still
  starts at 15:40.
- The fat is lifted off the stock at 07:03 on Friday, after the trout is turned; the chilling ends in the night.
- Bread is cooled at once and sliced at 19:10: two steps where the recipe has one.
- A load of fritters takes 5 min for both loads (4 and 5 by hand), so the first begins at 19:15; the honey on the
  squash at 19:15 is the novice's.
- The cheeks are turned once, at 18:48, by the able helper; the table of steps asks for it, the plan leaves it out.
- Peppers take 12 min: the recipe's 14 hold the 2 min gap, which here belongs to the link.
- The panna cotta is topped from 20:37, so that it stands on the table at 20:45; by hand it was 20:40 to 20:48.
- Vessels are washed where another needs them afterwards, in the next five minutes that somebody has; the plan by
  hand says nothing of washing up.
- Skims and stirs of the stock and stirs of the cooling cheeks are the head cook's; the plan names them only once.
"""

from __future__ import annotations

from collections.abc import Iterator

from core.measures.clock import at_clock
from core.plan import meaning
from core.plan.ids import CookId, StationId, StepId, VesselId
from core.plan.menu import LinkKind
from core.plan.plan import Plan
from core.timetable.timetable import Hand, Heating, Placed, Spot, Stay, Timetable, Washing

_DAYS = {"Mon": 5, "Tue": 4, "Wed": 3, "Thu": 2, "Fri": 1, "Sat": 0}
_COOKS = {"A": CookId("head"), "B": CookId("helper"), "C": CookId("novice")}

_LINES = """
butter.warm          Mon 18:00  A        b3
butter.culture       Mon 18:08  -        -
butter.chill         Tue 14:08  A        fridge/1
trout.thaw           Tue 18:30  A        fridge/0
butter.churn         Wed 18:00  A        -
trout.pack           Wed 18:30  A        -
trout.cure           Wed 18:55  AAA      fridge/2
stock.roast          Thu 13:00  AA       oven=220
stock.load           Thu 13:50  A        -
stock.heat           Thu 14:00  A        b1
stock.simmer         Thu 14:35  AAAAAA   b4
stock.strain         Thu 19:35  A        -
stock.cool           Thu 19:50  AA       -
stock.chill          Thu 20:30  -        fridge/2
stock.lift           Fri 07:03  A        -
pork.salt            Fri 14:00  A        -
pork.dry             Fri 14:12  -        fridge/0
panna-cotta.bloom    Fri 14:12  -        -
panna-cotta.warm     Fri 14:22  A        b3
cheeks.salt          Fri 14:32  A        -
panna-cotta.cool     Fri 14:32  -        -
cheeks.brown         Fri 14:40  A        b1
cheeks.brown/2       Fri 14:50  A        b1
panna-cotta.pour     Fri 15:02  A        -
cheeks.sweat         Fri 15:12  A        b1
panna-cotta.set      Fri 15:12  -        fridge/1
cheeks.liquids       Fri 15:24  A        b1
cheeks.braise        Fri 15:40  A        oven=150
panna-cotta.compote  Fri 15:45  A        b3
leeks.sauce          Fri 16:00  A        b3
flatbread.mix        Fri 16:45  A        -
flatbread.fold       Fri 17:00  AAA      -
flatbread.cold-proof Fri 18:47  -        fridge/1
trout.rinse          Fri 19:00  A        -
trout.dry            Fri 19:10  -        fridge/2
cheeks.reduce        Fri 19:12  A        b2
cheeks.cool          Fri 19:32  AAA      -
cheeks.chill         Fri 20:32  -        fridge/2
fritters.mayonnaise  Sat 10:00  A        -
flatbread.stretch    Sat 12:25  A        -
flatbread.proof      Sat 12:37  -        -
flatbread.dimple     Sat 15:02  A        -
beans.trim           Sat 15:05  B        -
flatbread.bake       Sat 15:07  AA       oven=230
pork.temper          Sat 15:20  AA       -
beans.boil           Sat 15:30  B        b1
flatbread.cool       Sat 15:32  A        -
fritters.blanch      Sat 15:47  B        b1
beans.blanch         Sat 15:54  B        b1
beans.blanch/2       Sat 16:01  B        b1
beans.ice            Sat 16:08  B        -
gratin.slice         Sat 16:15  B        -
pork.blast           Sat 16:20  A        oven=230
gratin.simmer        Sat 16:43  B        b2
pork.roast           Sat 16:45  ABB      oven=160
leeks.light          Sat 16:50  A        grill
gratin.assemble      Sat 16:55  B        -
leeks.coals          Sat 16:55  -        grill
leeks.trim           Sat 17:00  A        -
squash.cut           Sat 17:01  B        -
gratin.bake          Sat 17:13  AB       oven=160
leeks.leeks          Sat 17:25  A        grill
trout.slice          Sat 17:30  B        -
table.lay            Sat 17:35  C        -
leeks.leeks/2        Sat 17:38  A        grill
leeks.leeks/3        Sat 17:51  A        grill
leeks.peppers        Sat 18:04  A        grill
butter.soften        Sat 18:15  C        -
pork.rest            Sat 18:15  B        -
leeks.dress          Sat 18:17  A        -
cheeks.reheat        Sat 18:18  BB       b4
gratin.stand         Sat 18:28  B        -
pork.gravy           Sat 18:31  B        b2
squash.roast         Sat 18:40  AA       oven=210
trout.platter        Sat 18:46  A        -
fritters.oil         Sat 19:03  B        b1
fritters.batter      Sat 19:07  B        -
cheeks.finish        Sat 19:08  A        b4
flatbread.slice      Sat 19:10  C        -
pork.carve           Sat 19:11  A        -
squash.honey         Sat 19:15  C        -
fritters.fry         Sat 19:15  B        b1
table.plates         Sat 19:16  C        -
beans.finish         Sat 19:22  A        b2+b3
fritters.fry/2       Sat 19:22  B        b1
table.cold           Sat 19:23  C        -
table.plate          Sat 19:27  ABC      -
panna-cotta.top      Sat 20:37  A        -
"""

_WAITS = """
butter.chill          butter.churn         fridge/1
butter.churn          butter.soften        fridge/2
butter.churn          fritters.batter      fridge/2
trout.thaw            trout.pack           fridge/0
trout.cure            trout.rinse          fridge/2
trout.dry             trout.slice          fridge/2
trout.slice           trout.platter        fridge/2
stock.chill           stock.lift           fridge/2
stock.lift            pork.gravy           fridge/2
cheeks.chill          cheeks.reheat        fridge/2
cheeks.finish         served               b4
pork.dry              pork.temper          fridge/0
pork.gravy            served               flask
leeks.sauce           served               fridge/0
flatbread.cold-proof  flatbread.stretch    fridge/1
beans.ice             beans.finish         fridge/0
fritters.mayonnaise   served               fridge/0
fritters.blanch       fritters.fry         fridge/0
panna-cotta.set       panna-cotta.top      fridge/1
panna-cotta.compote   panna-cotta.top      fridge/0
"""

_HEATINGS = (
    ("Thu 12:37", "Thu 13:00", 220),
    ("Fri 15:30", "Fri 15:40", 150),
    ("Sat 14:42", "Sat 15:07", 230),
)

_WASHINGS = """
saucepan    butter.warm           Mon 18:08  A
tin         stock.roast           Thu 14:01  A
saucepan    panna-cotta.compote   Fri 16:18  A
frying-pan  leeks.sauce           Fri 16:23  A
iron-pot    cheeks.brown          Fri 19:32  A
tin         flatbread.stretch     Sat 15:32  B
"""


def hand_made(plan: Plan) -> Timetable:
    """Return the hand-made timetable of the harvest supper; KeyError when the plan is another."""
    placed = tuple(_placed(plan, *line.split()) for line in _LINES.strip().splitlines())
    at = {each.key: each for each in placed}
    heatings = tuple(
        Heating(
            StationId("oven"),
            _offset(plan, *start.split()),
            _offset(plan, *end.split()),
            setting,
            _COOKS["A"],
        )
        for start, end, setting in _HEATINGS
    )
    washings = tuple(_washing(plan, *line.split()) for line in _WASHINGS.strip().splitlines())
    return Timetable(placed, tuple(_stays(plan, at)), heatings, washings)


def _offset(plan: Plan, day: str, clock: str) -> int:
    hour, minute = clock.split(":")
    return at_clock(plan.plating, _DAYS[day], int(hour) * 60 + int(minute))


def _washing(plan: Plan, name: str, after: str, day: str, clock: str, who: str) -> Washing:
    vessel = plan.kitchen.vessel[VesselId(name)]
    return Washing(vessel.id, _offset(plan, day, clock), vessel.washing, StepId(after), _COOKS[who])


def _placed(plan: Plan, name: str, day: str, clock: str, who: str, where: str) -> Placed:
    step_id, _, load = name.partition("/")
    step = plan.steps[StepId(step_id)]
    start = _offset(plan, day, clock)
    length = meaning.reserved(plan, step.id).length
    places, _, setting = where.partition("=")
    units = sum(use.units for use in step.uses)
    return Placed(
        step.id,
        start,
        length,
        int(load or 1) - 1,
        _spots(places, units),
        int(setting) if setting else None,
        tuple(_hands(plan, step.id, start, length, who)),
    )


def _hands(plan: Plan, step: StepId, start: int, length: int, who: str) -> Iterator[Hand]:
    letters = iter(who.replace("-", ""))
    for need in meaning.hands_of(plan, plan.steps[step], length):
        for _person in range(need.people):
            yield Hand(start + need.start, need.minutes, _COOKS[next(letters)])
    if next(letters, None) is not None:
        raise ValueError(f"{step}: more people are named than it takes")


def _spots(places: str, units: int) -> tuple[Spot, ...]:
    if places == "-":
        return ()
    names = places.split("+")
    found = []
    for name in names:
        station, _, shelf = name.partition("/")
        found.append(Spot(StationId(station), units // len(names), int(shelf) if shelf else None))
    return tuple(found)


def _stays(plan: Plan, at: dict[tuple[StepId, int], Placed]) -> Iterator[Stay]:
    last = dict(sorted(at))
    for line in _WAITS.strip().splitlines():
        before, after, where = line.split()
        start = at[StepId(before), 0].end
        if after == "served":
            end = plan.dish_of[StepId(before)].course
            yield Stay(StepId(before), None, start, end, spots=_spots(where, 1))
        else:
            end = at[StepId(after), last[StepId(after)]].start
            yield Stay(StepId(before), StepId(after), start, end, 0, LinkKind.END_TO_START, _spots(where, 1))
