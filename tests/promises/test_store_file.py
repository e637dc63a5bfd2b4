"""Whatever plan is saved, and however often: the file holds that plan and no other."""

from __future__ import annotations

import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from core.plan.plan import Plan
from core.store.file import PlanFile
from core.store.mark import SCHEMA
from core.store.rows import to_plan, to_rows
from tests.support.strategies import plans
from tests.support.tries import tries

SAMPLE = Path(__file__).parents[1] / "core" / "store" / "samples" / f"v{SCHEMA}.cookday"


@contextmanager
def a_file() -> Iterator[Path]:
    """Hand out a plan file that holds the sample, alone in a folder."""
    with tempfile.TemporaryDirectory() as folder:
        yield Path(shutil.copy(SAMPLE, Path(folder) / "a.cookday"))


@settings(max_examples=tries(25), deadline=None)
@given(plans())
def test_a_plan_comes_back_from_its_rows(plan: Plan) -> None:
    rows = {table: list(found.values()) for table, found in to_rows(plan).items()}
    assert to_plan(rows) == plan


@settings(max_examples=tries(25), deadline=None)
@given(plans())
def test_a_plan_comes_back_from_its_file(plan: Plan) -> None:
    # Opened for mending: what the check thinks of a plan is not what is promised here.
    with a_file() as path:
        with PlanFile.open(path, mending=True) as file:
            file.save(file.held, plan)
            assert file.plan() == plan
            file.copy_to(path.with_name("b.cookday"))
        with PlanFile.open(path.with_name("b.cookday"), mending=True) as copy:
            assert copy.plan() == plan


@settings(max_examples=tries(15), deadline=None)
@given(st.lists(plans(), min_size=2, max_size=4), st.lists(st.integers(0, 3), max_size=6))
def test_any_sequence_of_saves_leaves_exactly_the_last(drawn: list[Plan], again: list[int]) -> None:
    with a_file() as path:
        with PlanFile.open(path, mending=True) as file:
            for plan in [*drawn, *(drawn[number % len(drawn)] for number in again)]:
                held = file.held
                written = file.save(held, plan)
                assert (written == 0) == (plan == held)
                assert file.plan() == plan
        with PlanFile.open(path, mending=True) as again_open:
            assert again_open.plan() == plan
        assert list(path.parent.iterdir()) == [path]
