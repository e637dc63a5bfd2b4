"""Sentences of a recipe become draft steps in order, with lengths, heats, places, cues, touches and waits.

A sentence may hold several steps; one that only heats the oven is none, but its setting holds for what follows.
Resting between two steps becomes a wait after the first; "can be made a day ahead" becomes one too.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from core.plan.kitchen import HEATED, StationKind
from core.plan.step import Attention, Holding, Touch
from core.reading.phrases import Found, Kind, Warmth
from core.reading.sentence_clauses import Clause, clauses_of, is_remark, span_of
from core.reading.sentence_draft import DraftStep, DraftWait, Origin
from core.reading.sentence_join import is_opening, openings_joined, rests_as_waits
from core.reading.sentence_step import holding_at, step_of
from core.reading.sentence_verbs import TRIFLES

__all__ = ["DraftStep", "DraftWait", "Origin", "steps_of"]

_SERVES = re.compile(
    r"bring (?:it |them )?to the table.*|"
    r"(?:serve|enjoy|eat|dish up|plate)(?: (?:it|them|up|hot|warm|cold|chilled|immediately|at once|"
    r"straight away|right away|"
    r"and enjoy|now|piping|soon|while|still|warm|with pride|to your guests|at room temperature|"
    r"straight|from the \w+|in \w+|or|,))*"
)
_SERVES_WITH = re.compile(r"serve (?:\w+ ){0,3}?with [\w' -]{1,60}")
_AT_ONCE = re.compile(r"\b(?:serve|eat|enjoy)\b.*\b(?:at once|immediately|straight away|right away)\b")
_WARM = re.compile(r"\bkeep\b.*\b(?:warm|hot)\b|\bhold\b.*\b(?:warm|hot)\b")
_STORING = ("keep", "store", "hold", "chill", "refrigerate", "freeze", "leave", "rest", "stand")
_OFF = re.compile(r"\b(?:turn|turned|switch|switched) (?:the oven |it )?off\b(?: the oven\b)?(?! the heat)")
_SMALL = re.compile(r"(?:weigh|press|tie|tuck) (?:\w+ ){0,3}(?:down|up|in|tightly)\b")
_KEEPS = re.compile(
    r"\b(?:keeps?|kept|store[ds]?|made|prepared|done|freezes?|frozen|chilled|last|hold|held|assembled|"
    r"ready|wait|stand|rest|leave|be left|chill|refrigerate|freeze)\b"
)


@dataclass
class _Reader:
    """The steps so far, what the heated places are set to, and which steps have no follower yet."""

    steps: list[DraftStep] = field(default_factory=list)
    settings: dict[StationKind, Origin] = field(default_factory=dict)
    open: tuple[int, ...] = ()
    aside: tuple[int, ...] = ()
    inside: tuple[int, str, Clause] | None = None

    def read(self, sentence: int, text: str) -> None:
        """Take one sentence in."""
        clauses = clauses_of(text)
        if not clauses:
            return
        if is_remark(clauses):
            self._keep(sentence, clauses)
            return
        fresh = True
        pending: list[Clause] = []
        for clause in clauses:
            if pending and _speaks_of_the_step_before(clause):
                self._emit(sentence, text, pending, fresh)
                fresh, pending = False, []
            if self._is_no_step(sentence, clause):
                continue
            if not clause.is_timed:
                pending.append(clause)
                continue
            own = [clause]
            while pending and _joins(pending[-1], clause):
                own.insert(0, pending.pop())
            self._emit(sentence, text, pending, fresh)
            fresh, pending = fresh and not pending, []
            self._emit(sentence, text, own, fresh)
            fresh = False
        self._emit(sentence, text, pending, fresh)

    def _is_no_step(self, sentence: int, clause: Clause) -> bool:
        """Take in what changes the steps around it without being one; tell whether it was that."""
        self._end_before(sentence, clause)
        self._set(sentence, clause)
        if clause.heats_up or _OFF.fullmatch(clause.words.strip(" .!")):
            return True
        if _SERVES.fullmatch(clause.words.strip(" .!")) or _SERVES_WITH.fullmatch(clause.words.strip(" .!")):
            if _AT_ONCE.search(clause.words):
                self._wait(DraftWait(0, 0), None)
            return True
        if _WARM.search(clause.words) and not clause.of(Kind.DURATION) and self.steps:
            kind = clause.place
            told = clause.of(Kind.MOST)
            most = span_of(told[0]).high if told else None
            self._wait(
                DraftWait(0, most, Holding.HOT, kind), Origin("wait", sentence, told[0]) if told else None
            )
            return True
        if self.steps and _is_storing(clause):
            self._keep(sentence, (clause,))
            return True
        if self._is_done(sentence, clause):
            return True
        if clause.verb == "serve" and _AT_ONCE.search(clause.words):
            self._wait(DraftWait(0, 0), None)
        return self._is_touch(clause)

    def _is_done(self, sentence: int, clause: Clause) -> bool:
        """Take "take it out when it reads 60C" as how the step before is known to be done."""
        found = clause.measured
        if found is None or not clause.only_moves or not self.steps or self.steps[-1].core is not None:
            return False
        last = self.steps[-1]
        assert isinstance(found.value, Warmth)
        origins = (*last.origins, Origin("core", sentence, found))
        self.steps[-1] = replace(last, core=found.value.celsius, origins=origins)
        return True

    def _set(self, sentence: int, clause: Clause) -> None:
        if _OFF.search(clause.words):
            self.settings.pop(StationKind.OVEN, None)
        found = clause.setting
        if found is None:
            return
        kind = clause.place
        if kind is None:
            last = next((step.kind for step in reversed(self.steps) if step.kind in HEATED), None)
            kind = last or StationKind.OVEN
        if kind in HEATED and _celsius(found) >= 50:
            self.settings[kind] = Origin("heat", sentence, found)

    def _end_before(self, sentence: int, clause: Clause) -> None:
        """Let "after 15 minutes lower to 190C" end the step before, where it has no length of its own."""
        told = _opening_after(clause)
        if told and self.inside is not None:
            self._add(self.inside[0], self.inside[1], (self.inside[2],), True)
        if told and self.steps and self.steps[-1].length is None:
            last = self.steps[-1]
            origin = Origin("length", sentence, told[0])
            alone = last.kind in (StationKind.OVEN, StationKind.SMOKER)
            attention = Attention.HANDS_OFF if alone else last.attention
            origins = (*last.origins, origin)
            self.steps[-1] = replace(last, length=span_of(told[0]), attention=attention, origins=origins)

    def _is_touch(self, clause: Clause) -> bool:
        """Take "after 20 minutes, turn the potatoes" as a touch of the step before."""
        told = _opening_after(clause)
        if not told or not self.steps:
            return False
        last = self.steps[-1]
        own = clause.of(Kind.DURATION, Kind.LEAST, Kind.PER_SIDE, Kind.CUE)
        if (
            own
            or last.length is None
            or span_of(told[0]).likely >= last.length.likely
            or last.attention is Attention.HANDS_ON
        ):
            return False
        does = clause.plain[told[0].end : clause.end].strip(" ,")
        touch = Touch(span_of(told[0]).likely, 1, does)
        self.steps[-1] = replace(last, touches=(*last.touches, touch), attention=Attention.TENDED)
        return True

    def _emit(self, sentence: int, text: str, group: Sequence[Clause], fresh: bool) -> None:
        """Add the step of a group of clauses; what only carries food to or from a place at its end is none."""
        left = list(group)
        while left and left[-1].only_moves:
            moved = left.pop()
            if moved.place in HEATED:
                self.inside = (sentence, text, moved)
        if len(left) > 1 and not any(each.is_timed for each in left) and is_opening(left[-1].words):
            self._add(sentence, text, left[:-1], fresh, bool(self.inside and self.inside[2] in group))
            left, fresh = left[-1:], False
        if left:
            self._add(sentence, text, left, fresh, bool(self.inside and self.inside[2] in group))

    def _add(
        self, sentence: int, text: str, group: Sequence[Clause], fresh: bool, holds: bool = False
    ) -> None:
        self.inside = self.inside if holds else None
        before = self.steps[-1] if self.steps else None
        step = step_of(text, sentence, group, before)
        step = self._heated(step)
        at = len(self.steps)
        if any(clause.meanwhile for clause in group) and at:
            self.aside = (*self.aside, *self.open)
            step = replace(step, after=self.steps[self.open[-1]].after if self.open else ())
        elif fresh and not self._goes_on_aside(step):
            step = replace(step, after=tuple(sorted({*self.open, *self.aside})))
            self.aside = ()
        else:
            step = replace(step, after=self.open)
        self.open = (at,)
        self.steps.append(step)

    def _goes_on_aside(self, step: DraftStep) -> bool:
        """Tell whether work begun with "meanwhile" goes on in its own place, apart from what it is done beside."""
        if not self.aside or step.kind is None or not self.open:
            return False
        return (
            step.kind is self.steps[self.open[-1]].kind and step.kind is not self.steps[self.aside[-1]].kind
        )

    def _heated(self, step: DraftStep) -> DraftStep:
        """Give a step in a heated place the setting that holds there, where it tells none itself."""
        if step.kind not in HEATED:
            return replace(
                step, heat=None, origins=tuple(each for each in step.origins if each.field != "heat")
            )
        origin = self.settings.get(step.kind) if step.heat is None else None
        if origin is None or not isinstance(origin.found.value, Warmth):
            return step
        return replace(step, heat=origin.found.value, origins=(*step.origins, origin))

    def _keep(self, sentence: int, clauses: Sequence[Clause]) -> None:
        """Take "can be made a day ahead and kept in the fridge" as a wait after the step before."""
        words = " ".join(clause.words for clause in clauses)
        told = [found for clause in clauses for found in clause.of(Kind.AHEAD, Kind.MOST, Kind.DURATION)]
        if not told or not self.steps or not _KEEPS.search(words):
            return
        kinds = [
            clause.place for clause in clauses if clause.place in (StationKind.FRIDGE, StationKind.FREEZER)
        ]
        kind = kinds[0] if kinds else None
        if kind is None:
            kind = StationKind.FREEZER if re.search(r"\bfroze|\bfreez", words) else None
            kind = kind or (StationKind.FRIDGE if re.search(r"\bchill", words) else None)
        wait = DraftWait(0, span_of(told[0]).high, holding_at(kind), kind)
        self._wait(wait, Origin("wait", sentence, told[0]))

    def _wait(self, wait: DraftWait, origin: Origin | None) -> None:
        if not self.steps:
            return
        last = self.steps[-1]
        if last.wait is not None:
            wait = replace(wait, least=last.wait.least)
        kept = tuple(each for each in last.origins if each.field != "wait")
        self.steps[-1] = replace(last, wait=wait, origins=(*kept, origin) if origin else kept)


def steps_of(sentences: Sequence[str]) -> tuple[DraftStep, ...]:
    """Return the draft steps of a recipe's sentences in order, each with its places in the sentences."""
    reader = _Reader()
    for at, text in enumerate(sentences):
        reader.read(at, text)
    return openings_joined(rests_as_waits(reader.steps))


