"""Properties: put on the books and kept up to date."""

from __future__ import annotations

from typing import Any

from django.db import transaction

from projects.errors import Refused
from projects.models import Property, Units, User
from projects.models.places import USUAL_UNITS
from projects.permissions import require
from projects.services.writing import check_text, take_version

FIELDS = ("name", "street", "city", "region", "code", "units", "year_built", "notes")


def _put(house: Property, values: dict[str, Any]) -> None:
    for field in FIELDS:
        if field in values:
            setattr(house, field, values[field])
    if not values.get("units") and ("units" in values or house.pk is None):
        house.units = USUAL_UNITS.get(house.code, Units.IMPERIAL)
    house.name = check_text("name", "Name", house.name, "a name you know the house by")
    house.street = check_text("street", "Street", house.street, "street and number")
    house.city = check_text("city", "City", house.city, "the city or place")
    house.region = check_text("region", "State or province", house.region, "its two letters, for example OH")
    twin = Property.objects.filter(company_id=house.company_id, name__iexact=house.name).exclude(pk=house.pk)
    if twin.exists():
        raise Refused(
            f"Name: read {house.name!r}; accepted is a name that no other property has.", field="name"
        )
    house.full_clean()


@transaction.atomic
def property_create(*, actor: User, **values: Any) -> Property:
    """A new property of the actor's company. Raises PermissionDenied, Refused or ValidationError."""
    require(actor, "create_property")
    house = Property(company=actor.company)
    _put(house, values)
    house.save()
    return house


@transaction.atomic
def property_update(*, house: Property, actor: User, version: int, **values: Any) -> Property:
    """Change a property. Raises Conflict when somebody else was faster."""
    require(actor, "edit_property", house)
    take_version(house, version)
    _put(house, values)
    house.save()
    return house
