"""Tables of lists."""

from __future__ import annotations

from typing import Any

import django_tables2 as tables
from django.db.models import Case, IntegerField, QuerySet, Value, When
from django.utils.html import format_html

from projects.models import Job, Property, User
from projects.standing import JobStanding, standing_of
from projects.workflow import ORDER

NUM = {"td": {"class": "num"}, "th": {"class": "num"}}

STAGE_NUMBER = Case(
    *[When(stage=stage.value, then=Value(stage.number)) for stage in ORDER], output_field=IntegerField()
)


class JobTable(tables.Table):
    """Every job: stage, what blocks it, whose move, days waiting."""

    name = tables.Column(linkify=lambda record: record.get_absolute_url(), verbose_name="Job")
    property = tables.Column(accessor="property__name", verbose_name="Property")
    stage = tables.Column(verbose_name="Stage")
    blocked = tables.Column(empty_values=(), orderable=False, verbose_name="What blocks it")
    whose = tables.Column(empty_values=(), orderable=False, verbose_name="Whose move")
    waiting = tables.Column(
        accessor="stage_since", verbose_name="Days waiting", attrs=NUM, order_by=("-stage_since",)
    )
    due_on = tables.DateColumn(format="Y-m-d", verbose_name="Due", default="")

    caption = "Jobs"

    class Meta:
        empty_text = "No jobs here yet. Open a property and add the first wall."
        order_by = ("-waiting",)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self._standings: dict[int, JobStanding] = {}

    def _standing(self, job: Job) -> JobStanding:
        if job.pk not in self._standings:
            self._standings[job.pk] = standing_of(job)
        return self._standings[job.pk]

    def render_stage(self, record: Job) -> str:
        """Number and name of the stage."""
        number = "" if record.stage == "closed" else f"{record.stage_now.number} "
        return format_html('<span class="num">{}</span>{}', number, record.get_stage_display())

    def order_stage(self, queryset: QuerySet[Job], is_descending: bool) -> tuple[QuerySet[Job], bool]:
        """By the order of work, not by letters."""
        ordered = queryset.annotate(stage_number=STAGE_NUMBER)
        return ordered.order_by(("-" if is_descending else "") + "stage_number", "pk"), True

    def render_blocked(self, record: Job) -> str:
        """The first hold point in the way, and how many more there are."""
        if record.stage == "closed":
            return format_html('<span class="tag tag--ok">{}</span>', "closed")
        blocked = self._standing(record).blocked_by
        if not blocked:
            return format_html('<span class="tag tag--ok">{}</span>', "nothing")
        more = f", and {len(blocked) - 1} more" if len(blocked) > 1 else ""
        return format_html('<span class="tag tag--bad">{}</span>{}', blocked[0].point.title, more)

    def render_whose(self, record: Job) -> str:
        """Who has to move."""
        return self._standing(record).whose_move

    def render_waiting(self, record: Job) -> str:
        """Whole days in the stage."""
        return "" if record.stage == "closed" else str(record.days_waiting)


class PropertyTable(tables.Table):
    """Houses of the company."""

    name = tables.Column(linkify=("projects:property", {"pk": tables.A("pk")}), verbose_name="Property")
    street = tables.Column()
    city = tables.Column()
    region = tables.Column(verbose_name="Region")
    code = tables.Column(verbose_name="Country")
    year_built = tables.Column(verbose_name="Built", default="not known", attrs=NUM)
    jobs_open = tables.Column(verbose_name="Open jobs", attrs=NUM)
    jobs_all = tables.Column(verbose_name="All jobs", attrs=NUM)

    caption = "Properties"

    class Meta:
        empty_text = "No properties yet. Add the first house."
        order_by = ("name",)

    def render_code(self, record: Property) -> str:
        """The country in words."""
        return record.get_code_display()


class PersonTable(tables.Table):
    """Colleagues."""

    name = tables.Column(
        accessor="display_name",
        order_by=("last_name", "first_name"),
        linkify=("projects:person_edit", {"pk": tables.A("pk")}),
        verbose_name="Name",
    )
    username = tables.Column(verbose_name="Signs in as")
    role = tables.Column()
    phone = tables.Column(verbose_name="Telephone", default="")
    is_active = tables.Column(verbose_name="May sign in")

    caption = "People"

    class Meta:
        empty_text = "Nobody yet."
        order_by = ("name",)

    def __init__(self, *args: Any, may_manage: bool = False, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        if not may_manage:
            self.columns["name"].link = None

    def render_role(self, record: User) -> str:
        """The role in words."""
        return record.get_role_display()

    def render_is_active(self, value: bool) -> str:
        """Yes or no."""
        return "yes" if value else "no"
