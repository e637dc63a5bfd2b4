"""The leaf of sheets to print, shown for a test, and its pages as poppler reads them."""

from __future__ import annotations

import re
import subprocess
from datetime import datetime
from pathlib import Path

from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from app.bridge import OpenPlan
from app.places.paper import PrintLeaf
from core.desk import Desk
from core.measures.quantity import parse_quantity
from core.plan.ids import CookId
from core.plan.kitchen import Cook, StationKind
from core.plan.menu import Ingredient
from core.plan.step import Attention
from core.sheets.kinds import SheetKind
from core.timetable.on_paper import on_paper
from tests.support.builders import a_dish, a_kitchen, a_link, a_plan, a_step, a_use, an_oven, burners

A4, LETTER = (595, 842), (612, 792)  # points: ISO 216 A4 210 x 297 mm; 8.5 x 11 in


def a_supper():
    """Return two dishes for two cooks, an oven and burners."""
    cut = a_step("soup.cut", "Cut the leeks", 15, attention=Attention.HANDS_ON)
    boil = a_step("soup.boil", "Boil the leeks", 40, attention=Attention.HANDS_OFF, uses=(a_use(StationKind.BURNER),))
    oven = a_use(StationKind.OVEN, heat=200)
    bake = a_step("tart.bake", "Bake the tart", 35, attention=Attention.HANDS_OFF, uses=(oven,))
    soup = a_dish("soup", cut, boil, ingredients=(Ingredient("leeks", parse_quantity("600 g")),))
    cooks = (Cook(CookId("ann"), "Ann"), Cook(CookId("ben"), "Ben"))
    kitchen = a_kitchen(cooks=cooks, stations=(an_oven(), *burners(2)))
    return a_plan(soup, a_dish("tart", bake), links=(a_link(cut.id, boil.id),), kitchen=kitchen)
CTRL, ALT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.AltModifier


def shown_leaf(qtbot):
    """Return what shows a plan's sheets to print, with the timetable counted back on paper.

    `recall` is what was remembered, into `kept` goes what is to be.
    """

    def show(plan=None, arranged=True, recall="", kept=None, passing=False):
        plan = a_supper() if plan is None else plan
        opened = OpenPlan(Desk(plan))
        if arranged:
            assert opened.show(on_paper(plan), "as on paper")
        leaf = PrintLeaf(opened, recall, (kept if kept is not None else []).append, lambda: MADE)
        if not passing:
            qtbot.addWidget(leaf)
        leaf.resize(1150, 640)
        leaf.show()
        qtbot.waitExposed(leaf)
        leaf.activateWindow()
        qtbot.waitUntil(lambda: QApplication.activeWindow() is leaf)
        settled(qtbot, leaf)
        return leaf, opened

    return show


MADE = datetime.fromisoformat("2026-09-20T14:05:00+00:00")


def settled(qtbot, leaf):
    qtbot.waitUntil(lambda: not leaf._stale and not leaf.setting.busy, timeout=20_000)


def click(button):
    assert button.isVisible()
    QTest.mouseClick(button, Qt.MouseButton.LeftButton)


def row(leaf, kind):
    return leaf.choosing.list.visualItemRect(leaf.choosing.list.item(list(SheetKind).index(kind)))


def tick(qtbot, leaf, kind):
    place = row(leaf, kind)
    QTest.mouseClick(leaf.choosing.list.viewport(), Qt.MouseButton.LeftButton, pos=QPoint(20, place.center().y()))
    settled(qtbot, leaf)


def look_at(qtbot, leaf, kind):
    QTest.mouseClick(leaf.choosing.list.viewport(), Qt.MouseButton.LeftButton, pos=row(leaf, kind).center())
    settled(qtbot, leaf)


def words_of(path: Path) -> list[str]:
    """Return the text of each page, as poppler reads it."""
    text = subprocess.run(["pdftotext", "-raw", path, "-"], capture_output=True, check=True).stdout.decode()
    return [" ".join(page.split()) for page in text.split("\f")[:-1]]


def sizes_of(path: Path) -> list[tuple[int, int]]:
    said = subprocess.run(["pdfinfo", "-l", "999", path], capture_output=True, check=True).stdout.decode()
    found = re.findall(r"Page +\d+ size: +([\d.]+) x ([\d.]+)", said)
    return [(round(float(wide)), round(float(high))) for wide, high in found]


def kept_pages(leaf, folder) -> Path:
    path = folder / "kept.pdf"
    leaf.keep_pdf(path)
    return path


def count_of(pdf: bytes) -> int:
    said = subprocess.run(["pdfinfo", "-"], input=pdf, capture_output=True, check=True).stdout.decode()
    return int(re.search(r"Pages: +(\d+)", said)[1])


def made_words():
    at = MADE.astimezone()
    return f"made {at.day} {at:%b %Y, %H:%M}"
