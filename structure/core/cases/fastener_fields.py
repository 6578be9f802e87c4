"""The `fastener` field of the kinds that ask about nails, bolts and screws."""

from __future__ import annotations

from structure.core.cases.grammars import ByCode
from structure.core.cases.types import Choice, Field, Quantity, Record, Text
from structure.core.members.plies import NAIL_NAMES

FASTENER = Record(
    (
        Field("kind", Choice(("nail", "bolt", "structural_screw")), required=True),
        Field(
            "name",
            ByCode({code: Choice(names) for code, names in NAIL_NAMES.items()}),
            doc="of a nail, in place of its sizes",
        ),
        Field("diameter", Quantity("length", positive=True), doc="of the shank"),
        Field("length", Quantity("length", positive=True), doc="of a nail or screw; a bolt goes through"),
        Field(
            "yield",
            Quantity("stress", positive=True),
            doc="yield strength; default by NDS table I1 or CSA O86 12.9.4.2",
        ),
        Field(
            "capacity",
            Quantity("force", positive=True),
            doc="stated by its maker for one shear plane in this wood, in place of the yield equations; ca: factored",
        ),
        Field("source", Text(), doc="where the stated capacity is printed"),
    )
)
