"""The types a field of a case can have: each reads what was written and says what it accepts.

A type turns plain data (text, numbers, lists, records) into typed values: quantities become floats in
the unit system of the code, everything else stays what it is. Whatever cannot be read raises
InputError with the full path of the field, such as `given.loads[2].value`.
"""

from __future__ import annotations

import difflib
import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any, Protocol, runtime_checkable

from structure.core.errors import InputError
from structure.core.units import DIMENSIONS, read_quantity

# Far outside anything in a house, and far inside what floating point can square and cube.
SMALLEST_POSITIVE = 1e-6
LARGEST = 1e15


@runtime_checkable
class Type(Protocol):
    """What every field type offers."""

    def read(self, value: Any, path: str, code: str) -> Any:
        """The typed value, or InputError naming `path`."""
        ...

    def fits(self, value: Any) -> bool:
        """Whether the value has the shape of this type, before its content is looked at."""
        ...

    def accepted(self) -> str:
        """What is accepted, as the end of a sentence."""
        ...

    def schema(self, code: str) -> dict[str, Any]:
        """The type as plain data, for `size --schema`."""
        ...


@dataclass(frozen=True, slots=True)
class Field:
    """One named field. A `default` is written as a case would write it and is read the same way.

    `defaults`: by code, where a code has another one, such as 400 mm in place of 16 in.
    """

    name: str
    type: Type
    required: bool = False
    default: Any = None
    doc: str = ""
    defaults: Mapping[str, Any] = field(default_factory=dict)

    def default_in(self, code: str) -> Any:
        """The default of a code, as a case would write it."""
        return self.defaults.get(code, self.default)


@dataclass(frozen=True, slots=True)
class Quantity:
    """A number with a unit, such as `12 ft 6 in`; read to a float in the unit system of the code."""

    dimension: str
    positive: bool = False
    non_negative: bool = False

    def read(self, value: Any, path: str, code: str) -> float:
        read = read_quantity(value, self.dimension, path, code)
        if self.positive and read < SMALLEST_POSITIVE:
            raise InputError(path, value, self.accepted())
        if (self.non_negative and read < 0) or abs(read) > LARGEST:
            raise InputError(path, value, self.accepted())
        # Less than a millionth is none: an overhang of that length would be divided by.
        return 0.0 if self.non_negative and read < SMALLEST_POSITIVE else read

    def fits(self, value: Any) -> bool:
        return isinstance(value, str)

    def accepted(self) -> str:
        limit = ", more than zero" if self.positive else ", zero or more" if self.non_negative else ""
        return DIMENSIONS[self.dimension].example + limit

    def schema(self, code: str) -> dict[str, Any]:
        limit = {"more_than": 0} if self.positive else {"at_least": 0} if self.non_negative else {}
        return {
            "type": "quantity",
            "dimension": self.dimension,
            "unit": DIMENSIONS[self.dimension].shown[code],
            **limit,
        }


@dataclass(frozen=True, slots=True)
class Text:
    """A short text."""

    longest: int = 200

    def read(self, value: Any, path: str, code: str) -> str:
        if not isinstance(value, str) or not value.strip() or len(value) > self.longest:
            raise InputError(path, value, self.accepted())
        return value

    def fits(self, value: Any) -> bool:
        return isinstance(value, str)

    def accepted(self) -> str:
        return f"a text of 1 to {self.longest} characters"

    def schema(self, code: str) -> dict[str, Any]:
        return {"type": "text", "longest": self.longest}


@dataclass(frozen=True, slots=True)
class Choice:
    """One of a short list of words, written exactly so."""

    options: Sequence[str]

    def read(self, value: Any, path: str, code: str) -> str:
        if not isinstance(value, str) or value not in self.options:
            raise InputError(path, value, self.accepted())
        return value

    def fits(self, value: Any) -> bool:
        return isinstance(value, str) and value in self.options

    def accepted(self) -> str:
        words = list(self.options)
        return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} or {words[-1]}"

    def schema(self, code: str) -> dict[str, Any]:
        return {"type": "choice", "options": list(self.options)}


