"""What is in the repository tells nothing of the machine it was written on, nor where packages were fetched."""

import re
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]

# written in two halves, so that this file does not find itself
PLACES = {
    "a folder of one machine": [
        "/wo" + r"rk/\w", "/ro" + r"ot/\w", "/ho" + r"me/\w", "/Us" + r"ers/\w", r"[A-Z]:\\Us" + r"ers\\", "/op" + r"t/\w",
        r"\.py" + "env",
    ],
    "a registry's address": [
        "py" + r"pi\.(org|io)", "python" + r"hosted\.org", "deb\\." + "debian", "registry\\." + "npm", "/sim" + "ple/",
        "archive\\." + "ubuntu",
    ],
    "an option that names a registry": ["--(extra-)?ind" + "ex-url", "--find" + "-links", "--trusted" + "-host"],
}  # fmt: skip


def tracked():
    """Give the files that git has or would take; without git, all that make did not make."""
    try:
        listed = subprocess.run(
            ["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard"],
            cwd=ROOT, capture_output=True, check=True,
        ).stdout.decode()  # fmt: skip
    except (OSError, subprocess.CalledProcessError):
        made = re.compile(r"(^|/)(\.venv|out|build|dist|\.git|\.\w+_cache|\.hypothesis|__pycache__|[^/]*\.egg-info)(/|$)")
        files = [path.relative_to(ROOT).as_posix() for path in ROOT.rglob("*") if path.is_file()]
        return [name for name in files if not made.search(name)]
    return [name for name in listed.split("\0") if name and (ROOT / name).is_file()]


def text_of(name):
    content = (ROOT / name).read_bytes()
    return None if b"\0" in content else content.decode("utf-8")


def telling(text):
    """Give what each telling place of a text is, with its line."""
    for what, patterns in PLACES.items():
        for number, line in enumerate(text.splitlines(), start=1):
            if any(re.search(pattern, line) for pattern in patterns):
                yield f"line {number}: {what}"


def test_no_file_tells_of_a_machine_or_a_registry():
    names = tracked()
    assert {"pyproject.toml", "requirements.lock", "Makefile", ".ci/run", "tests/house/test_tracked_files.py"} <= set(names)
    found = [f"{name}, {what}" for name in names if (text := text_of(name)) is not None for what in telling(text)]
    assert not found, "\n".join(found)


def test_scripts_may_be_run():
    for name in (".ci/run", "scripts/environment", "scripts/system-libraries"):
        assert (ROOT / name).stat().st_mode & 0o111, name


@pytest.mark.parametrize(
    "line",
    [
        "see /wo" + "rk/main/core", "cd /ro" + "ot/x", "/ho" + "me/ann/plan", "C:\\Us" + "ers\\ann",
        "https://py" + "pi.org/project", "pip install --ind" + "ex-url x", "uv --find" + "-links wheels",
    ],
)  # fmt: skip
def test_the_check_itself(line):
    assert list(telling(f"fine\n{line}\n"))
    assert not list(telling("a clock on the homepage works at the root of the option\n"))
