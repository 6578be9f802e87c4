"""Saving a section and an offset check: everything or nothing."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from django.core.exceptions import ValidationError
from django.db import transaction

from projects.errors import Refused
from projects.models import Job, User
from projects.permissions import require
from projects.services.events import event_record
from projects.services.writing import take_version
from structure.core.cases.registry import run_case
from structure.core.clauses import DEFAULT_EDITIONS
from structure.core.errors import InputError, OutOfScope
from structure.core.members.beam_question import check_span
from structure.errors import OutsideRules, bad_input, refuse_if_refused
from structure.fields import read_typed
from structure.models import HouseSection, OffsetCheck, PointLoad, SectionLevel
from structure.question import takedown_of

Row = Mapping[str, Any]


def section_save(
    *,
    job: Job,
    actor: User,
    values: Row,
    levels: Sequence[Row],
    points: Sequence[Row] = (),
    expected_version: int | None = None,
) -> HouseSection:
    """Store the section of a job with its levels and point loads, after the engine has read all of it.

    Raises Refused (OutsideRules with its clause where the rules end), Conflict where somebody saved in
    between, ValidationError for a row that the model does not take. Nothing is stored then.
    """
    require(actor, "design", job)
    if not levels:
        raise Refused("Levels: read none; accepted is at least one level, from the top down.", field="levels")
    _check_points(values, points)
    try:
        answer = takedown_of(values, levels, points, job.code)
    except InputError as error:
        raise bad_input(error, _names(levels)) from None
    refuse_if_refused(answer["snow"])
    refuse_if_refused(answer["takedown"])
    _check_opening(values, job.code)
    with transaction.atomic():
        section = HouseSection.objects.filter(job=job).first()
        created = section is None
        if section is None:
            section = HouseSection(job=job)
        else:
            take_version(section, section.version if expected_version is None else expected_version)
        for name, value in values.items():
            setattr(section, name, value)
        section.updated_by = actor
        section.full_clean()
        section.save()
        if not created:
            section.levels.all().delete()
            section.points.all().delete()
        _rows_save(section, levels, points)
        event_record(
            job=job,
            actor=actor,
            verb="section.saved",
            detail=f"House section saved, version {section.version}.",
            data={"version": section.version, "levels": [row["name"] for row in levels]},
        )
    return section


def _rows_save(section: HouseSection, levels: Sequence[Row], points: Sequence[Row]) -> None:
    level_rows = [SectionLevel(section=section, order=n, **row) for n, row in enumerate(levels)]
    point_rows = [PointLoad(section=section, **row) for row in points]
    for made in (*level_rows, *point_rows):
        made.full_clean(exclude=["section"], validate_unique=False, validate_constraints=False)
    SectionLevel.objects.bulk_create(level_rows)
    PointLoad.objects.bulk_create(point_rows)


def _check_opening(values: Row, code: str) -> None:
    """An opening that no preliminary beam covers is refused before anything is stored."""
    try:
        check_span(
            "the clear opening",
            read_typed(values["opening"], "length", "Clear opening", code=code),
            DEFAULT_EDITIONS[code],
        )
    except InputError as error:
        raise bad_input(error) from None
    except OutOfScope as refusal:
        raise OutsideRules(str(refusal.clause), refusal.reason) from None


def _check_points(values: Row, points: Sequence[Row]) -> None:
    """Every point load lies on the opening: one beyond it is not this beam's to carry."""
    try:
        opening = read_typed(values["opening"], "length", "Clear opening")
        for row in points:
            at = read_typed(row["at"], "length", f"{row['label']}, place", positive=False)
            if at > opening:
                raise InputError(
                    f"{row['label']}, place",
                    row["at"],
                    f"a place on the opening, 0 in to {values['opening']}",
                )
    except InputError as error:
        raise bad_input(error) from None


def _names(levels: Sequence[Row]) -> dict[str, str]:
    """Field paths of the engine in the words of the form."""
    names: dict[str, str] = {}
    for n, row in enumerate(levels):
        for side in ("left", "right"):
            names[f"levels[{n}].{side}.span"] = f"{row['name']}, span on the {side}"
            names[f"levels[{n}].{side}.support"] = f"{row['name']}, support on the {side}"
        for field, told in (
            ("live", "live load"),
            ("dead", "dead load"),
            ("spacing", "spacing"),
            ("reaction", "truss reaction"),
            ("wall_above.height", "height of the wall on it"),
            ("wall_above.weight", "weight of the wall on it"),
        ):
            names[f"levels[{n}].{field}"] = f"{row['name']}, {told}"
    return names


def offset_given(values: Row) -> dict[str, Any]:
    """The question of the offset kind from the form's values."""
    given: dict[str, Any] = {
        part: {
            "from": "exterior face",
            "distance": values[f"{part}_distance"],
            "to": values[f"{part}_to"],
            "thickness": values[f"{part}_thickness"],
        }
        for part in ("above", "below")
    }
    for name in ("wall_shift", "joist_depth", "tolerance", "supports_floor", "framing"):
        given[name] = values[name]
    return given


def offset_check(*, job: Job, actor: User, values: Row) -> OffsetCheck:
    """Answer and store an offset check. Raises Refused; nothing is stored then."""
    require(actor, "record_finding", job)
    try:
        result = run_case({"kind": "offset", "code": job.code, "given": offset_given(values)})
    except InputError as error:
        raise bad_input(error) from None
    refuse_if_refused(result)
    check = OffsetCheck(job=job, checked_by=actor, result=result, **values)
    try:
        check.full_clean()
    except ValidationError as error:
        raise Refused("; ".join(error.messages)) from None
    with transaction.atomic():
        check.save()
        event_record(
            job=job,
            actor=actor,
            verb="offset.checked",
            detail="Wall above checked against the support below.",
            data={"offset": result["offset"], "aligned": result["aligned"], "stacks": result["stacks"]},
        )
    return check
