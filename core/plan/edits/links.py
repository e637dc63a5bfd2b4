"""Edits of links between steps: add, change, remove."""

from __future__ import annotations

from dataclasses import dataclass

from core.measures.refusal import Refusal
from core.plan.check_words import JOINS
from core.plan.edits.edit import Edit
from core.plan.edits.parts import LinkKey, link_in, step_in, swapped, with_menu
from core.plan.edits.said import Said
from core.plan.menu import Link
from core.plan.plan import Plan


def _pair(key: LinkKey, words: Said) -> str:
    before, after, kind = key
    return f"{words.step(after)} {JOINS[kind]} {words.step(before)}"


@dataclass(frozen=True, slots=True)
class AddLink(Edit):
    """Let one step follow another."""

    link: Link

    def said(self, words: Said) -> str:
        """Return what is done."""
        return f"Link {_pair(self.link.key, words)}"

    def change(self, plan: Plan) -> Plan:
        """Return the plan with the link."""
        step_in(plan, self.link.before)
        step_in(plan, self.link.after)
        return with_menu(plan, links=(*plan.menu.links, self.link))


@dataclass(frozen=True, slots=True)
class ChangeLink(Edit):
    """Put another link in a link's place: other waits, another kind, or other steps."""

    key: LinkKey
    replacement: Link

    def said(self, words: Said) -> str:
        """Return what is done."""
        return f"Change the link {_pair(self.key, words)}"

    def change(self, plan: Plan) -> Plan:
        """Return the plan with the replacement."""
        link_in(plan, self.key)
        step_in(plan, self.replacement.before)
        step_in(plan, self.replacement.after)
        links = swapped(plan.menu.links, lambda link: link.key == self.key, lambda _link: self.replacement)
        return with_menu(plan, links=links)


@dataclass(frozen=True, slots=True)
class RemoveLink(Edit):
    """Take a link out."""

    key: LinkKey

    def said(self, words: Said) -> str:
        """Return what is done."""
        return f"Unlink {_pair(self.key, words)}"

    def change(self, plan: Plan) -> Plan:
        """Return the plan without the link."""
        link_in(plan, self.key)
        return with_menu(plan, links=tuple(link for link in plan.menu.links if link.key != self.key))


def require_possible(plan: Plan, edit: Edit) -> Plan:
    """Return the plan changed by an edit of links; raise Refusal also where waits newly contradict each other.

    Edits may leave a plan that cannot be met: why, and what would help, is told where it is arranged. A link drawn
    or a wait typed by hand is refused at once instead, with the whole chain in words; the plan stays as it was. A
    plan that contradicts itself already may be mended bit by bit.
    """
    from core.plan.network import Network

    changed = edit(plan)
    found = Network.of(changed).contradiction()
    if found is not None and Network.of(plan).contradiction() is None:
        raise Refusal(found.sentence)
    return changed
