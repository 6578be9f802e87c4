"""What the site keeps of the structure: the house section as typed, design runs, schedules and their marks."""

from structure.models.choices import (
    HEADERS,
    SHORES,
    SILLS,
    Below,
    Mounting,
    PadKind,
    PostKind,
    Shape,
    SnowRule,
    SoilFrom,
    TopEdge,
    Way,
)
from structure.models.house import HouseSection, OffsetCheck, PointLoad, SectionLevel
from structure.models.products import EnteredProduct
from structure.models.records import DesignRun, MarkTick, Schedule, ScheduleMark
from structure.models.unchanging import Unchanging

__all__ = [
    "HEADERS",
    "SHORES",
    "SILLS",
    "Below",
    "DesignRun",
    "EnteredProduct",
    "HouseSection",
    "MarkTick",
    "Mounting",
    "OffsetCheck",
    "PadKind",
    "PointLoad",
    "PostKind",
    "Schedule",
    "ScheduleMark",
    "SectionLevel",
    "Shape",
    "SnowRule",
    "SoilFrom",
    "TopEdge",
    "Unchanging",
    "Way",
]
