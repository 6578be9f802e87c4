"""Addresses of the structure app. Everything but the verification page belongs to a job."""

from django.urls import include, path

from structure.views import designs, offsets, schedules, sections, verification

app_name = "structure"

job_patterns = [
    path("section/", sections.section_edit, name="section"),
    path("section/draw/", sections.section_draw, name="section_draw"),
    path("takedown/", sections.takedown, name="takedown"),
    path("offset/", offsets.offset, name="offset"),
    path("design/", designs.design_run, name="design_run"),
    path("options/", designs.options, name="options"),
    path("options/choose/", schedules.choose, name="choose"),
    path("members/", designs.members, name="members"),
    path("load-path/", designs.load_path, name="load_path"),
    path("shoring/", designs.shoring, name="shoring"),
    path("schedule/", schedules.schedule, name="schedule"),
    path("schedule/sealed/", schedules.sealed, name="sealed"),
    path("schedule/marks/<int:mark_pk>/tick/", schedules.tick, name="tick"),
]

urlpatterns = [
    path("jobs/<int:job_pk>/structure/", include(job_patterns)),
    path("verification/", verification.verification, name="verification"),
]
