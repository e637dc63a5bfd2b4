"""core knows no screen: every module of it can be imported where Qt cannot."""

import os
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[2]

PROGRAM = """
import importlib, sys
from pathlib import Path

class NoQt:
    def find_spec(self, name, path=None, target=None):
        if name.partition(".")[0] in ("PySide6", "shiboken6", "PyQt6", "PyQt5", "PySide2"):
            raise ModuleNotFoundError(f"{name} is kept away", name=name)

sys.meta_path.insert(0, NoQt())
try:
    import PySide6
except ModuleNotFoundError:
    pass
else:
    sys.exit("Qt was not kept away")

for file in sorted(Path("core").rglob("*.py")):
    if file.name == "env.py":  # Alembic runs this one itself, with a context of its own
        continue
    name = ".".join(file.with_suffix("").parts).removesuffix(".__init__")
    importlib.import_module(name)
    print(name)
"""


def test_core_is_importable_without_qt():
    done = subprocess.run(
        [sys.executable, "-W", "error", "-c", PROGRAM],
        cwd=ROOT,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        capture_output=True,
        text=True,
        timeout=100,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    imported = set(done.stdout.split())
    rooms = {folder.name for folder in (ROOT / "core").iterdir() if any(folder.glob("*.py"))}
    assert {name.split(".")[1] for name in imported if "." in name} == rooms
