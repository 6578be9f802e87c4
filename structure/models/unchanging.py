"""Rows that are written once."""

from __future__ import annotations

from typing import Any

from django.db import models


class Unchanging(models.Model):
    """A row that is written once. Rows that point at it must be able to trust it."""

    class Meta:
        abstract = True

    def save(self, *args: Any, **kwargs: Any) -> None:
        """Insert only."""
        if not self._state.adding:
            raise TypeError(f"{type(self).__name__} rows are never changed; make a new one.")
        super().save(*args, **kwargs)

    def delete(self, *args: Any, **kwargs: Any) -> tuple[int, dict[str, int]]:
        """Never."""
        raise TypeError(f"{type(self).__name__} rows are never deleted.")
