"""Reasons in words: who takes part, in which minutes, what is wanted and what there is."""

from __future__ import annotations

from collections.abc import Sequence

from core.arrange.demand import Demand, DemandKind
from core.arrange.outcome import Fit
from core.arrange.why.reason import FactKind, Reason, ReasonKind, Repair, Share, Tie, Turn, WhyNot
from core.measures.minutes import show_minutes
from core.measures.words import counted, join_words, plural_of
from core.plan import meaning
from core.plan.calendar import clock_offset
from core.plan.check_words import short
from core.plan.ids import StationId, StepId
from core.plan.kitchen import StationKind
from core.plan.menu import LinkKind
from core.plan.network import Network
from core.plan.network_limits import LimitKind
from core.plan.network_why import clause
from core.plan.plan import Plan
from core.timetable.facts import Facts
from core.timetable.naming import at_place, capital, clock, number, place, span, unit

_IN = frozenset({StationKind.BURNER, StationKind.GRILL, StationKind.COLD_COUNTER})
_DOES = {
    LinkKind.END_TO_START: ("begins", "is done"),
    LinkKind.START_TO_START: ("begins", "begins"),
    LinkKind.END_TO_END: ("is done", "is done"),
}


def say_why_not(plan: Plan, answer: WhyNot) -> str:
    """Return the whole answer, one paragraph for each reason."""
    if answer.fit is Fit.MEETS:
        return "Everything can meet: arrange the plan again."
    said = [say_reason(plan, reason) for reason in answer.reasons]
    if answer.fit is Fit.NOT_FOUND:
        said.append("Neither a timetable nor a reason against it was found in the time given.")
    elif not said:
        said.append("It cannot be met, and no short reason was found in the time given.")
    if answer.repair is not None:
        said.append(say_repair(plan, answer.repair))
    return "\n".join(said)


def say_reason(plan: Plan, reason: Reason) -> str:
    """Return a reason as one or two sentences."""
    facts = Facts(plan)
    match reason.kind:
        case ReasonKind.CHAIN:
            return _chain(facts, reason)
        case ReasonKind.CROWD:
            return _crowd(facts, reason)
        case ReasonKind.WORK:
            return _work(facts, reason)
        case ReasonKind.SHELVES:
            return _shelves(facts, reason)
        case ReasonKind.CLOSED:
            names, where = _names(facts, reason.shares), _at(facts, reason)
            when = span(facts, reason.start, reason.end)
            return f"{names} must be {where} from {when}, when {_it(facts, reason)} is not there."
        case ReasonKind.HEATS:
            return _heats(facts, reason)
        case ReasonKind.FIRE:
            return _fire(facts, reason)
        case _:
            return _wishes(plan, reason)


def say_repair(plan: Plan, repair: Repair) -> str:
    """Return what to give up so that all the rest can be kept."""
    said = "; ".join(say_demand(plan, each) for each in repair.demands)
    return f"All the rest can be kept if you give up {_counted(len(repair.demands), 'wish')}: {said}."


# ---- the kinds of reasons


def _chain(facts: Facts, reason: Reason) -> str:
    network = Network.of(facts.plan, _least_lengths(facts))
    asked = "; ".join(
        _loads(facts, ties) if len(ties) > 1 else _tie(facts, network, ties[0])
        for ties in _grouped(reason.chain)
    )
    much = show_minutes(reason.over)
    return f"These cannot all hold: {asked}. That is {much} too much; give one of them {much} more room."


def _least_lengths(facts: Facts) -> dict[tuple[StepId, int], int]:
    """Return the least length of each load over the ways it may be done, as the sum was made."""
    plan = facts.plan
    found = {}
    for step in plan.steps.values():
        least = min(meaning.reserved(plan, step.id, way).length for way in meaning.ways_open(plan, step))
        found.update({(step.id, load): least for load in range(facts.loads(step.id))})
    return found


def _grouped(chain: Sequence[Tie]) -> list[list[Tie]]:
    """Return the ties one by one, but loads that follow each other together."""
    found: list[list[Tie]] = []
    for tie in chain:
        loads = tie.limit.kind is LimitKind.LOADS
        if not (loads and found and found[-1][-1].limit.kind is LimitKind.LOADS):
            found.append([])
        found[-1].append(tie)
    return found


def _loads(facts: Facts, ties: Sequence[Tie]) -> str:
    key = ties[0].limit.before or ties[0].limit.after
    minutes = show_minutes(sum(tie.limit.minutes for tie in ties))
    name = facts.words.step(key[0]) if key is not None else ""
    return f"{name} begins its {number(len(ties) + 1)} loads {minutes} apart from first to last"


