"""Colleagues: who signs in, and as what."""

from __future__ import annotations

from django.contrib.auth.password_validation import validate_password
from django.core.exceptions import ValidationError
from django.db import transaction

from projects.errors import Refused
from projects.models import Company, Role, User
from projects.permissions import require
from projects.services.writing import check_text


@transaction.atomic
def person_create(
    *, actor: User, username: str, first_name: str, last_name: str, role: str, password: str, phone: str = ""
) -> User:
    """A new colleague in the actor's company."""
    require(actor, "manage_people")
    username = check_text("username", "Sign-in name", username, "a name to sign in with")
    if User.objects.filter(username__iexact=username).exists():
        raise Refused(
            f"Sign-in name: read {username!r}; accepted is one that nobody has yet.", field="username"
        )
    person = User(
        username=username,
        first_name=check_text("first_name", "First name", first_name, "a first name"),
        last_name=check_text("last_name", "Last name", last_name, "a last name"),
        role=role,
        phone=phone,
        company=actor.company,
    )
    try:
        validate_password(password, person)
    except ValidationError as weak:
        raise Refused(f"Password: {' '.join(weak.messages)}", field="password") from weak
    person.set_password(password)
    person.full_clean()
    person.save()
    return person


@transaction.atomic
def person_update(
    *, person: User, actor: User, first_name: str, last_name: str, role: str, phone: str, is_active: bool
) -> User:
    """Change a colleague. A company keeps at least one contractor who can sign in."""
    require(actor, "manage_people", person)
    # A copy of our own: the actor may be the same person, and a refusal must not leave either changed.
    person = User.objects.get(pk=person.pk)
    # Two contractors who take the role from each other at once must not both succeed.
    Company.objects.select_for_update().get(people=person)
    others = User.objects.filter(company=person.company, role=Role.CONTRACTOR, is_active=True).exclude(
        pk=person.pk
    )
    if (role != Role.CONTRACTOR or not is_active) and not others.exists():
        raise Refused(
            "Role: a company keeps at least one contractor who can sign in; name another one first.",
            field="role",
        )
    person.first_name = check_text("first_name", "First name", first_name, "a first name")
    person.last_name = check_text("last_name", "Last name", last_name, "a last name")
    person.role, person.phone, person.is_active = role, phone, is_active
    person.full_clean()
    person.save()
    return person
