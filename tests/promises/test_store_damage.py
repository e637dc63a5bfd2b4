"""However a plan file is damaged: it opens with a plan or is refused in a sentence, and is never changed."""

from __future__ import annotations

import tempfile
from functools import cache
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from core.measures.refusal import Refusal
from core.plan.plan import Plan
from core.store.file import PlanFile
from core.store.mark import SCHEMA
from tests.support.tries import tries

SAMPLES = Path(__file__).parents[1] / "core" / "store" / "samples"


@cache
def sample(layout: int = SCHEMA) -> bytes:
    return (SAMPLES / f"v{layout}.cookday").read_bytes()


def told_of(content: bytes) -> Plan | str:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "feast.cookday"
        path.write_bytes(content)
        try:
            with PlanFile.open(path) as file:
                return file.plan()
        except Refusal as refusal:
            assert path.read_bytes() == content
            assert [each.name for each in path.parent.iterdir()] == ["feast.cookday"]
            return refusal.text


@settings(max_examples=tries(60), deadline=None)
@given(st.data())
def test_bytes_overwritten(data: st.DataObject) -> None:
    whole = sample(data.draw(st.integers(1, SCHEMA)))
    at = data.draw(st.integers(0, len(whole) - 1))
    scrap = data.draw(st.binary(min_size=1, max_size=64))
    content = whole[:at] + scrap + whole[at + len(scrap) :]
    told = told_of(content)
    if isinstance(told, str):
        assert told.startswith("“feast.cookday” ")


@settings(max_examples=tries(30), deadline=None)
@given(st.integers(0, 200_000))
def test_the_end_cut_off(length: int) -> None:
    told = told_of(sample()[:length])
    if length < len(sample()):
        assert isinstance(told, str)
        assert told.startswith("“feast.cookday” ")


@settings(max_examples=tries(30), deadline=None)
@given(st.binary(max_size=300))
def test_bytes_of_anything(content: bytes) -> None:
    assert isinstance(told_of(content), str)
    assert isinstance(told_of(b"SQLite format 3\x00" + content), str)
