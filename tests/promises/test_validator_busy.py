"""The validator against counting minute by minute where there are walks, fires, pieces, ways and full ovens."""

from dataclasses import replace

from hypothesis import assume, given
from hypothesis import strategies as st

from core.plan import meaning
from core.plan.day import Day, Fact, State
from core.plan.ids import CookId
from core.plan.plan import Plan
from core.timetable.clash import Clash, ClashKind
from core.timetable.clashes import clashes
from core.timetable.timetable import Hand, Heating, Placed, Timetable
from tests.core.timetable.busy_feasts import busy_feasts
from tests.core.timetable.laid import placed, stays_of

FIRST, LAST = -30, 10
MINUTES = range(FIRST - 40, LAST + 60)


@st.composite
def evenings(draw: st.DrawFn) -> tuple[Plan, Timetable]:
    """Draw a busy feast with everything placed somewhere; lengths, places, hands' minutes and lighting are right."""
    plan = draw(busy_feasts())
    cooks = st.sampled_from([each.id for each in plan.kitchen.cooks])
    loads = []
    for step in plan.steps.values():
        way = draw(st.integers(0, len(step.alternatives)))
        load = placed(plan, step.id, draw(st.integers(FIRST, LAST)), way=way)
        if draw(st.booleans()):
            load = longer(plan, load)
        hands = tuple(replace(hand, cook=draw(cooks)) for hand in load.hands)
        least = step.least_piece
        if least is not None and load.length >= 2 * least and draw(st.booleans()):
            first, pause = draw(st.integers(least, load.length - least)), draw(st.integers(0, 5))
            rest = Hand(load.start + first + pause, load.length - first, draw(cooks))
            load = replace(load, length=load.length + pause)
            hands = (Hand(load.start, first, draw(cooks)), rest)
        loads.append(replace(load, hands=hands))
    fire = plan.kitchen.stations[1]
    heatings = []
    for _each in range(draw(st.integers(0, 2)) if fire.is_fire else 0):
        ready = draw(st.integers(FIRST, LAST))
        heatings.append(Heating(fire.id, ready - fire.lighting, ready, 0, draw(cooks)))
    return plan, Timetable(tuple(loads), tuple(stays_of(plan, loads, {})), tuple(heatings))


def longer(plan: Plan, load: Placed) -> Placed:
    """Return a load as long as in a full oven."""
    oven = plan.kitchen.stations[0]
    if all(spot.station != oven.id for spot in load.spots):
        return load
    length = meaning.length_when_full(load.length, oven.heater)
    hands = meaning.hands_of(plan, plan.steps[load.step], length, load.way)
    return replace(
        load, length=length, hands=tuple(Hand(load.start + each.start, each.minutes) for each in hands)
    )


def standing(timetable: Timetable) -> list[tuple[int, int, str, int, str]]:
    """Return (start, end, station, units, step) of all that stands somewhere."""
    return [
        (
            each.start,
            each.end,
            spot.station,
            spot.units,
            each.step if isinstance(each, Placed) else each.before,
        )
        for each in (*timetable.placed, *timetable.stays)
        for spot in each.spots
    ]


def minutes_of(found: tuple[Clash, ...], kind: ClashKind, *steps: str) -> set[int]:
    """Return the minutes that clashes of a kind cover, with these steps in them."""
    return {
        minute
        for clash in found
        if clash.kind is kind and set(steps) <= set(clash.steps)
        for minute in range(clash.start, clash.end)
    }


@given(evenings())
def test_fires_burn_at_every_minute_of_every_use(drawn):
    plan, timetable = drawn
    fire = plan.kitchen.stations[1]
    found = clashes(plan, timetable)
    burns = 10**6 if fire.burns is None else fire.burns
    burning = {
        minute
        for heating in timetable.heatings
        for minute in MINUTES
        if heating.end <= minute < heating.end + burns
    }
    used = {
        minute
        for start, end, station, _units, _step in standing(timetable)
        if station == fire.id and fire.is_fire
        for minute in range(start, end)
    }
    assert minutes_of(found, ClashKind.NO_FIRE) == used - burning
    many = [clash.by for clash in found if clash.kind is ClashKind.TOO_MANY_FIRES]
    over = len(timetable.heatings) - fire.fires
    assert many == ([over] if over > 0 else [])


