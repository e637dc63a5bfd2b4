"""What every edit is: a small frozen value with words for undo, which makes a new plan out of a plan."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Hashable

from core.plan.check import require_no_worse
from core.plan.edits.said import Said
from core.plan.plan import Plan


class Edit(ABC):
    """One thing the cook can do to a plan. Pure: the plan given is never changed."""

    __slots__ = ()

    @abstractmethod
    def said(self, words: Said) -> str:
        """Return what is done, with the names that `words` gives."""

    @abstractmethod
    def change(self, plan: Plan) -> Plan:
        """Return the plan changed, not yet checked; raise Refusal where what is meant is not there."""

    def __call__(self, plan: Plan) -> Plan:
        """Return the plan changed; raise Refusal with the problems that it would newly have."""
        return require_no_worse(plan, self.change(plan))

    def label_in(self, plan: Plan) -> str:
        """Return what is done in the words and clock times of a plan: the one before the edit."""
        return self.said(Said(plan))

    @property
    def label(self) -> str:
        """Return what is done where no plan is at hand: names guessed from ids, times from plating."""
        return self.said(Said())

    @property
    def merge_key(self) -> Hashable | None:
        """Return the key by which it is one undo step with the edit just before it (None: never)."""
        return None
