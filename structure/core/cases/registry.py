"""The kinds of case by name, and the one function that answers a case."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from importlib import import_module
from typing import Any

from structure.core.cases.kind import Kind
from structure.core.cases.types import Choice, Field, OneOf, Record, Text, read_record
from structure.core.clauses import DEFAULT_EDITIONS, Clause, ClauseRef, Editions
from structure.core.errors import InputError, OutOfScope

KIND_NAMES = (
    "statics",
    "beam",
    "post",
    "bearing",
    "footing",
    "shoring",
    "takedown",
    "offset",
    "design_values",
    "snow",
    "loadpath",
    "wall",
    "existing_pad",
    "pile",
    "dowel",
    "ply_fastening",
    "headroom",
    "hangers",
    "carry_in",
    "squash_blocks",
    "scope",
)
_CODE_DOCUMENT = {"us": Clause("IRC", ""), "ca": Clause("NBC", "")}


class _Kinds(Mapping[str, Kind]):
    """Every kind by its name; a kind's module is imported when it is first asked for."""

    def __getitem__(self, name: str) -> Kind:
        if name not in KIND_NAMES:
            raise KeyError(name)
        return _load(name)

    def __iter__(self) -> Iterator[str]:
        return iter(KIND_NAMES)

    def __len__(self) -> int:
        return len(KIND_NAMES)


@cache
def _load(name: str) -> Kind:
    kind: Kind = import_module(f"structure.core.cases.{name}").KIND
    return kind


KINDS: Mapping[str, Kind] = _Kinds()


@dataclass(frozen=True, slots=True)
class Free:
    """Whatever is written: the engine makes nothing of it."""

    def read(self, value: Any, path: str, code: str) -> Any:
        return value

    def fits(self, value: Any) -> bool:
        return True

    def accepted(self) -> str:
        return "anything"

    def schema(self, code: str) -> dict[str, Any]:
        return {"type": "anything"}


_CASE_FIELDS = (
    Field("id", Free(), doc="free"),
    Field("title", Free(), doc="free"),
    Field("source", Free(), doc="where the numbers come from; `common practice` or `memory` first if so"),
    Field("kind", Choice(KIND_NAMES), required=True),
    Field("code", Choice(tuple(DEFAULT_EDITIONS)), required=True),
    Field(
        "edition",
        OneOf(Record((), open=True), Text()),
        doc='edition by document, such as {NDS: "2018"} or "NDS 2018, ASCE 7-16"',
    ),
    Field("given", Record((), open=True), required=True),
)


def run_case(case: Any) -> dict[str, Any]:
    """Answer one case: its result as plain data with `status` ok or refused.

    A refusal carries `clause` and `reason`. Raises InputError, with the path of the field, for input
    that cannot be used.
    """
    if isinstance(case, Mapping):
        case = {k: v for k, v in case.items() if k != "expect"}
    read = read_record(_CASE_FIELDS, case, "case", "us")
    kind, code = KINDS[read["kind"]], read["code"]
    try:
        editions = read_editions(read["edition"], code)
        if code not in kind.solve:
            clause = _CODE_DOCUMENT[code].at(editions)
            raise OutOfScope(clause, f"not covered yet: {kind.name} under code {code}")
        given = read_record(kind.fields_of(code), read["given"], "given", code)
        result = kind.solve[code](given, editions)
    except OutOfScope as refusal:
        return refused(refusal.clause, refusal.reason)
    except InputError as error:
        # Deep in a member a field is named from there; the reader knows it from `given` on.
        known = error.field.startswith(("given", "edition"))
        raise (error if known else error.under("given")) from None
    return {"status": "ok"} | result


def refused(clause: ClauseRef, reason: str) -> dict[str, Any]:
    """The result of a question that the rules held here do not cover."""
    return {"status": "refused", "clause": str(clause), "reason": reason}


def read_editions(written: Mapping[str, Any] | str | None, code: str) -> Editions:
    """The editions of a case. Only the default edition of each document is held so far.

    Raises InputError for an unknown document and OutOfScope for another edition of a known one.
    """
    held = DEFAULT_EDITIONS[code]
    named = _named_editions(written, held) if isinstance(written, str) else (written or {})
    for document, edition in named.items():
        if document not in held.documents:
            raise InputError(f"edition.{document}"[:200], edition, Choice(tuple(held.documents)).accepted())
        if str(edition) != held.documents[document]:
            raise OutOfScope(
                ClauseRef(document, str(edition)[:20], ""),
                f"only edition {held.documents[document]} of {document} is held",
            )
    return held


def _named_editions(text: str, held: Editions) -> dict[str, str]:
    """`NDS 2018, ASCE 7-16` by document; the name of a code alone, such as `us`, is its default."""
    found: dict[str, str] = {}
    for part in text.replace(";", ",").split(","):
        name = part.strip()
        document = next((each for each in held.documents if name.startswith(each)), None)
        edition = name[len(document) :].strip(" -:") if document else ""
        if name == held.code:
            continue
        if document is None or not edition:
            raise InputError("edition", text, 'editions by document, such as "NDS 2018, ASCE 7-16"')
        found[document] = edition
    return found
