"""Asking the engine for the whole wall, and keeping its answer."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from django.db import transaction

from projects.errors import Refused
from projects.models import Job, User
from projects.permissions import require
from projects.services.events import event_record
from structure.core.errors import InputError
from structure.errors import bad_input
from structure.models import DesignRun, HouseSection
from structure.selectors import (
    level_values,
    point_values,
    product_values,
    products_of,
    section_for,
    section_values,
)
from structure.wall_question import answer_wall, core_version, data_checksum, wall_case


def wall_design(*, job: Job, actor: User, beam: Mapping[str, Any] | None = None) -> DesignRun:
    """Size the whole wall from the stored section and keep inputs, results and versions.

    `beam` names the one section to design for; without it the engine chooses. A refusal is an answer and
    is kept as one. Raises Refused for no section or for input that the engine can not use.
    """
    require(actor, "design", job)
    section = section_for(job)
    if section is None:
        raise Refused("There is no house section yet: fill it in first.")
    try:
        inputs = inputs_of(section, beam)
        results = answer_wall(inputs["case"])
    except InputError as error:
        raise bad_input(error) from None
    status = DesignRun.Status.REFUSED if results["status"] == "refused" else DesignRun.Status.OK
    with transaction.atomic():
        run = DesignRun.objects.create(
            job=job,
            created_by=actor,
            section_version=section.version,
            products=[product["id"] for product in inputs["products"]],
            inputs=inputs,
            results=results,
            core_version=core_version(),
            data_checksum=data_checksum(),
            status=status,
        )
        told = "Sizes worked out." if status == DesignRun.Status.OK else f"Not sized: {results['reason']}"
        event_record(job=job, actor=actor, verb="design.run", detail=told, data={"run": run.pk})
    return run


def inputs_of(section: HouseSection, beam: Mapping[str, Any] | None = None) -> dict[str, Any]:
    """The question as plain data, with section and products as they were typed beside it. Raises InputError."""
    values, levels, points = section_values(section), level_values(section), point_values(section)
    products = [product_values(product) for product in products_of(section.job)]
    return {
        "case": wall_case(values, levels, points, section.job.code, beam, products),
        "section": {name: str(v) if isinstance(v, Decimal) else v for name, v in values.items()},
        "levels": levels,
        "points": points,
        "products": products,
    }
