"""The registry: loaded late, exact, and at work wherever its cache cannot be."""

import pickle
import subprocess
import sys
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

import platformdirs
import pytest

from core.measures import units
from core.measures.unit_names import SYSTEMS, UNITS, unit_named
from core.measures.units import cache_folder, factor, registry


@pytest.fixture
def _fresh() -> Iterator[None]:
    registry.cache_clear()
    factor.cache_clear()
    yield
    registry.cache_clear()
    factor.cache_clear()


@pytest.fixture
def caches(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, _fresh: None) -> Path:
    monkeypatch.setattr(platformdirs, "user_cache_dir", lambda name, **_: str(tmp_path / name))
    return tmp_path / "cookday" / "units"


def test_measures_are_imported_without_the_registry() -> None:
    loaded = "import sys, core.measures; print(*[m for m in ('pint', 'platformdirs') if m in sys.modules])"
    root = Path(units.__file__).parents[2]
    done = subprocess.run(
        [sys.executable, "-c", loaded], cwd=root, capture_output=True, text=True, check=True
    )
    assert done.stdout.split() == []


def test_every_unit_is_in_the_registry_in_its_kind() -> None:
    base = {"weight": "g", "volume": "ml", "length": "mm"}
    for name, unit in UNITS.items():
        if unit.kind in base:
            assert factor(name, base[unit.kind]) > 0


@pytest.mark.usefixtures("_fresh")
def test_what_most_plans_are_written_in_is_the_registrys_without_asking_it(monkeypatch: pytest.MonkeyPatch) -> None:
    ends = ("gram", "liter", "meter", "teaspoon", "tablespoon")
    plain = [name for name, unit in UNITS.items() if unit.registered.endswith(ends) and " " not in name]
    pairs = [(one, two) for one in plain for two in plain if UNITS[one].kind == UNITS[two].kind]
    convert = registry().convert
    told = {(one, two): convert(Fraction(1), UNITS[one].registered, UNITS[two].registered) for one, two in pairs}
    monkeypatch.setattr(units, "registry", lambda: pytest.fail("The registry was asked."))
    assert {pair: factor(*pair) for pair in pairs} == told
    assert len(pairs) == 3 * 3 + 6 * 6 + 2 * 2


def test_every_spelling_names_one_unit() -> None:
    spelt: dict[str, str] = {}
    for name, unit in UNITS.items():
        for spelling in {name, unit.many, *unit.spellings}:
            assert spelt.setdefault(spelling.casefold(), name) == name
            assert unit_named(spelling) == name


def test_units_of_systems_are_units() -> None:
    for named in SYSTEMS.values():
        for plain, meant in named.items():
            assert UNITS[plain].kind == UNITS[meant].kind


def test_factors_are_exact_fractions() -> None:
    assert factor("lb", "g") == Fraction("453.59237")
    assert factor("pinch", "tsp") == Fraction(1, 16)
    assert factor("dash", "tsp") == Fraction(1, 8)
    assert 4 * factor("stick", "lb") == 1
    assert factor("metric cup", "ml") == 250
    assert factor("AU tbsp", "ml") == 20


def test_the_cache_is_written_and_read_again(caches: Path) -> None:
    assert factor("cup", "ml") == Fraction("236.5882365")
    kept = sorted(caches.glob("*.pickle"))
    assert kept
    assert not (caches / "probe").exists()
    registry.cache_clear()
    factor.cache_clear()
    assert factor("cup", "ml") == Fraction("236.5882365")
    assert sorted(caches.glob("*.pickle")) == kept


def test_without_a_folder_that_can_be_written_there_is_no_cache(caches: Path) -> None:
    caches.parent.write_text("a file where the folder should be", encoding="utf-8")
    assert cache_folder() is None
    assert factor("cup", "ml") == Fraction("236.5882365")
    assert caches.parent.is_file()


def test_a_folder_that_takes_no_files_is_no_cache(caches: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(*_: object) -> int:
        raise OSError("No space left on device")

    monkeypatch.setattr(Path, "write_bytes", full)
    assert cache_folder() is None


@pytest.mark.parametrize("spoilt", [b"", b"not a pickle", pickle.dumps({"some": "other thing"})])
def test_a_spoilt_cache_is_passed_over(caches: Path, spoilt: bytes) -> None:
    assert factor("cup", "ml") == Fraction("236.5882365")
    for kept in caches.glob("*.pickle"):
        kept.write_bytes(spoilt)
    registry.cache_clear()
    factor.cache_clear()
    assert factor("lb", "g") == Fraction("453.59237")
