"""Who answers for each hold point.

`projects.workflow` names the hold points; an app registers here, in its AppConfig.ready(), the check for each
name it can answer for. Several checks may answer for one name: all of them have to agree. A name that nobody
answers for, and a check for a name that does not exist, both fail `manage.py check`.

A check reads rows through the job's related managers with `.all()` and names what it reads in `prefetch`, so
that a list of jobs costs the same number of queries as one job.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any

from django.core.checks import CheckMessage, Error

from projects.workflow import HOLD_POINT_BY_NAME, HOLD_POINTS


@dataclass(frozen=True)
class HoldState:
    """The answer of one check.

    `met` and a sentence why. `needs_record` asks for evidence put on record by a person on top of the facts.
    `not_needed` says that the point does not arise on this job, whatever other checks say (the engineer's
    schedule has no new footing, for example); only say it on governing evidence.
    """

    met: bool
    why: str
    needs_record: bool = False
    not_needed: bool = False


Check = Callable[[Any], HoldState]
Prefetch = Any


@dataclass(frozen=True)
class Provider:
    """A check and the related rows it reads."""

    check: Check
    prefetch: tuple[Prefetch, ...] = ()


_providers: dict[str, list[Provider]] = {}


def register(name: str, check: Check, *, prefetch: Iterable[Prefetch] = ()) -> None:
    """Answer for a hold point. The same function registered again changes nothing."""
    providers = _providers.setdefault(name, [])
    if all(provider.check is not check for provider in providers):
        providers.append(Provider(check, tuple(prefetch)))


def providers_of(name: str) -> tuple[Provider, ...]:
    """The checks that answer for a hold point."""
    return tuple(_providers.get(name, ()))


def prefetches() -> list[Prefetch]:
    """Everything that any check reads of a job, each once."""
    found: list[Prefetch] = []
    for providers in _providers.values():
        for provider in providers:
            found.extend(item for item in provider.prefetch if item not in found)
    return found


def state_of(job: Any, name: str) -> HoldState:
    """What the checks of one hold point say together. Without a check nothing is ever met."""
    states = [provider.check(job) for provider in providers_of(name)]
    if not states:
        return HoldState(False, "Nobody answers for this hold point.")
    for state in states:
        if state.not_needed:
            return state
    unmet = [state for state in states if not state.met]
    chosen = unmet or states
    return HoldState(
        met=not unmet,
        why=" ".join(state.why for state in chosen if state.why),
        needs_record=any(state.needs_record for state in states),
    )


def check_providers(app_configs: Any = None, **kwargs: Any) -> list[CheckMessage]:
    """System check: every hold point has somebody who answers for it, and nobody answers for a stranger."""
    missing: list[CheckMessage] = [
        Error(
            f"Hold point {point.name!r} has no provider.",
            hint="Call projects.holdpoints.register() for it in an AppConfig.ready().",
            id="projects.E001",
        )
        for point in HOLD_POINTS
        if not _providers.get(point.name)
    ]
    strange: list[CheckMessage] = [
        Error(f"A provider is registered for {name!r}, which is no hold point.", id="projects.E002")
        for name in _providers
        if name not in HOLD_POINT_BY_NAME
    ]
    return missing + strange
