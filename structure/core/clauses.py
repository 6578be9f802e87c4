"""Clauses and editions as data, so that every number can say which rule made it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType


@dataclass(frozen=True, slots=True)
class ClauseRef:
    """A clause of one edition of one document, as a report prints it."""

    document: str
    edition: str
    number: str

    def __str__(self) -> str:
        return " ".join(part for part in (self._designation, self.number) if part)

    @property
    def _designation(self) -> str:
        # As each publisher writes it: NDS 2018, ACI 318-19, CSA O86:19.
        if not self.edition:
            return self.document
        if self.document.startswith("CSA"):
            return f"{self.document}:{self.edition}"
        return f"{self.document}{'-' if self.document[-1:].isdigit() else ' '}{self.edition}"


@dataclass(frozen=True, slots=True)
class Clause:
    """A clause before its edition is known. `document` is a key of `Editions.documents`."""

    document: str
    number: str

    def at(self, editions: Editions) -> ClauseRef:
        """This clause in the edition that the question is asked under."""
        return ClauseRef(self.document, editions.documents.get(self.document, ""), self.number)


@dataclass(frozen=True, slots=True)
class Editions:
    """Which edition of each document governs a question. Always passed in, never global."""

    code: str
    documents: Mapping[str, str]


US_DEFAULT = Editions(
    "us",
    MappingProxyType({"ASCE 7": "16", "NDS": "2018", "AISC 360": "16", "ACI 318": "19", "IRC": "2021"}),
)
CA_DEFAULT = Editions(
    "ca",
    MappingProxyType({"NBC": "2020", "CSA O86": "19", "CSA S16": "19", "CSA A23.3": "19"}),
)
DEFAULT_EDITIONS = MappingProxyType({"us": US_DEFAULT, "ca": CA_DEFAULT})

# Documents without an edition: what the trade does, and what nobody has looked up yet.
COMMON_PRACTICE = Clause("common practice", "")
