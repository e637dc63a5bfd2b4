from __future__ import annotations

import json
from pathlib import Path

import pytest

from core.store import forget, recent_plans, remember


def names(paths: tuple[Path, ...]) -> list[str]:
    return [each.name for each in paths]


def test_no_list_is_an_empty_list(tmp_path: Path) -> None:
    assert recent_plans(tmp_path / "none") == ()


def test_the_newest_comes_first_and_none_twice(tmp_path: Path) -> None:
    for name in ("a", "b", "c", "a"):
        remember(tmp_path / name, tmp_path / "state")
    assert recent_plans(tmp_path / "state") == (tmp_path / "a", tmp_path / "c", tmp_path / "b")
    assert names(tuple((tmp_path / "state").iterdir())) == ["recent.json"]


def test_ten_are_remembered(tmp_path: Path) -> None:
    for number in range(13):
        remember(tmp_path / str(number), tmp_path)
    assert names(recent_plans(tmp_path)) == [str(number) for number in range(12, 2, -1)]


def test_files_are_forgotten_one_by_one_or_all(tmp_path: Path) -> None:
    for name in ("a", "b", "c"):
        remember(tmp_path / name, tmp_path)
    assert names(forget(tmp_path / "b", tmp_path)) == ["c", "a"]
    assert forget(folder=tmp_path) == ()
    assert recent_plans(tmp_path) == ()


def test_a_relative_path_is_remembered_whole(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    assert remember(Path("feast.cookday"), tmp_path) == (tmp_path / "feast.cookday",)


@pytest.mark.parametrize(
    "content",
    [b"", b"{", b"\xff\xfe", b"[]", b'{"files": 7}', b'{"files": {"a": 1}}', b"null", b"[" * 100_000],
)
def test_a_broken_list_is_an_empty_one_and_mended_by_the_next(tmp_path: Path, content: bytes) -> None:
    (tmp_path / "recent.json").write_bytes(content)
    assert recent_plans(tmp_path) == ()
    assert names(remember(tmp_path / "a", tmp_path)) == ["a"]
    assert names(recent_plans(tmp_path)) == ["a"]


def test_what_is_no_path_is_passed_over(tmp_path: Path) -> None:
    said = {"files": [7, "", None, "/b", "a\0b", "/b", *[f"/{number}" for number in range(20)]]}
    (tmp_path / "recent.json").write_text(json.dumps(said))
    assert names(recent_plans(tmp_path)) == ["b", *[str(number) for number in range(9)]]


def test_a_list_that_cannot_be_written_stops_nobody(tmp_path: Path) -> None:
    (tmp_path / "taken").write_text("a file")
    assert remember(tmp_path / "a", tmp_path / "taken") == ()
    (tmp_path / "state" / "recent.json").mkdir(parents=True)
    assert remember(tmp_path / "a", tmp_path / "state") == ()
    assert names(tuple((tmp_path / "state").iterdir())) == ["recent.json"]


def test_the_list_lies_in_the_users_state_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("platformdirs.user_state_path", lambda name, appauthor: tmp_path / name)
    remember(tmp_path / "a")
    assert (tmp_path / "cookday" / "recent.json").exists()
    assert names(recent_plans()) == ["a"]
