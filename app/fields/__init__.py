"""Small inputs of the places: declared fields, forms and rows made from them, texts read and shown."""

from app.fields.buttons import a_button, with_key
from app.fields.columns import Columns
from app.fields.draft import Draft
from app.fields.dress import dress_fields, dress_inside
from app.fields.entered import Entered
from app.fields.form import Form
from app.fields.in_view import bring_into_view
from app.fields.leaves import Leaves
from app.fields.line import Line
from app.fields.making import finish_typing
from app.fields.page import Page
from app.fields.paragraph import Paragraph
from app.fields.part import Part, attribute, by_key, values_of
from app.fields.pick import Pick
from app.fields.reading import Reading
from app.fields.reading_order import tab_as_read
from app.fields.row import Row
from app.fields.rows import Rows
from app.fields.spec import Picked, Spec, Ticked, Typed, Weighed, Written
from app.fields.trying import tried

__all__ = [
    "Columns",
    "Draft",
    "Entered",
    "Form",
    "Leaves",
    "Line",
    "Page",
    "Paragraph",
    "Part",
    "Pick",
    "Picked",
    "Reading",
    "Row",
    "Rows",
    "Spec",
    "Ticked",
    "Typed",
    "Weighed",
    "Written",
    "a_button",
    "attribute",
    "bring_into_view",
    "by_key",
    "dress_fields",
    "dress_inside",
    "finish_typing",
    "tab_as_read",
    "tried",
    "values_of",
    "with_key",
]
