"""The solver's library comes without the tables that it offers, and whoever wants those still finds them."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[3]


def said(code: str) -> str:
    """Run code in an interpreter of its own and return what it prints."""
    command = [sys.executable, "-W", "error", "-c", code]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    return done.stdout.strip()


ARRANGED = """
import sys
from core.arrange import Effort, Fit, arrange
from core.arrange.solver import cp_model
from tests.support.builders import a_bench, a_step
assert arrange(a_bench(a_step("soup.boil")), Effort(work=0.1)).fit is Fit.MEETS
"""


def test_arranging_brings_no_tables_along() -> None:
    assert said(ARRANGED + "print('pandas' in sys.modules)") == "False"


def test_tables_are_there_for_others_afterwards() -> None:
    more = """
import pandas
model = cp_model.CpModel()
whole = model.new_int_var(0, 9, "whole")
print(pandas.Series([whole]).size, pandas.__file__.endswith("__init__.py"))
"""
    assert said(ARRANGED + more) == "1 True"


def test_a_library_that_wants_more_of_them_is_imported_as_it_is() -> None:
    code = """
import sys
from pathlib import Path
source = Path("core/arrange/solver.py").read_text(encoding="utf-8")
poorer = source.replace('"Index", "Series", "DataFrame"', "")
assert poorer != source
names = {"__name__": "poorer"}
exec(poorer, names)
print("pandas" in sys.modules, names["cp_model"].CpModel().new_int_var(0, 9, "whole"))
"""
    assert said(code) == "True whole"