def _tie(facts: Facts, network: Network, tie: Tie) -> str:
    limit = tie.limit
    key = limit.after or limit.before
    if tie.fact is None or key is None:
        return clause(network, limit)
    name = facts.words.step(key[0])
    when = clock(facts, limit.minutes if limit.before is None else -limit.minutes)
    if tie.fact is FactKind.NOW:
        return f"it is {when}, and {name} is still to be done"
    return f"{name} was begun at {when}"


def _crowd(facts: Facts, reason: Reason) -> str:
    names, when = _names(facts, reason.shares), span(facts, reason.start, reason.end)
    about, many = reason.about, len(reason.shares) > 1
    both = "both" if len(reason.shares) == 2 else "all"
    lasts = show_minutes(reason.end - reason.start)
    if reason.shelved:
        stand = f"stand {_at(facts, reason)} together" if many else f"stands {_at(facts, reason)}"
        return (
            f"{names} {stand} from {when} and {'take' if many else 'takes'} {reason.need:,} cm²;"
            f" {_it(facts, reason)} has {reason.have:,}: {reason.over:,} cm² too many for {lasts}."
        )
    if about is not None and about.kind is DemandKind.HANDS:
        return (
            f"{names} {'need' if many else 'needs'} {_counted(reason.need, 'cook')}{_skilled(about)} from {when},"
            f" and {_there_is(reason.have)}: {lasts} too many."
        )
    if about is not None and about.kind is DemandKind.VESSEL and about.vessel is not None:
        vessel = facts.words.vessel(about.vessel)
        return (
            f"{names} {'hold' if many else 'holds'} {number(reason.need)} of {vessel} from {when},"
            f" and {_there_is(reason.have)}: {lasts} too many."
        )
    are = f"are {both}" if many else "is"
    takes = "" if all(each.amount == 1 for each in reason.shares) else f", {_units(reason, reason.need)} in all"
    return (
        f"{names} {are} {_at(facts, reason)} from {when}{takes}, and {_has(facts, reason)}:"
        f" {lasts} too many."
    )


def _work(facts: Facts, reason: Reason) -> str:
    parts = "; ".join(f"{_named(facts, each, reason.shares)} {each.amount}" for each in reason.shares)
    when, much = span(facts, reason.start, reason.end), show_minutes(reason.over)
    if reason.about is not None and reason.about.kind is DemandKind.HANDS:
        return (
            f"From {when} at least {reason.need} minutes of hands-on work{_skilled(reason.about)} must be done,"
            f" and the cooks have {reason.have}: {much} too much. They are, in minutes: {parts}."
        )
    return (
        f"From {when} {_the_units(facts, reason)} are taken for at least {reason.need} minutes,"
        f" and there are {reason.have}: {much} too much. They are, in minutes: {parts}."
    )


def _shelves(facts: Facts, reason: Reason) -> str:
    things = []
    for each in reason.shares:
        wants = [f"{each.amount:,} cm²"] + ([f"{each.height} cm high"] if each.height else [])
        wants += ["raw, so on the lowest"] if each.raw else []
        things.append(f"{_named(facts, each, reason.shares)} ({', '.join(wants)})")
    return (
        f"From {span(facts, reason.start, reason.end)} {join_words(things)} stand {_at(facts, reason)}."
        f" They come to {reason.need:,} cm² of {reason.have:,}, but in no order do they fit shelf by shelf."
    )


def _heats(facts: Facts, reason: Reason) -> str:
    nearest = reason.turns[0]
    one, other = (facts.words.step(key[0]) for key in (nearest.first, nearest.then))
    where = capital(place(facts, reason.stations[0]))
    if reason.about is not None and reason.about.kind is DemandKind.HEAT:
        first, then = nearest.settings
        both = f"{one} at {first} °C and {other} at {then} °C"
    else:
        both = f"{one} and {other}"
    said = "; ".join(_turn(facts, turn) for turn in reason.turns)
    return f"{where} cannot hold {both} at once, and in neither order is there time for both: {said}."


