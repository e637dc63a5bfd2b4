from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path
from xml.etree import ElementTree

import pytest
from hypothesis import HealthCheck, given, settings
from PySide6.QtGui import QColor, QImage

from app.look.colours import DARK, LIGHT
from app.timeline.picture import paint_picture, split_at
from core.plan.plan import Plan
from core.timetable.on_paper import on_paper
from core.timetable.timetable import Timetable
from tests.app.timeline.feast import the_plan, the_timetable, waited_too_long
from tests.support.strategies import plans

SVG = "{http://www.w3.org/2000/svg}"


def texts_of(path: Path) -> list[str]:
    root = ElementTree.fromstring(path.read_text(encoding="utf-8"))  # noqa: S314  written a moment ago
    return ["".join(each.itertext()) for each in root.iter(f"{SVG}text")]


@pytest.mark.parametrize(("theme", "ground"), [("light", LIGHT.ground), ("dark", DARK.ground)])
def test_a_png_is_as_wide_as_asked_and_on_the_themes_ground(qapp, tmp_path: Path, theme: str, ground: str) -> None:
    path = tmp_path / "feast.png"
    paint_picture(the_plan(), the_timetable(), (), path, width=1500, theme=theme)
    image = QImage(str(path))
    assert image.width() == 1500
    assert image.height() > 400
    assert QColor(image.pixel(3, 3)).name().upper() == ground
    seen = {QColor(image.pixel(x, y)).name().upper() for x in range(0, 1500, 3) for y in range(0, image.height(), 3)}
    palette = LIGHT if theme == "light" else DARK
    for tone in palette.tones[:4]:
        assert tone.full in seen, "every dish is on it"


def test_an_svg_holds_the_words(qapp, tmp_path: Path) -> None:
    path = tmp_path / "feast.svg"
    paint_picture(the_plan(), the_timetable(), (waited_too_long(),), path, width=1600, reading="dish")
    texts = texts_of(path)
    assert "Small feast: Saturday 26 September, 19:30, 1 clash" in texts
    for word in ("Potato gratin", "Roast pork", "Green beans", "Lemon curd", "plating 19:30", "by dish"):
        assert word in texts
    assert any("Set in the fridge" in text for text in texts)


def test_days_before_and_the_day_itself_have_a_panel_each(qapp, tmp_path: Path) -> None:
    assert split_at(the_plan(), the_timetable()) == -194
    path = tmp_path / "feast.svg"
    paint_picture(the_plan(), the_timetable(), (), path, width=1600)
    assert texts_of(path).count("by station") == 2
    day = [each for each in the_timetable().placed if each.start > -200]
    assert split_at(the_plan(), Timetable(tuple(day))) is None
    paint_picture(the_plan(), Timetable(tuple(day)), (), path, width=1600)
    assert texts_of(path).count("by station") == 1


def test_the_last_hours_keep_their_width(qapp, tmp_path: Path) -> None:
    """In a feast of days the last two hours get a quarter of the picture at least."""
    from app.look.colours import palette_named
    from app.timeline.kit import Kit
    from app.timeline.picture import _panels

    panel = _panels(the_plan(), the_timetable(), (), "station", Kit(palette_named("light")), 1800.0)[-1]
    assert panel.axis.x(0) - panel.axis.x(-120) > 450


@pytest.mark.parametrize("width", [400, 20000])
def test_the_narrowest_and_the_widest(qapp, tmp_path: Path, width: int) -> None:
    path = tmp_path / "feast.png"
    paint_picture(the_plan(), the_timetable(), (), path, width=width)
    assert QImage(str(path)).width() == width


def test_nothing_placed_is_a_picture_too(qapp, tmp_path: Path) -> None:
    path = tmp_path / "feast.svg"
    paint_picture(the_plan(), Timetable(), (), path)
    assert any(text.startswith("Nothing here yet") for text in texts_of(path))


@pytest.mark.parametrize("name", ["feast.png", "feast.svg"])
def test_a_folder_that_is_not_there_is_an_error_with_its_name(qapp, tmp_path: Path, name: str) -> None:
    with pytest.raises(OSError, match="nowhere"):
        paint_picture(the_plan(), the_timetable(), (), tmp_path / "nowhere" / name)


def test_it_needs_no_window_and_no_display(tmp_path: Path) -> None:
    path = tmp_path / "feast.png"
    code = (
        "from pathlib import Path; from app.timeline.picture import paint_picture;"
        "from tests.app.timeline.feast import the_plan, the_timetable;"
        f"paint_picture(the_plan(), the_timetable(), (), Path({str(path)!r}))"
    )
    screens = ("QT_", "DISPLAY", "WAYLAND")
    environment = {name: value for name, value in os.environ.items() if not name.startswith(screens)}
    done = subprocess.run([sys.executable, "-c", code], env=environment, capture_output=True, text=True, check=False)
    assert (done.returncode, done.stderr) == (0, "")
    assert QImage(str(path)).width() == 1800


@settings(max_examples=15, suppress_health_check=[HealthCheck.too_slow, HealthCheck.function_scoped_fixture])
@given(plan=plans())
def test_any_feast_can_be_painted(qapp, tmp_path: Path, plan: Plan) -> None:
    path = tmp_path / "any.png"
    for reading in ("station", "dish"):
        paint_picture(plan, on_paper(plan), (), path, width=900, reading=reading)
    assert QImage(str(path)).width() == 900
