"""What follows what, as typed at the later step: "roast: 30 to 60 min, on the counter"."""

from __future__ import annotations

import re
from typing import Annotated, Any, ClassVar

from pydantic import BeforeValidator, WithJsonSchema

from core.intake.text.nearest import one_of
from core.intake.text.places import Typed
from core.intake.text.waits import WaitText, wait_parts, wait_table, wait_words
from core.plan.ids import StepId
from core.plan.menu import Link, LinkKind

_KINDS = {each.value: each for each in LinkKind}
_LEADS = {LinkKind.START_TO_START: "start of ", LinkKind.END_TO_END: "end of "}
_LEAD = re.compile(r"(start|end) of (.+)", re.IGNORECASE)


def link_kind_in(value: object) -> LinkKind:
    """Return the kind of a link from its words."""
    return _KINDS[one_of(value, _KINDS, "a kind of link")]


LinkKindText = Annotated[LinkKind, BeforeValidator(link_kind_in), WithJsonSchema({"enum": list(_KINDS)})]


class AfterText(WaitText):
    """A step that this one follows, here or in another dish."""

    short: ClassVar[str] = (
        "a step of this dish, or dish.step of another; a colon and the wait may follow: "
        '"roast: 30 to 60 min, on the counter"; "butter.churn: up to 5 days, in the fridge, brings 300 ml"; '
        '"start of roast: at least 20 min" counts between the starts, '
        '"end of rice: up to 2 min" between the ends'
    )

    step: str
    """The step that this one follows: its id here, or dish.step of another dish."""
    kind: LinkKindText = LinkKind.END_TO_START
    """What of the earlier step binds what of this one."""

    @classmethod
    def from_short(cls, text: str) -> Typed:
        """Return the table of a short line."""
        step, colon, wait = text.partition(":")
        found = wait_parts(wait.strip()) if colon and wait.strip() else {}
        step = step.strip()
        if met := _LEAD.fullmatch(step):
            step = met[2].strip()
            kind = LinkKind.START_TO_START if met[1].casefold() == "start" else LinkKind.END_TO_END
            found["kind"] = kind.value
        return {"step": step} | found

    def link(self, before: StepId, after: StepId) -> Link:
        """Return the link between two steps."""
        return Link(before, after, self.least, self.most, self.kind, self.wait(), self.brings)


class LinkText(WaitText):
    """A link written by itself, at the end of the plan."""

    short: ClassVar[str] = ""

    before: str
    """The earlier step, as dish.step."""
    after: str
    """The later step, as dish.step."""
    kind: LinkKindText = LinkKind.END_TO_START
    """What of the earlier step binds what of the later one."""

    def link(self) -> Link:
        """Return the link."""
        before, after = StepId(self.before), StepId(self.after)
        return Link(before, after, self.least, self.most, self.kind, self.wait(), self.brings)


def after_out(link: Link, step: str) -> Any:
    """Return a link as typed at its later step; `step` is how the earlier one is named there."""
    words = wait_words(link.least, link.most, link.wait, link.brings)
    text = _LEADS.get(link.kind, "") + step + (f": {words}" if words else "")
    try:
        read = AfterText.model_validate(text)
        if read.step == step and read.link(link.before, link.after) == link:
            return text
    except ValueError:
        pass
    kind = {} if link.kind is LinkKind.END_TO_START else {"kind": link.kind.value}
    return {"step": step} | kind | wait_table(link.least, link.most, link.wait, link.brings)


def link_out(link: Link) -> Typed:
    """Return a link as typed by itself."""
    kind = {} if link.kind is LinkKind.END_TO_START else {"kind": link.kind.value}
    ends = {"before": str(link.before), "after": str(link.after)}
    return ends | kind | wait_table(link.least, link.most, link.wait, link.brings)
