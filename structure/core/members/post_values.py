"""What a column check takes from a section: values along the grain, and across it for what it stands on."""

from __future__ import annotations

from dataclasses import dataclass

from structure.core.clauses import Editions
from structure.core.codes.us import wood_columns as nds
from structure.core.errors import InputError, OutOfScope
from structure.core.materials import Section, WoodSection, perpendicular_value
from structure.core.materials.ca_sawn import perpendicular_strength
from structure.core.trace import Step


@dataclass(frozen=True, slots=True)
class ColumnValues:
    """Reference values [psi], the size factors on F_c and F_b, and c of the stability factor."""

    F_c: float
    E_min: float
    F_b: float
    C_F: float
    C_F_bending: float
    c: float
    source: str
    remarks: tuple[str, ...]
    steps: tuple[Step, ...] = ()


def column_values(section: Section, editions: Editions) -> ColumnValues:
    """Values of a wood section used as a column; dry. NDS 4.3.1, 8.3.1.

    Raises OutOfScope where no column value is held for the material, such as LVL known only as a beam.
    """
    held = section.reference.values
    if section.family not in nds.C_BY_FAMILY or not isinstance(section, WoodSection):
        raise OutOfScope(
            nds.STABILITY.at(editions), f"not covered yet: posts of {section.family or 'this material'}"
        )
    # Glued laminated timber has two such moduli; the lower one serves both axes.
    stiffness = section.stability_value
    missing = [name for name in ("Fc", stiffness) if name not in held]
    if missing:
        raise OutOfScope(
            nds.COMPRESSION.at(editions),
            f"{section.label}: no {' and no '.join(missing)} is held, so it cannot be checked as a post; enter the "
            "values that its maker prints for columns",
        )
    factors = section.size_factors
    return ColumnValues(
        F_c=held["Fc"],
        E_min=held[stiffness],
        F_b=held.get("Fb", 0.0),
        C_F=factors["Fc"],
        # A size factor over 1 is for bending on edge; an end load off centre may bend it the other way.
        C_F_bending=min(1.0, factors["Fb"] * (section.volume_factor or 1.0)),
        c=nds.C_BY_FAMILY[section.family],
        source=section.reference.source,
        remarks=section.remarks,
    )


def across_the_grain(section: Section, editions: Editions) -> float:
    """F_c_perp of a section [psi]. Raises InputError where none is held."""
    return section.reference.value("Fc_perp")


def species_across_the_grain(species: str, editions: Editions) -> float:
    """F_c_perp or f_cp of dimension lumber of a species [psi, MPa], the same in every grade.

    Raises InputError for a species not held.
    """
    try:
        return perpendicular_strength(species)[0] if editions.code == "ca" else perpendicular_value(species)
    except InputError as error:
        raise InputError("species", error.read, error.accepted) from None
