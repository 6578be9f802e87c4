"""A kind of case: its fields, its result paths and the function that answers it in each code."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from structure.core.cases.types import Field, fields_schema
from structure.core.clauses import Editions
from structure.core.units import DIMENSIONS

Solve = Callable[[dict[str, Any], Editions], dict[str, Any]]


@dataclass(frozen=True, slots=True)
class Result:
    """A path into the result, its dimension (empty for a number, word or flag) and its meaning."""

    path: str
    dimension: str = ""
    doc: str = ""


@dataclass(frozen=True, slots=True)
class Kind:
    """One kind of case. `solve[code](given, editions)` returns the result as plain data.

    The solver may raise InputError (with the field path from `given.` on) and OutOfScope; whatever it
    returns gets `status: ok` unless it says otherwise. A code without a solver is refused.
    """

    name: str
    fields: Sequence[Field]
    solve: Mapping[str, Solve]
    results: Sequence[Result] = ()
    doc: str = ""
    fields_in: Mapping[str, Sequence[Field]] = field(default_factory=dict)

    def fields_of(self, code: str) -> Sequence[Field]:
        """The fields of a code: its own where `fields_in` has them, as ground snow is another thing in each."""
        return self.fields_in.get(code, self.fields)

    def schema(self, code: str = "us") -> dict[str, Any]:
        """Fields, units, defaults and result paths as plain data."""
        return {
            "kind": self.name,
            "doc": self.doc,
            "codes": sorted(self.solve),
            "fields": fields_schema(self.fields_of(code), code),
            "results": [
                {
                    "path": each.path,
                    "unit": DIMENSIONS[each.dimension].shown[code] if each.dimension else "",
                    "doc": each.doc,
                }
                for each in self.results
            ],
        }