def _turn(facts: Facts, turn: Turn) -> str:
    first, then = facts.words.step(turn.first[0]), facts.words.step(turn.then[0])
    if turn.within is not None and turn.within < 0:
        return f"{then} cannot come after {first}"
    if turn.within is not None:
        within = f"at most {show_minutes(turn.within)} after" if turn.within else "as soon as"
        return (
            f"{then} must begin {within} {first} is out, and changing the heat takes {show_minutes(turn.change)},"
            f" {show_minutes(turn.late)} too long"
        )
    change = f", {show_minutes(turn.change)} to change the heat" if turn.change else ""
    return (
        f"{first} is out at {clock(facts, turn.out)} at the soonest{change}, {show_minutes(turn.length)} for"
        f" {then} makes {clock(facts, turn.done)}, {show_minutes(turn.late)} too late"
    )


def _fire(facts: Facts, reason: Reason) -> str:
    station = facts.plan.kitchen.station[reason.stations[0]]
    names, much = _names(facts, reason.shares), show_minutes(reason.over)
    where = place(facts, station.id)
    burns = show_minutes((station.burns or 0) * station.fires)
    if reason.end > reason.start:
        lasts = f"{show_minutes(reason.need)} from first to last"
    else:
        lasts = f"at least {show_minutes(-(-reason.need // station.units))} in all"
    takes = "takes" if len(reason.shares) == 1 else "take"
    return f"{names} {takes} {lasts}, and the fire of {where} burns for {burns}: {much} too long."


def _wishes(plan: Plan, reason: Reason) -> str:
    if not reason.demands:
        return "No wish is in the way: the steps' lengths and least waits do not fit together with what has happened."
    said = "; ".join(say_demand(plan, each) for each in reason.demands)
    if len(reason.demands) == 1:
        return f"This cannot be kept, whatever else is given up: {said}."
    return f"These {number(len(reason.demands))} cannot all be kept, and without any one of them they could: {said}."


# ---- names of what takes part


def _names(facts: Facts, shares: Sequence[Share]) -> str:
    return join_words(list(dict.fromkeys(_named(facts, each, shares) for each in shares)))


def _named(facts: Facts, share: Share, among: Sequence[Share] = ()) -> str:
    """Return the dish's name where that is plain enough, else the step's; with load, wait or visit."""
    dish = facts.plan.dish_of[share.step]
    same = [each for each in among if facts.plan.dish_of[each.step].id == dish.id]
    name = facts.words.dish(dish.id) if len(same) == 1 and not share.does else facts.words.step(share.step)
    if facts.loads(share.step) > 1:
        name = f"load {share.load + 1} of {name}"
    if share.waits:
        return f"{name}, waiting,"
    return f"{name} ({short(share.does)})" if share.does else name


def _at(facts: Facts, reason: Reason) -> str:
    if len(reason.stations) == 1:
        return at_place(facts, reason.stations[0])
    kind = _kind(reason)
    return f"{'on' if kind in _IN else 'in'} the {plural_of(str(kind))}"


def _it(facts: Facts, reason: Reason) -> str:
    if len(reason.stations) == 1:
        return place(facts, reason.stations[0])
    return f"the {plural_of(str(_kind(reason)))} together"


def _has(facts: Facts, reason: Reason) -> str:
    single = len(reason.stations) == 1 and facts.plan.kitchen.station[reason.stations[0]].units > 1
    return f"it has {_units(reason, reason.have)}" if single else _there_is(reason.have)


def _the_units(facts: Facts, reason: Reason) -> str:
    whole = [facts.plan.kitchen.station[each] for each in reason.stations]
    units = sum(each.units for each in whole)
    if units == 1:
        return _it(facts, reason)
    if all(each.units == 1 for each in whole):
        return f"the {plural_of(str(_kind(reason)))}"
    return f"the {plural_of(unit(_kind(reason)))} {_at(facts, reason)}"


def _units(reason: Reason, count: int) -> str:
    return _counted(count, unit(_kind(reason)))


def _counted(count: int, word: str) -> str:
    return f"{number(count)} {counted(count, word)}"


def _kind(reason: Reason) -> StationKind:
    assert reason.about is not None
    assert reason.about.kind_of is not None
    return reason.about.kind_of


def _there_is(count: int) -> str:
    return "there is one" if count == 1 else f"there are {number(count)}" if count else "there is none"


def _skilled(about: Demand) -> str:
    return f" with the skill “{short(about.skill)}”" if about.skill else ""


# ---- wishes in words


