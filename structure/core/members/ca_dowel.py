"""One nail loaded sideways under the Canadian code, as plain data. CSA O86:19 12.9. N, mm, MPa."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from structure.core.clauses import Editions
from structure.core.codes.ca import fasteners as o86
from structure.core.errors import InputError, OutOfScope
from structure.core.members.ca_fastener import Piece, held, make_fastener, nail_value, relative_density
from structure.core.units import quantity


def answer(given: Mapping[str, Any], editions: Editions) -> dict[str, Any]:
    """The result of the `dowel` kind.

    Raises OutOfScope for steel, rows of bolts, bolts and screws without a stated resistance, and for a nail that is
    too short or a piece too thin; InputError for what cannot be meant.
    """
    try:
        fastener = make_fastener(given["fastener"], editions)
    except InputError as error:
        raise error.under("fastener") from None
    if given["row"] is not None:
        raise OutOfScope(o86.BOLTS.at(editions), "several fasteners in line with the load: the engineer's")
    main, side = _piece(given["main"], "main", editions), _piece(given["side"], "side", editions)
    double, K_D = given["shear"] == "double", given["duration"]
    found = nail_value(fastener, side, main, editions, double=double)
    phi = 1.0 if fastener.capacity is not None else o86.PHI
    step = o86.lateral_resistance.step(editions, phi=phi, n_u=found.n_u, K_D=K_D, n_s=2.0 if double else 1.0)
    return {
        "fastener": fastener.as_data(),
        "nu": quantity(found.n_u, "force", "ca"),
        "resistance": quantity(step.result, "force", "ca"),
        "adjusted": quantity(step.result, "force", "ca"),
        "mode": found.mode,
        "modes": {name: quantity(value, "force", "ca") for name, value in found.modes.items()},
        "factors": {"phi": phi, "KD": K_D},
        "penetration": None if found.penetration is None else quantity(found.penetration, "length", "ca"),
        "clause": str(o86.LATERAL.at(editions)),
        "sources": list(held().sources),
        "steps": [each.as_data() for each in (*found.steps, step)],
        "remarks": ([fastener.mark] if fastener.mark else [])
        + ["Dry, untreated wood, driven into side grain, not at a slant."],
    }


def _piece(read: Mapping[str, Any], name: str, editions: Editions) -> Piece:
    if read["Fu"] is not None:
        raise OutOfScope(o86.MODES.at(editions), f"{name}: nails through steel plates are not covered")
    told = [key for key in ("species", "specific_gravity") if read[key] is not None]
    if len(told) != 1:
        raise InputError(name, " and ".join(told) or None, "one of species and specific_gravity")
    try:
        G = read["specific_gravity"] if read["species"] is None else relative_density(read["species"])
    except InputError as error:
        raise error.under(name) from None
    return Piece(G, read["thickness"])
