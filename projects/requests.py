"""The request as our views get it."""

from __future__ import annotations

from django.http import HttpRequest

from projects.models import User


class SignedIn(HttpRequest):
    """A request of somebody who is signed in: the middleware lets no other reach a view.

    Only a name for type checkers; Django hands every view its own class.
    """

    user: User
