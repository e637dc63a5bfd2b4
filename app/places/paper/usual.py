"""What is chosen before the cook chose anything: the paper of the country."""

from __future__ import annotations

from PySide6.QtCore import QLocale

from app.places.paper.choice import Choice, usual_paper


def usual_choice() -> Choice:
    """Return the usual choice where the window stands."""
    return Choice(paper=usual_paper(QLocale.territoryToCode(QLocale().territory())))
