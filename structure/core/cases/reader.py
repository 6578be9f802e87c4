"""What a kind module imports to declare its fields and read what was given."""

from __future__ import annotations

from structure.core.cases.grammars import (
    BEAM_OVERHANG,
    LOAD_CASE,
    LOADS,
    POST_LOADS,
    SECTION,
    SPANS,
    read_line,
    read_loads,
    read_post_loads,
    read_section,
)
from structure.core.cases.kind import Kind, Result
from structure.core.cases.types import (
    Choice,
    Field,
    Flag,
    Integer,
    ListOf,
    Number,
    OneOf,
    Quantity,
    Record,
    Text,
    Type,
    Variant,
    fields_schema,
    read_record,
)

__all__ = [
    "BEAM_OVERHANG",
    "LOADS",
    "LOAD_CASE",
    "POST_LOADS",
    "SECTION",
    "SPANS",
    "Choice",
    "Field",
    "Flag",
    "Integer",
    "Kind",
    "ListOf",
    "Number",
    "OneOf",
    "Quantity",
    "Record",
    "Result",
    "Text",
    "Type",
    "Variant",
    "fields_schema",
    "read_line",
    "read_loads",
    "read_post_loads",
    "read_record",
    "read_section",
]
