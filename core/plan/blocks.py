"""Usual runs of steps: ordinary steps and waits with default lengths, each with where its numbers come from.

Minutes, whole °C and cm2 as everywhere. Once added to a dish they are steps and links like any other.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from core.plan.ids import StepId, fresh, local_part, step_id
from core.plan.menu import Dish, Link
from core.plan.step import Attention, Doneness, Span, Step, Touch, Use, Wait


class BlockKind(StrEnum):
    """Which usual run it is; the value is its name in a cook's words."""

    REST_AND_CARVE = "rest and carve"
    BRINE_OVERNIGHT = "brine overnight"
    PROOF_AND_BAKE = "proof and bake"
    BLANCH_AND_FINISH = "blanch and finish"
    MAKE_AHEAD_AND_REHEAT = "make ahead and reheat"


@dataclass(frozen=True, slots=True)
class BlockWait:
    """How long the food waits before a step of a run, in minutes (`most` None: no limit), how, and the source.

    The `source` is empty only for a wait of any length on the counter.
    """

    least: int = 0
    most: int | None = None
    wait: Wait = Wait()
    source: str = ""


@dataclass(frozen=True, slots=True)
class BlockStep:
    """One step of a run, the wait before it, and the source of its length.

    `caution` is what to mind at this step; it becomes the step's note.
    """

    does: str
    length: Span
    source: str
    attention: Attention = Attention.HANDS_ON
    uses: tuple[Use, ...] = ()
    touches: tuple[Touch, ...] = ()
    doneness: Doneness | None = None
    follows: BlockWait = BlockWait()
    caution: str = ""


@dataclass(frozen=True, slots=True)
class Block:
    """A usual run of steps, one after the other."""

    kind: BlockKind
    steps: tuple[BlockStep, ...]

    @property
    def cautions(self) -> tuple[str, ...]:
        """Return what is to be minded, step by step."""
        return tuple(step.caution for step in self.steps if step.caution)


def steps_of(block: Block, dish: Dish) -> tuple[Step, ...]:
    """Return the run's steps as steps of a dish, with ids that none of its steps bears."""
    taken = {local_part(step.id) for step in dish.steps}
    made = []
    for each in block.steps:
        local = fresh(each.does, taken)
        taken.add(local)
        made.append(_step(each, step_id(dish.id, local)))
    return tuple(made)


def links_of(block: Block, steps: tuple[Step, ...], after: StepId | None) -> tuple[Link, ...]:
    """Return the links among the run's steps as made, and to its first step from the one it follows, if any."""
    befores = (after, *(step.id for step in steps))
    pairs = zip(befores, steps, block.steps, strict=False)
    return tuple(
        Link(before, step.id, each.follows.least, each.follows.most, wait=each.follows.wait)
        for before, step, each in pairs
        if before is not None
    )


def _step(each: BlockStep, new_id: StepId) -> Step:
    return Step(
        new_id,
        each.does,
        each.length,
        each.attention,
        touches=each.touches,
        uses=each.uses,
        doneness=each.doneness,
        note=each.caution,
    )
