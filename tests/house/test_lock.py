"""The locks name one tested version of everything, with hashes and without any place to fetch it from."""

import re
import tomllib
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

ROOT = Path(__file__).parents[2]
LOCKS = ["requirements.lock", "requirements-data.lock", "requirements-bench.lock"]


def locked(text):
    """Give every requirement of a lock with its hashes."""
    for line in re.sub(r"\\\n", " ", text).splitlines():
        words = line.partition(" #")[0].strip()
        if words and not words.startswith("#"):
            requirement, *hashes = re.split(r"\s+--hash=", words)
            yield Requirement(requirement), [value.strip() for value in hashes]


def read(name):
    return (ROOT / name).read_text(encoding="utf-8")


@pytest.mark.parametrize("name", LOCKS)
def test_everything_is_one_version_with_hashes(name):
    entries = list(locked(read(name)))
    assert entries
    for requirement, hashes in entries:
        one_version = re.fullmatch(r"==[0-9][^,*]*", str(requirement.specifier))
        assert one_version, f"{requirement} is not one version"
        assert not requirement.url, f"{requirement} names a place"
        assert hashes, f"{requirement} has no hash"
        assert all(re.fullmatch(r"sha256:[0-9a-f]{64}", value) for value in hashes), requirement


@pytest.mark.parametrize("name", LOCKS)
def test_no_place_to_fetch_from(name):
    for line in read(name).splitlines():
        assert not re.match(r"\s*-(?!-hash=)", line), f"an option: {line}"
        assert "://" not in line, line


def test_the_lock_is_of_this_project():
    project = tomllib.loads(read("pyproject.toml"))["project"]
    versions = {
        canonicalize_name(entry.name): str(entry.specifier).removeprefix("==")
        for entry, _ in locked(read(LOCKS[0]))
    }
    for text in project["dependencies"] + project["optional-dependencies"]["test"]:
        requirement = Requirement(text)
        version = versions.get(canonicalize_name(requirement.name))
        assert version, f"{requirement.name} is not in the lock: make lock"
        assert requirement.specifier.contains(version), f"lock has {requirement.name} {version}: make lock"


def test_the_reading_itself():
    text = (
        "# made by hand\n"
        "salt==1.2 ; sys_platform == 'win32' \\\n    --hash=sha256:ab \\\n    --hash=sha256:cd\n    # via soup\n"
    )
    [(requirement, hashes)] = locked(text)
    assert (requirement.name, str(requirement.specifier)) == ("salt", "==1.2")
    assert hashes == ["sha256:ab", "sha256:cd"]