def say_demand(plan: Plan, demand: Demand) -> str:
    """Return one wish as part of a sentence."""
    facts = Facts(plan)
    if demand.step is not None:
        return _of_step(facts, demand, demand.step)
    if demand.station is not None:
        return _of_station(facts, demand, demand.station)
    match demand.kind:
        case DemandKind.STATION if demand.kind_of is not None:
            return _room(plan, demand.kind_of)
        case DemandKind.VESSEL if demand.vessel is not None:
            count = plan.kitchen.vessel[demand.vessel].count
            return f"{_there_is(count)} of {facts.words.vessel(demand.vessel)}"
        case DemandKind.HANDS:
            able = sum(not demand.skill or demand.skill in each.skills for each in plan.kitchen.cooks)
            return f"there {'is' if able == 1 else 'are'} {_counted(able, 'cook')}{_skilled(demand)}"
        case DemandKind.ABSENT if demand.cook is not None:
            return f"{facts.words.cook(demand.cook)} is away at night and outside the hours given"
        case _:
            at = f" at {clock(facts, plan.opens)}" if plan.opens is not None else ""
            return f"nothing begins before the plan opens{at}"


def _of_step(facts: Facts, demand: Demand, step: StepId) -> str:
    plan, name = facts.plan, facts.words.step(step)
    the_step, dish = plan.steps[step], plan.dish_of[step]
    match demand.kind:
        case DemandKind.MOST_WAIT if demand.after is not None and demand.link is not None:
            link = next(
                each for each in plan.links_from[step] if each.key == (step, demand.after, demand.link)
            )
            does, done = _DOES[demand.link]
            most = show_minutes(link.most or 0)
            return f"{facts.words.step(demand.after)} {does} at most {most} after {name} {done}"
        case DemandKind.KEEPS:
            keep = meaning.keep_of(plan, the_step)
            most = show_minutes(keep.most or 0) if keep is not None else "no time"
            return f"{name} keeps at most {most} until it is served"
        case DemandKind.SERVED:
            return f"{name} is done by {clock(facts, dish.course)}, when {'it' if dish.served else 'that'} is wanted"
        case DemandKind.EARLIEST:
            return f"{name} may not begin before {clock(facts, the_step.earliest or 0)}"
        case DemandKind.LATEST:
            return f"{name} must be done by {clock(facts, the_step.latest or 0)}"
        case DemandKind.CLOCK if the_step.clock is not None:
            return f"{name} is fixed at {clock(facts, clock_offset(plan, the_step.clock))}"
        case DemandKind.ORDER if demand.after is not None:
            return f"{name} comes before {facts.words.step(demand.after)}, as decided"
        case _:
            return _pinned(facts, demand, name)


def _pinned(facts: Facts, demand: Demand, name: str) -> str:
    pin = facts.plan.pins.get((demand.step or StepId(""), demand.load))
    where = []
    if pin is not None and pin.start is not None:
        where.append(f"to {clock(facts, pin.start)}")
    if pin is not None and pin.station is not None:
        where.append(f"to {place(facts, pin.station)}")
    if pin is not None and pin.cook is not None:
        where.append(f"to {facts.words.cook(pin.cook)}")
    what = f"load {demand.load + 1} of {name}" if demand.load else name
    return f"{what} is pinned {join_words(where)}".rstrip()


def _of_station(facts: Facts, demand: Demand, station: StationId) -> str:
    where = place(facts, station)
    found = facts.plan.kitchen.station[station]
    match demand.kind:
        case DemandKind.CLOSED:
            return f"{where} is there in its hours only"
        case DemandKind.FIRE:
            burns = "" if found.burns is None else f" and burns for {show_minutes(found.burns)}"
            times = "once" if found.fires == 1 else f"{number(found.fires)} times"
            return f"{where} is lit {times}{burns}"
        case DemandKind.NOT_WITH if demand.other is not None:
            return f"{where} and {place(facts, demand.other)} are not used at once"
        case _:
            return f"{where} has one temperature at a time and takes time to change it"


def _room(plan: Plan, kind: StationKind) -> str:
    stations = plan.kitchen.of_kind(kind)
    if any(each.shelves for each in stations):
        return f"there are {sum(shelf.area for each in stations for shelf in each.shelves):,} cm² of {kind}"
    count = sum(each.units for each in stations)
    if kind is StationKind.BURNER or all(each.units == 1 for each in stations):
        word = unit(kind) if kind is StationKind.BURNER else str(kind)
        return f"there {'is' if count == 1 else 'are'} {_counted(count, word)}"
    the = f"the {kind} has" if len(stations) == 1 else f"the {plural_of(str(kind))} have"
    return f"{the} {_counted(count, unit(kind))}"
