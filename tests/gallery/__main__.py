"""Write every view as a picture: python -m tests.gallery [--to out/gallery] [--approve].

Look at them all, in light and dark; with --approve what stands where in them, and how dark each place of a page is,
becomes what the tests ask for.
"""

from __future__ import annotations

import argparse
import os
import sys
from pathlib import Path

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PySide6.QtWidgets import QApplication

from app.timeline import Timeline
from tests.gallery.sheet_pages import drawn, sheet_views, write_approved, write_pictures
from tests.gallery.views import approved, shown, structure, views, write_structure


def main() -> None:
    """Write the pictures and, if they are approved, their structure."""
    parser = argparse.ArgumentParser(prog="python -m tests.gallery", description=__doc__)
    parser.add_argument("--to", type=Path, default=Path("out/gallery"))
    parser.add_argument("--approve", action="store_true")
    chosen = parser.parse_args()
    chosen.to.mkdir(parents=True, exist_ok=True)
    application = QApplication.instance() or QApplication(["gallery"])
    timeline = Timeline()
    timeline.show()
    for view in views():
        for theme in ("light", "dark"):
            shown(view, timeline, theme)
            application.processEvents()
            timeline.grab().save(str(chosen.to / f"{view.name}-{theme}.png"))
        if chosen.approve:
            shown(view, timeline)
            write_structure(structure(timeline), approved(view))
    for sheet in sheet_views():
        write_pictures(sheet, chosen.to)
        if chosen.approve:
            write_approved(sheet.approved, drawn(sheet.pdf()))
    sys.stdout.write(f"{2 * len(list(views()))} pictures of the timeline and every page of the sheets in {chosen.to}\n")


if __name__ == "__main__":
    main()