@dataclass(frozen=True, slots=True)
class Flag:
    """true or false."""

    def read(self, value: Any, path: str, code: str) -> bool:
        if not isinstance(value, bool):
            raise InputError(path, value, self.accepted())
        return value

    def fits(self, value: Any) -> bool:
        return isinstance(value, bool)

    def accepted(self) -> str:
        return "true or false"

    def schema(self, code: str) -> dict[str, Any]:
        return {"type": "flag"}


@dataclass(frozen=True, slots=True)
class Integer:
    """A whole number within bounds."""

    min: int | None = None
    max: int | None = None

    def read(self, value: Any, path: str, code: str) -> int:
        if not self.fits(value) or not _within(value, self.min, self.max):
            raise InputError(path, value, self.accepted())
        return int(value)

    def fits(self, value: Any) -> bool:
        return isinstance(value, int) and not isinstance(value, bool)

    def accepted(self) -> str:
        return "a whole number" + _bounds(self.min, self.max)

    def schema(self, code: str) -> dict[str, Any]:
        return {"type": "integer", **_limits(self.min, self.max)}


@dataclass(frozen=True, slots=True)
class Number:
    """A plain number without a unit, within bounds; NaN and infinity are refused."""

    min: float | None = None
    max: float | None = None

    def read(self, value: Any, path: str, code: str) -> float:
        # Comparing before converting keeps an integer of thousands of digits from overflowing.
        if not self.fits(value) or not _within(value, self.min, self.max) or not -LARGEST <= value <= LARGEST:
            raise InputError(path, value, self.accepted())
        return float(value)

    def fits(self, value: Any) -> bool:
        return isinstance(value, int | float) and not isinstance(value, bool)

    def accepted(self) -> str:
        return "a number without a unit" + _bounds(self.min, self.max)

    def schema(self, code: str) -> dict[str, Any]:
        return {"type": "number", **_limits(self.min, self.max)}


@dataclass(frozen=True, slots=True)
class ListOf:
    """A list whose members are all of one type."""

    type: Type
    min: int = 0
    max: int = 200

    def read(self, value: Any, path: str, code: str) -> list[Any]:
        if not isinstance(value, list | tuple) or not self.min <= len(value) <= self.max:
            raise InputError(path, value, self.accepted())
        return [self.type.read(member, f"{path}[{n}]", code) for n, member in enumerate(value)]

    def fits(self, value: Any) -> bool:
        return isinstance(value, list | tuple)

    def accepted(self) -> str:
        return f"a list of {self.min} to {self.max}, each {self.type.accepted()}"

    def schema(self, code: str) -> dict[str, Any]:
        return {"type": "list", "of": self.type.schema(code), "min": self.min, "max": self.max}


@dataclass(frozen=True, slots=True)
class Record:
    """A record of named fields. With `open`, unknown fields are kept as they were written."""

    fields: Sequence[Field]
    open: bool = False

    def read(self, value: Any, path: str, code: str) -> dict[str, Any]:
        return read_record(self.fields, value, path, code, open=self.open)

    def fits(self, value: Any) -> bool:
        return isinstance(value, Mapping)

    def accepted(self) -> str:
        return _record_of(self.fields)

    def schema(self, code: str) -> dict[str, Any]:
        return {"type": "record", "fields": fields_schema(self.fields, code)}


@dataclass(frozen=True, slots=True)
class Variant:
    """A record whose fields depend on the word in one of them, such as the shape of a load."""

    key: str
    variants: Mapping[str, Sequence[Field]]
    common: Sequence[Field] = field(default_factory=tuple)
    open: frozenset[str] = frozenset()

    def read(self, value: Any, path: str, code: str) -> dict[str, Any]:
        if not isinstance(value, Mapping):
            raise InputError(path, value, self.accepted())
        chosen = Choice(tuple(self.variants))
        word = chosen.read(value.get(self.key), f"{path}.{self.key}", code)
        own = (Field(self.key, chosen, required=True), *self.common, *self.variants[word])
        return read_record(own, value, path, code, open=word in self.open)

    def fits(self, value: Any) -> bool:
        return isinstance(value, Mapping)

    def accepted(self) -> str:
        return f"a record whose {self.key} is {Choice(tuple(self.variants)).accepted()}"

    def schema(self, code: str) -> dict[str, Any]:
        return {
            "type": "variant",
            "key": self.key,
            "variants": {
                word: fields_schema((*self.common, *own), code) for word, own in self.variants.items()
            },
        }


