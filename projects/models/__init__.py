"""Rows of the projects app, one subject a module."""

from projects.models.accounts import Company, Role, User
from projects.models.background import BackgroundJob
from projects.models.engineering import EngineeringQuestion, EngineeringRequest, SealedDesign
from projects.models.events import AppendOnly, JobEvent
from projects.models.holds import HoldPass, Override
from projects.models.jobs import Job
from projects.models.permits import (
    Chase,
    Deficiency,
    Inspection,
    InspectionKind,
    InspectionRule,
    Jurisdiction,
    Permit,
    PermitDocument,
    PermitNotice,
    RequiredDocument,
)
from projects.models.places import BuildingCode, Property, Units
from projects.models.survey import Decision, Finding, Photo, SurveyAnswer

__all__ = [
    "AppendOnly",
    "BackgroundJob",
    "BuildingCode",
    "Chase",
    "Company",
    "Decision",
    "Deficiency",
    "EngineeringQuestion",
    "EngineeringRequest",
    "Finding",
    "HoldPass",
    "Inspection",
    "InspectionKind",
    "InspectionRule",
    "Job",
    "JobEvent",
    "Jurisdiction",
    "Override",
    "Permit",
    "PermitDocument",
    "PermitNotice",
    "Photo",
    "Property",
    "RequiredDocument",
    "Role",
    "SealedDesign",
    "SurveyAnswer",
    "Units",
    "User",
]
