"""How estimating says no."""

from __future__ import annotations

from projects.errors import Refused
from structure.core.errors import InputError, OutOfScope


class Frozen(TypeError):
    """Somebody tried to change or delete an estimate that has been issued."""


def refusal(error: InputError | OutOfScope) -> Refused:
    """The sentence of the core as a refusal of a service, with the field it names."""
    if isinstance(error, OutOfScope):
        return Refused(f"Not priced ({error.clause}): {error.reason}.")
    return Refused(str(error), field=error.field)