@given(evenings())
def test_the_length_fits_whether_the_oven_is_full(drawn):
    plan, timetable = drawn
    oven = plan.kitchen.stations[0]
    found = clashes(plan, timetable)
    full = {}
    for minute in MINUTES:
        there = [
            (units, plan.dish_of[step].id)
            for start, end, station, units, step in standing(timetable)
            if station == oven.id and start <= minute < end
        ]
        full[minute] = (
            sum(units for units, _dish in there) >= oven.units and len({dish for _, dish in there}) > 1
        )
    for load in timetable.placed:
        wanted = meaning.reserved(plan, load.step, load.way).length
        inside = any(spot.station == oven.id for spot in load.spots)
        if inside and any(full[minute] for minute in range(load.start, load.end)):
            wanted = meaning.length_when_full(wanted, oven.heater)
        cut = len(load.hands) > 1 and meaning.most_pieces(plan.steps[load.step], wanted) > 1
        given = sum(hand.minutes for hand in load.hands) if cut else load.length
        told = [clash.by for clash in found if clash.kind is ClashKind.LENGTH and clash.steps[0] == load.step]
        assert told == ([abs(given - wanted)] if given != wanted else [])


def hands_of(plan: Plan, timetable: Timetable, cook: CookId) -> list[tuple[int, int, str | None]]:
    """Return a cook's hands: start, end, place."""
    places = {station.id: station.place for station in plan.kitchen.stations}
    found = []
    for load in timetable.placed:
        place = places[load.spots[0].station] if load.spots else None
        found += [(hand.start, hand.start + hand.minutes, place) for hand in load.hands if hand.cook == cook]
    for heating in timetable.heatings:
        fire = plan.kitchen.station[heating.station]
        laying = min(fire.laying, fire.lighting)
        if heating.cook == cook and laying:
            found.append((heating.start, heating.start + laying, fire.place))
    return [each for each in found if each[0] < each[1]]


@given(evenings())
def test_hands_and_walks_at_every_minute(drawn):
    plan, timetable = drawn
    found = clashes(plan, timetable)
    assume(all(clash.kind is not ClashKind.LENGTH for clash in found))  # else hands are told as needing nobody
    for cook in plan.kitchen.cooks:
        hands = hands_of(plan, timetable, cook.id)
        doubled = {minute for minute in MINUTES if sum(a <= minute < b for a, b, _place in hands) > 1}
        mine = tuple(clash for clash in found if cook.id in clash.cooks)
        assert minutes_of(mine, ClashKind.HANDS_SHORT) == doubled
        short = [
            plan.kitchen.walk - (other[0] - one[1])
            for one in hands
            for other in hands
            if None not in (one[2], other[2]) and one[2] != other[2]
            if one[1] <= other[0] < one[1] + plan.kitchen.walk
        ]
        assert sorted(clash.by for clash in mine if clash.kind is ClashKind.NO_WALK) == sorted(short)


@given(evenings())
def test_stations_that_exclude_each_other_at_every_minute(drawn):
    plan, timetable = drawn
    oven, fire = plan.kitchen.stations[:2]
    both = set()
    if oven.id in fire.not_with:
        for minute in MINUTES:
            busy = {station for a, b, station, _units, _step in standing(timetable) if a <= minute < b}
            busy |= {each.station for each in timetable.heatings if each.start <= minute < each.end}
            if {oven.id, fire.id} <= busy:
                both.add(minute)
    assert minutes_of(clashes(plan, timetable), ClashKind.NOT_BOTH) == both


@given(evenings(), st.integers(FIRST, LAST))
def test_once_all_has_begun_as_planned_only_what_goes_on_clashes(drawn, now):
    """Every load that begins before now is a fact: told are the minutes from now on, as without a day."""
    plan, timetable = drawn
    facts = tuple(
        Fact(load.step, State.UNDER_WAY if load.end > now else State.DONE, load.start, load.end)
        for load in timetable.placed
        if load.start < now
    )
    kept = replace(
        timetable, heatings=tuple(each for each in timetable.heatings if not each.start < now < each.end)
    )
    plain, told = clashes(plan, kept), clashes(plan, kept, day=Day(now, facts))
    for kind in (ClashKind.OVER_FULL, ClashKind.NO_FIRE, ClashKind.HANDS_SHORT, ClashKind.NOT_BOTH,
                 ClashKind.OVEN_TEMPERATURE):  # fmt: skip
        later = {minute for minute in minutes_of(plain, kind) if minute >= now}
        assert minutes_of(told, kind) == later, kind
    # of vessels that were passed on unwashed before now only the last to have them still hold them
    assert minutes_of(told, ClashKind.VESSEL_SHORT) <= minutes_of(plain, ClashKind.VESSEL_SHORT)
    assert not [clash for clash in told if clash.kind in {ClashKind.BEFORE_NOW, ClashKind.NOT_AS_IT_WAS}]
