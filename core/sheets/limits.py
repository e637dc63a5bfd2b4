"""The limits that sheets print beside readings: rows of the set of food rules that the plan holds to."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from core.measures.minutes import show_minutes
from core.measures.number import show_decimal
from core.measures.refusal import Refusal
from core.measures.words import plural
from core.plan.plan import Plan
from core.safety.rules import COOKED, Measure, Rule, RuleSet
from core.safety.rules_there import USUAL, chosen_rules
from core.sheets.words import plain


@dataclass(frozen=True, slots=True)
class Limit:
    """What a reading is held against, in words, and the row it is from; `document` names only publisher and title."""

    said: str
    source: str
    document: str


@dataclass(frozen=True)
class Limits:
    """The limits of one set; where it has no row for something there is none. `missing`: the plan's own set is not."""

    rules: RuleSet
    missing: str = ""

    @property
    def title(self) -> str:
        """Return the set's name."""
        return plain(self.rules.name)

    @property
    def cooling(self) -> tuple[tuple[int, Limit], ...]:
        """Return the stages of cooling: so many minutes after it began, the limit then."""
        rule = self._row(Measure.COOL)
        stages = () if rule is None else rule.values.stages
        return tuple((each.minutes, _limit(rule, f"{celsius(each.limit.celsius)} or less")) for each in stages if rule)

    @property
    def cooling_begins(self) -> Limit | None:
        """Return what to write down when cooling begins."""
        rule = self._row(Measure.COOL)
        if rule is None or not rule.values.stages:
            return None
        begins = rule.values.begins
        clock = f"; the clock runs from {celsius(begins.celsius)}" if begins is not None else ""
        return _limit(rule, f"write down{clock}", advice=False)

    @property
    def hot(self) -> Limit | None:
        """Return the least of food held hot."""
        return self._bound(Measure.HOT_HOLD, "or more")

    @property
    def cold(self) -> Limit | None:
        """Return the most of food kept cold."""
        return self._bound(Measure.COLD_HOLD, "or less")

    @property
    def reheating(self) -> Limit | None:
        """Return the least core of food that is reheated, and within how long."""
        found, rule = self._bound(Measure.REHEAT, "or more"), self._row(Measure.REHEAT)
        if found is None or rule is None or rule.values.minutes is None:
            return found
        return replace(found, said=f"{found.said} within {show_minutes(rule.values.minutes)}")

    @property
    def kept(self) -> str:
        """Return in a sentence for how many days cooked food keeps at most, with its source; "" for none."""
        rule = self._row(Measure.KEEP_COOKED)
        if rule is None or rule.values.days is None:
            return ""
        days, document = plural(int(rule.values.days), "day"), _limit(rule, "").document
        return f"Cooked food keeps {days} at most by the set “{self.title}” ({document}): count them too."

    @property
    def told(self) -> str:
        """Return the limits of cooling and of holding in a sentence, with where they are from; "" for none."""
        parts = []
        if self.cooling:
            stages = " and ".join(f"to {each.said} within {show_minutes(minutes)}" for minutes, each in self.cooling)
            parts.append(f"cooling {stages} ({self.cooling[0][1].document})")
        if self.hot is not None:
            parts.append(f"holding hot at {self.hot.said} ({self.hot.document})")
        return f"Food limits of the set “{self.title}”: {', '.join(parts)}." if parts else ""

    def _bound(self, measure: Measure, side: str) -> Limit | None:
        rule = self._row(measure)
        bound = None if rule is None else rule.values.least or rule.values.most
        return None if rule is None or bound is None else _limit(rule, f"{celsius(bound.celsius)} {side}")

    def _row(self, measure: Measure) -> Rule | None:
        """Return the row for cooked food, else the first one there is."""
        rows = self.rules.by_measure[measure]
        return next((each for each in rows if COOKED in each.foods), rows[0] if rows else None)


def limits_of(plan: Plan, rules: RuleSet | None = None) -> Limits:
    """Return the limits of a set, by default the plan's; where that is not at hand the usual one, and say so."""
    if rules is not None:
        return Limits(rules)
    try:
        return Limits(chosen_rules(plan.decisions.rules))
    except Refusal as refusal:
        return Limits(chosen_rules(USUAL), plain(str(refusal)))


def celsius(degrees: Fraction | int) -> str:
    """Return "21 °C" or "4.4 °C"."""
    return f"{show_decimal(Fraction(degrees), 1)} °C"


def _limit(rule: Rule, said: str, *, advice: bool = True) -> Limit:
    title = rule.source.document.partition(" (")[0]
    document = ", ".join(filter(None, (rule.source.publisher, title)))
    return Limit(f"{said} (advice)" if advice and rule.advice else said, str(rule.source), document)