@dataclass(frozen=True, slots=True, init=False)
class OneOf:
    """A value of any one of several types, tried in order."""

    types: tuple[Type, ...]

    def __init__(self, *types: Type) -> None:
        object.__setattr__(self, "types", types)

    def read(self, value: Any, path: str, code: str) -> Any:
        fitting = [each for each in self.types if each.fits(value)]
        for each in fitting:
            try:
                return each.read(value, path, code)
            except InputError:
                # Inside a record or a list the complaint about the inner field is the clearer one.
                if len(fitting) == 1 and isinstance(value, Mapping | list | tuple):
                    raise
        raise InputError(path, value, self.accepted())

    def fits(self, value: Any) -> bool:
        return any(each.fits(value) for each in self.types)

    def accepted(self) -> str:
        return "; or ".join(each.accepted() for each in self.types)

    def schema(self, code: str) -> dict[str, Any]:
        return {"type": "one_of", "types": [each.schema(code) for each in self.types]}


def read_record(
    fields: Iterable[Field], data: Any, path: str, code: str, *, open: bool = False
) -> dict[str, Any]:
    """Typed values by field name, every field present (None where absent without default).

    Raises InputError for something that is no record, an unknown field, a missing required field or
    a value that its type does not accept.
    """
    held = tuple(fields)
    if not isinstance(data, Mapping):
        raise InputError(path, data, _record_of(held))
    known = {each.name for each in held}
    for name in data:
        if name not in known and not open:
            close = difflib.get_close_matches(str(name)[:60], sorted(known), n=1)
            hint = f"; {close[0]} is close" if close else ""
            raise InputError(f"{path}.{name}"[:200], str(name), f"{_names(held)}{hint}")
    result: dict[str, Any] = {k: v for k, v in data.items() if k not in known} if open else {}
    for each in held:
        inner = f"{path}.{each.name}" if path else each.name
        written = data.get(each.name)
        if written is None:
            if each.required:
                raise InputError(inner, None, each.type.accepted())
            written = each.default_in(code)
        result[each.name] = None if written is None else each.type.read(written, inner, code)
    return result


def fields_schema(fields: Iterable[Field], code: str) -> dict[str, Any]:
    """Fields as plain data: type, unit, default, whether required, and what they mean."""
    shown: dict[str, Any] = {}
    for each in fields:
        entry = each.type.schema(code) | {"required": each.required}
        if not each.required:
            entry["default"] = each.default_in(code)
        if each.doc:
            entry["doc"] = each.doc
        shown[each.name] = entry
    return shown


def _within(value: float, low: float | None, high: float | None) -> bool:
    if isinstance(value, float) and not math.isfinite(value):
        return False
    return (low is None or value >= low) and (high is None or value <= high)


def _bounds(low: float | None, high: float | None) -> str:
    if low is not None and high is not None:
        return f" from {low:g} to {high:g}"
    if low is not None:
        return f" of {low:g} or more"
    return f" of {high:g} or less" if high is not None else ""


def _limits(low: float | None, high: float | None) -> dict[str, Any]:
    return {k: v for k, v in (("at_least", low), ("at_most", high)) if v is not None}


def _record_of(fields: Iterable[Field]) -> str:
    names = tuple(fields)
    return f"a record with {_names(names)}" if names else "a record of fields and their values"


def _names(fields: Iterable[Field]) -> str:
    names = [each.name for each in fields]
    return "the fields " + ", ".join(names) if names else "no fields"
