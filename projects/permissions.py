"""Who may do what: one table of roles and actions, read by services, views, templates and tests alike."""

from __future__ import annotations

from typing import Any

from django.core.exceptions import PermissionDenied

CONTRACTOR, ESTIMATOR, PROJECT_MANAGER, CREW = "contractor", "estimator", "project_manager", "crew"
OFFICE = frozenset({CONTRACTOR, ESTIMATOR, PROJECT_MANAGER})
EVERYBODY = OFFICE | {CREW}
RUNS_JOBS = frozenset({CONTRACTOR, PROJECT_MANAGER})

#: Action -> the roles that may do it. An action that is not in here is a mistake in the program.
ACTIONS: dict[str, frozenset[str]] = {
    # reading
    "view_job": EVERYBODY,
    "view_property": EVERYBODY,
    "view_people": OFFICE,
    "see_prices": OFFICE,
    # properties, jobs, people
    "create_property": OFFICE,
    "edit_property": OFFICE,
    "create_job": OFFICE,
    "edit_job": OFFICE,
    "archive_job": RUNS_JOBS,
    "manage_people": frozenset({CONTRACTOR}),
    # survey
    "add_photo": EVERYBODY,
    "record_finding": OFFICE,
    "answer_question": OFFICE,
    "decide_verdict": RUNS_JOBS,
    # sizes and prices
    "design": OFFICE,
    "choose_schedule": OFFICE,
    "edit_prices": frozenset({CONTRACTOR, ESTIMATOR}),
    "export_quote": OFFICE,
    # paper
    "edit_engineering": OFFICE,
    "record_sealed_design": RUNS_JOBS,
    "edit_permit": RUNS_JOBS,
    "edit_inspection": RUNS_JOBS,
    "edit_jurisdiction": RUNS_JOBS,
    "log_chase": OFFICE,
    # stages and hold points
    "advance_job": RUNS_JOBS,
    "pass_hold_point": RUNS_JOBS,
    "override_hold_point": frozenset({CONTRACTOR}),
    "tick_off": frozenset({CONTRACTOR, PROJECT_MANAGER, CREW}),
}


def _company_key(obj: Any) -> int | None:
    """Key of the company a row belongs to: its own, its property's or its job's."""
    if type(obj).__name__ == "Company":
        return obj.pk
    for name in ("company_id", "job", "property"):
        found = getattr(obj, name, None)
        if found is not None:
            return found if isinstance(found, int) else _company_key(found)
    return None


def can(user: Any, action: str, obj: Any = None) -> bool:
    """May this person do that, to this row? Raises KeyError for an action that does not exist.

    False for anybody signed out, switched off or without a company, and for every row of another company.
    """
    roles = ACTIONS[action]
    if not getattr(user, "is_authenticated", False) or not user.is_active or user.company_id is None:
        return False
    if obj is not None and _company_key(obj) != user.company_id:
        return False
    return user.role in roles


def require(user: Any, action: str, obj: Any = None) -> None:
    """Raise PermissionDenied unless `can` says yes."""
    if not can(user, action, obj):
        raise PermissionDenied(f"{action} is not allowed here.")


def allowed(user: Any, obj: Any = None) -> dict[str, bool]:
    """Every action with its answer, for templates: `{% if may.decide_verdict %}`."""
    return {action: can(user, action, obj) for action in ACTIONS}
