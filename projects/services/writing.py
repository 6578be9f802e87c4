"""What every service that writes looks at first: is the row still as it was read, are days and words usable."""

from __future__ import annotations

from datetime import date

from django.db import models
from django.utils import timezone

from projects.errors import Conflict, Refused

SENTENCE_WORDS, SENTENCE_LETTERS = 2, 15


def take_version(row: models.Model, version: int) -> None:
    """Compare-and-set on the version column, then bring the row in memory up to date.

    To be called inside a transaction, before anything is decided from the row: of two writers who read the same
    version, one wins and the other gets Conflict. Works alike on SQLite, where row locks do not exist.
    """
    manager = type(row)._default_manager
    won = manager.filter(pk=row.pk, version=version).update(version=version + 1)
    if not won:
        raise Conflict(
            "Somebody else changed this since you opened the page. What you typed is still below; look at what "
            "is there now, then save again if yours should stand."
        )
    row.refresh_from_db()


def check_not_future(field: str, label: str, day: date) -> None:
    """Raises Refused for a day that has not come yet."""
    today = timezone.localdate()
    if day > today:
        raise Refused(
            f"{label}: read {day:%Y-%m-%d}; accepted is today ({today:%Y-%m-%d}) or earlier.", field=field
        )


def check_not_before(field: str, label: str, day: date, first: date, why: str) -> None:
    """Raises Refused for a day before the one it must follow."""
    if day < first:
        raise Refused(
            f"{label}: read {day:%Y-%m-%d}; accepted is {first:%Y-%m-%d} or later, {why}.", field=field
        )


def check_text(field: str, label: str, text: str, accepted: str) -> str:
    """The text without blanks around it. Raises Refused when nothing is left."""
    kept = text.strip()
    if not kept:
        raise Refused(f"{label}: read nothing; accepted is {accepted}.", field=field)
    return kept


def check_sentence(field: str, label: str, text: str, accepted: str) -> str:
    """The text as `check_text`, at least two words and 15 characters: what stays on record must say something.

    Raises Refused for less.
    """
    kept = check_text(field, label, text, accepted)
    if len(kept) < SENTENCE_LETTERS or len(kept.split()) < SENTENCE_WORDS:
        raise Refused(
            f"{label}: read {kept!r}; accepted is {accepted}, in a sentence of at least {SENTENCE_WORDS} words "
            f"and {SENTENCE_LETTERS} characters.",
            field=field,
        )
    return kept
