"""Entering a product in hand, and voiding one that was entered wrongly. Nothing entered is ever changed."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils import timezone

from projects.errors import Refused
from projects.models import Job, User
from projects.permissions import require
from projects.services.events import event_record
from projects.services.writing import check_sentence, check_text
from structure.core.cases.registry import run_case
from structure.core.errors import InputError
from structure.errors import bad_input, refuse_if_refused
from structure.models import EnteredProduct
from structure.products import product_sections


def product_enter(*, job: Job, actor: User, values: Mapping[str, Any]) -> EnteredProduct:
    """Keep a product with the job. Its values are as the paper prints them; the engine reads each size first.

    Raises Refused without a source, for a value that can not be read, for a size that the engine does not
    cover (OutsideRules), and for a name that the job holds already.
    """
    require(actor, "design", job)
    name = check_text("name", "What is stamped on it", values["name"], "the words on the piece")
    source = check_text("source", "Paper", values["source"], "the paper the values are read from")
    kept = {**values, "name": name, "source": source}
    try:
        for section in product_sections(kept, code=job.code):
            given = {"section": section}
            refuse_if_refused(run_case({"kind": "design_values", "code": job.code, "given": given}))
    except InputError as error:
        raise bad_input(error) from None
    held = EnteredProduct.objects.filter(job=job, voided_at__isnull=True)
    if held.filter(family=kept["family"], name__iexact=name).exists():
        raise Refused(
            f"What is stamped on it: read {name!r}; accepted is a name that no product of this job has; void the "
            "other one first.",
            field="name",
        )
    product = EnteredProduct(job=job, entered_by=actor, **kept)
    try:
        product.full_clean()
    except ValidationError as error:
        raise Refused("; ".join(error.messages)) from None
    with transaction.atomic():
        product.save()
        event_record(
            job=job,
            actor=actor,
            verb="product.entered",
            detail=f"Entered {product} with values from {source}.",
            data={"product": product.pk},
        )
    return product


def product_void(*, product: EnteredProduct, actor: User, reason: str) -> EnteredProduct:
    """Take a product out of use; what was entered stays on record. Raises Refused without a reason or twice."""
    require(actor, "design", product.job)
    reason = check_sentence("reason", "Reason", reason, "why it is not used any more")
    with transaction.atomic():
        won = EnteredProduct.objects.filter(pk=product.pk, voided_at__isnull=True).update(
            voided_at=timezone.now(), voided_by=actor, void_reason=reason[:200]
        )
        if not won:
            raise Refused(f"{product} is voided already.")
        event_record(
            job=product.job,
            actor=actor,
            verb="product.voided",
            detail=f"Voided {product}: {reason}",
            data={"product": product.pk},
        )
    product.refresh_from_db()
    return product
