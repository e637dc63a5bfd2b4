"""What is wrong in a written plan: every fault at once, each with its place and the mend."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from types import UnionType
from typing import Annotated, Any, Union, get_args, get_origin

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from core.intake.text.entry import said_of
from core.intake.text.nearest import did_you_mean, nearest
from core.measures.refusal import Refusal, quoted
from core.measures.words import join_words, plural

Place = tuple[str | int, ...]
"""Keys and numbers that lead to a value: ("dish", "gratin", "step", "bake", "oven")."""
Lines = Mapping[Place, int]
"""Line of the text, from 1, of each place that has one."""

_NAMED = ("dish", "step", "station", "vessel", "cook")


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing wrong: where, and a sentence with the mend."""

    place: Place
    sentence: str


class TextRefusal(Refusal):
    """A written plan with faults; its text names them all, one to a line."""

    def __init__(self, faults: tuple[Fault, ...], lines: Lines, file: str = "") -> None:
        """Put the faults in the order of the text."""
        self.faults = tuple(sorted(dict.fromkeys(faults), key=lambda fault: line_of(fault.place, lines)))
        self.lines = lines
        told = [told_fault(fault, lines) for fault in self.faults]
        if len(told) == 1:
            super().__init__(f"{file}: {told[0]}" if file else told[0])
            return
        head = f"{plural(len(told), 'thing')} to mend in {file or 'this plan'}:"
        super().__init__("\n".join([head, *told]))

    def named(self, file: str) -> TextRefusal:
        """Return the same refusal with the name of the file."""
        return TextRefusal(self.faults, self.lines, file)


def line_of(place: Place, lines: Lines) -> int:
    """Return the line of a place, or of what it stands in; 0 when even that has none."""
    for length in range(len(place), 0, -1):
        if place[:length] in lines:
            return lines[place[:length]]
    return 0


def told_fault(fault: Fault, lines: Lines) -> str:
    """Return the sentence of a fault with its place before it."""
    line = line_of(fault.place, lines)
    where = [*([f"line {line}"] if line else []), *spoken(fault.place)]
    words = ", ".join(where)
    return f"{words[:1].upper()}{words[1:]}: {fault.sentence}" if words else fault.sentence


def spoken(place: Place) -> list[str]:
    """Return a place in words: dish gratin, step bake, oven."""
    found: list[str] = []
    rest = list(place)
    while rest:
        key = rest.pop(0)
        if key in _NAMED and rest and isinstance(rest[0], str):
            found.append(f"{key} {rest.pop(0)}")
        elif isinstance(key, int):
            found.append(f"number {key + 1}")
        else:
            found.append(str(key))
    return found


# ---------------------------------------------------------------- from pydantic


def faults_of(error: ValidationError, root: type[BaseModel], data: Any) -> Iterator[Fault]:
    """Yield a fault for each error; `data` is what was typed, so that places name what is there."""
    errors = error.errors(include_url=False)
    misspelt = {
        (each["loc"][:-1], _meant(each, root)) for each in errors if each["type"] == "extra_forbidden"
    }
    for each in errors:
        if each["type"] == "missing" and (each["loc"][:-1], each["loc"][-1]) in misspelt:
            continue  # its misspelling is a fault of its own
        place = typed_place(each["loc"], data)
        extra = each["type"] in ("extra_forbidden", "missing")
        yield Fault(place, _sentence(each, root) if extra else _value_sentence(each))


def typed_place(loc: Place, data: Any) -> Place:
    """Return the part of a place that was typed: a short line has no parts of its own."""
    found: list[str | int] = []
    for key in loc:
        inside = _keys_of(data)
        if key in inside:
            data = inside[key]
            found.append(key)
        elif not isinstance(key, int):  # a single entry that was typed without brackets has a number here
            break
    return tuple(found)


def _keys_of(data: Any) -> Mapping[str | int, Any]:
    if isinstance(data, dict):
        return data
    return dict(enumerate(data)) if isinstance(data, list) else {}


def _sentence(error: ErrorDetails, root: type[BaseModel]) -> str:
    key = str(error["loc"][-1])
    model = model_at(error["loc"][:-1], root)
    if error["type"] == "missing":
        about = (model.model_fields[key].description or said_of(model).get(key, "")).rstrip(".") if model else ""
        said = f" ({about[:1].lower()}{about[1:]})" if about else ""
        return f"The key {key}{said} is missing; add it."
    known = list(model.model_fields) if model else []
    if _meant(error, root):
        return f"The key {key} is not known here; {did_you_mean(key, known)}"
    return f"The key {key} is not known here; take it out, or use {_either(known)}."


def _meant(error: ErrorDetails, root: type[BaseModel]) -> str | None:
    """Return the key that was probably meant by one that is not known."""
    model = model_at(error["loc"][:-1], root)
    return nearest(str(error["loc"][-1]), model.model_fields) if model else None


def _either(known: list[str]) -> str:
    return join_words(known).replace(" and ", " or ")


def model_at(loc: Place, root: type[BaseModel]) -> type[BaseModel] | None:
    """Return the kind of table that stands at a place."""
    found: Any = root
    for key in loc:
        if isinstance(found, type) and issubclass(found, BaseModel):
            field = found.model_fields.get(str(key))
            found = None if field is None else _bare(field.annotation)
        elif get_origin(found) in (list, dict):
            found = _bare(get_args(found)[-1])
        else:
            return None
    return found if isinstance(found, type) and issubclass(found, BaseModel) else None


def _bare(annotation: Any) -> Any:
    """Return a type without what says that it may be missing and how it is read."""
    origin = get_origin(annotation)
    if origin is Annotated:
        return _bare(get_args(annotation)[0])
    if origin in (Union, UnionType):
        return _bare(next(each for each in get_args(annotation) if each is not type(None)))
    return annotation


_WANTED: dict[str, str] = {
    "string_type": 'write text in quotes, such as "text"',
    "int_type": "write a whole number, without quotes",
    "int_from_float": "write a whole number",
    "float_type": "write a number",
    "bool_type": "write true or false, without quotes",
    "list_type": "write a list in square brackets",
    "dict_type": "write a table",
    "model_type": "write it as text in quotes or as a table",
}


def _value_sentence(error: ErrorDetails) -> str:
    if not error["loc"]:
        return f"{_typed(error['input'])} is not a plan; begin with its name and plating."
    raised = error.get("ctx", {}).get("error")
    if isinstance(raised, Refusal):
        return raised.text
    wanted = _WANTED.get(error["type"], f"the value does not fit ({error['msg']})")
    return f"{_typed(error['input'])} does not fit here; {wanted}."


_TYPED: tuple[tuple[type | tuple[type, ...], Callable[[Any], str]], ...] = (
    (bool, lambda value: "true" if value else "false"),
    ((int, float), str),
    (str, quoted),
    (list, lambda _value: "A list"),
    (dict, lambda _value: "A table"),
)


def _typed(value: Any) -> str:
    for types, words in _TYPED:
        if isinstance(value, types):
            return words(value)
    return quoted(str(value))