def _is_storing(clause: Clause) -> bool:
    told = clause.of(Kind.MOST) and not clause.of(Kind.DURATION, Kind.LEAST)
    return bool(told) and clause.verb in _STORING


def _speaks_of_the_step_before(clause: Clause) -> bool:
    """Tell whether a clause may change the step before it, which must stand by then."""
    words = clause.words.strip(" .!")
    changes = clause.heats_up or _is_storing(clause) or bool(_opening_after(clause))
    done = clause.only_moves and clause.measured is not None
    return changes or done or bool(_SERVES.fullmatch(words) or _WARM.search(words) or _AT_ONCE.search(words))


def _opening_after(clause: Clause) -> tuple[Found, ...]:
    """Return the "after 20 minutes" that a clause opens with."""
    return tuple(found for found in clause.of(Kind.AFTER) if found.start <= clause.start + 24)


def _joins(clause: Clause, timed: Clause) -> bool:
    """Tell whether untimed work belongs to the timed work right after it."""
    if clause.place is not None and timed.place is not None and clause.place is not timed.place:
        return clause.only_moves
    if clause.meanwhile != timed.meanwhile and timed.meanwhile:
        return False
    return (
        clause.verb in TRIFLES
        or clause.only_moves
        or _SMALL.match(clause.words) is not None
        or (clause.place is not None and clause.place is timed.place)
    )


def _celsius(found: Found) -> int:
    return found.value.celsius if isinstance(found.value, Warmth) else 0
