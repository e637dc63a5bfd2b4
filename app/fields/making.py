"""Makes the widget of a declared field."""

from __future__ import annotations

from PySide6.QtWidgets import QApplication, QSizePolicy, QWidget

from app.fields.line import Line
from app.fields.notes import Notes
from app.fields.paragraph import Paragraph
from app.fields.pick import Pick
from app.fields.reading import Reading
from app.fields.spec import Picked, Spec, Take, Ticked, Typed, Weighed
from app.fields.tick import Tick
from app.fields.weight import Weight

Field = Line | Paragraph | Pick | Tick | Weight | Notes
_LEAST_HEIGHT = 28
_USUAL_HEIGHT = 18  # px of a line at the size of type that widths are given for


def made(spec: Spec, take: Take) -> Field:
    """Return the widget of a field; it hands values to `take`, which answers "" or why not."""
    field = _made(spec, take)
    field.setObjectName(spec.key)
    field.setAccessibleName(spec.label)
    field.setMinimumHeight(_LEAST_HEIGHT)
    if not isinstance(spec.how, Ticked):
        width = round(spec.width * field.fontMetrics().height() / _USUAL_HEIGHT)
        field.setMinimumWidth(width)
        policy = field.sizePolicy()
        policy.setHorizontalPolicy(QSizePolicy.Policy.Expanding if spec.grows else QSizePolicy.Policy.Fixed)
        field.setSizePolicy(policy)
        if not spec.grows:
            field.setFixedWidth(width)
    if spec.tip:
        field.setToolTip(spec.tip)
    if isinstance(field, (Line, Paragraph, Notes)) and spec.empty:
        field.setPlaceholderText(spec.empty)
    return field


def _made(spec: Spec, take: Take) -> Field:
    how = spec.how
    if isinstance(how, Typed):
        return Paragraph(how, take) if how.wraps else Line(how, take)
    if isinstance(how, Picked):
        return Pick(how, take)
    if isinstance(how, Ticked):
        return Tick(spec.label, take)
    if isinstance(how, Weighed):
        return Weight(how, take)
    return Notes(take)


def finish_typing(top: QWidget) -> None:
    """Hand over what is being typed under a widget, as if the field was left."""
    field = QApplication.focusWidget()
    if isinstance(field, (Reading, Notes)) and top.isAncestorOf(field):
        field.commit()
