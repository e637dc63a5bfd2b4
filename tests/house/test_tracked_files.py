"""What is in the repository tells nothing of the machine it was written on, nor where packages come from."""

import re
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]

# a letter in brackets, so that this file does not find itself
PLACES = {
    "a folder of one machine": r"/wor[k]/\w|/roo[t]/\w|/hom[e]/\w|/User[s]/\w|:\\User[s]\\|/op[t]/\w|\.pyen[v]",
    "a registry's address": r"pyp[i]\.(org|io)|pythonhoste[d]\.org|deb\.debia[n]|registry\.np[m]|/simpl[e]/",
    "an option that names a registry": r"--(extra-)?index-ur[l]|--find-link[s]|--trusted-hos[t]",
}

MADE = re.compile(
    r"(^|/)(\.venv|out|build|dist|\.git|\.\w+_cache|\.hypothesis|__pycache__|[^/]*\.egg-info)(/|$)"
)


def tracked():
    """Give the files that git has or would take; without git, all that make did not make."""
    try:
        listed = subprocess.run(
            ["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard"],
            cwd=ROOT, capture_output=True, check=True,
        ).stdout.decode()  # fmt: skip
    except (OSError, subprocess.CalledProcessError):
        files = [path.relative_to(ROOT).as_posix() for path in ROOT.rglob("*") if path.is_file()]
        return [name for name in files if not MADE.search(name)]
    return [name for name in listed.split("\0") if name and (ROOT / name).is_file()]


def text_of(name):
    content = (ROOT / name).read_bytes()
    return None if b"\0" in content else content.decode("utf-8")


def telling(text):
    """Give what each telling place of a text is, with its line."""
    for number, line in enumerate(text.splitlines(), start=1):
        for what, pattern in PLACES.items():
            if re.search(pattern, line):
                yield f"line {number}: {what}"


def test_no_file_tells_of_a_machine_or_a_registry():
    names = tracked()
    assert {"pyproject.toml", "requirements.lock", ".ci/run", "tests/house/test_tracked_files.py"} <= set(
        names
    )
    texts = {name: text for name in names if (text := text_of(name)) is not None}
    found = [f"{name}, {what}" for name, text in texts.items() for what in telling(text)]
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
