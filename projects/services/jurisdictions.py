"""Jurisdictions: an authority's own papers, days and inspections."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from django.db import transaction

from projects.days import DayKind, regions
from projects.errors import Refused
from projects.models import InspectionKind, InspectionRule, Jurisdiction, RequiredDocument, User
from projects.permissions import require
from projects.services.writing import check_text, take_version

DAY_RULES = ("review", "validity", "lapse", "notice")
LAST_DAY_COUNT = 3650
LONGEST_TITLE = 160


def _fill(authority: Jurisdiction, values: Mapping[str, Any]) -> None:
    """Put the typed values into the row. Raises Refused for the first that can not be used."""
    authority.name = check_text("name", "Name", values["name"], "the authority's name")
    authority.code = values["code"]
    if authority.code not in ("us", "ca"):
        raise Refused(f"Country: read {authority.code!r}; accepted is us or ca.", field="code")
    authority.region = values["region"].strip().upper()
    if authority.region not in regions(authority.code):
        raise Refused(
            f"Region: read {values['region']!r}; accepted is one of {', '.join(regions(authority.code))}.",
            field="region",
        )
    for rule in DAY_RULES:
        days, kind = values[f"{rule}_days"], values[f"{rule}_kind"]
        least = 1 if rule in ("validity", "lapse") else 0
        if not least <= days <= LAST_DAY_COUNT:
            raise Refused(
                f"{rule.capitalize()} days: read {days}; accepted is {least} to {LAST_DAY_COUNT}.",
                field=f"{rule}_days",
            )
        if kind not in list(DayKind):
            raise Refused(f"{rule.capitalize()} days: read {kind!r}; accepted is working or calendar.")
        setattr(authority, f"{rule}_days", days)
        setattr(authority, f"{rule}_kind", kind)
    authority.lapse_source = check_text(
        "lapse_source", "Lapse by", values["lapse_source"], "the rule that sets the lapse, or common practice"
    )
    for text in ("source", "note"):
        setattr(authority, text, values.get(text, "").strip())


def _fill_lists(
    authority: Jurisdiction, documents: Sequence[str], inspections: Sequence[tuple[str, str]]
) -> None:
    papers = [title.strip() for title in documents if title.strip()]
    visits = [(kind, title.strip()) for kind, title in inspections if title.strip()]
    for field, label, titles in (
        ("documents", "Required documents", papers),
        ("inspections", "Inspections", [title for _, title in visits]),
    ):
        twice = sorted({title for title in titles if titles.count(title) > 1})
        if twice:
            raise Refused(f"{label}: read {twice[0]!r} twice; accepted is each once.", field=field)
        long = next((title for title in titles if len(title) > LONGEST_TITLE), None)
        if long:
            raise Refused(
                f"{label}: read a line of {len(long)} letters; accepted is at most {LONGEST_TITLE}.",
                field=field,
            )
    for kind, title in visits:
        if kind not in InspectionKind.values:
            raise Refused(
                f"Inspections: read {kind!r} before {title!r}; accepted is one of "
                f"{', '.join(InspectionKind.values)}.",
                field="inspections",
            )
    authority.required_documents.all().delete()
    authority.inspection_rules.all().delete()
    RequiredDocument.objects.bulk_create(
        RequiredDocument(jurisdiction=authority, order=order, title=title)
        for order, title in enumerate(papers, start=1)
    )
    InspectionRule.objects.bulk_create(
        InspectionRule(jurisdiction=authority, order=order, kind=kind, title=title)
        for order, (kind, title) in enumerate(visits, start=1)
    )


@transaction.atomic
def jurisdiction_save(
    *,
    actor: User,
    values: Mapping[str, Any],
    documents: Sequence[str],
    inspections: Sequence[tuple[str, str]],
    jurisdiction: Jurisdiction | None = None,
    version: int | None = None,
) -> Jurisdiction:
    """Make a jurisdiction, or change one. Permits that run already keep the papers and inspections they began with.

    `values` has name, code, region, and `<rule>_days` and `<rule>_kind` for review, validity, lapse and notice.
    """
    if jurisdiction is None:
        require(actor, "edit_jurisdiction", None)
        if actor.company is None:
            raise Refused("Company: you belong to none, so there is nobody to keep a jurisdiction for.")
        authority = Jurisdiction(company=actor.company)
    else:
        require(actor, "edit_jurisdiction", jurisdiction)
        authority = jurisdiction
        take_version(authority, authority.version if version is None else version)
    _fill(authority, values)
    taken = Jurisdiction.objects.filter(company=authority.company, name__iexact=authority.name)
    if taken.exclude(pk=authority.pk).exists():
        raise Refused(f"Name: read {authority.name!r}; accepted is one you do not have yet.", field="name")
    authority.full_clean()
    authority.save()
    _fill_lists(authority, documents, inspections)
    return authority
