"""Addresses of papers, put under the projects namespace by `projects.urls`."""

from __future__ import annotations

from collections.abc import Iterable

from django.urls import path, re_path

from projects.views import background, engineering, jurisdictions, permits


def _one_of(acts: Iterable[str]) -> str:
    return "|".join(acts)


urlpatterns = [
    # the engineer
    path("jobs/<int:job_pk>/engineering/", engineering.engineering_page, name="engineering"),
    path("jobs/<int:job_pk>/engineering/new/", engineering.engineering_new, name="engineering_new"),
    path(
        "jobs/<int:job_pk>/engineering/package/", engineering.engineering_package, name="engineering_package"
    ),
    path(
        "jobs/<int:job_pk>/engineering/designs/new/", engineering.sealed_design_new, name="sealed_design_new"
    ),
    path(
        "jobs/<int:job_pk>/engineering/designs/<int:pk>/document/",
        engineering.sealed_design_document,
        name="sealed_design_document",
    ),
    path(
        "jobs/<int:job_pk>/engineering/questions/<int:pk>/answer/",
        engineering.engineering_answer,
        name="engineering_answer",
    ),
    re_path(
        rf"^jobs/(?P<job_pk>\d+)/engineering/(?P<pk>\d+)/(?P<act>{_one_of(engineering.REQUEST_ACTS)})/$",
        engineering.engineering_act,
        name="engineering_act",
    ),
    # the authority
    path("jobs/<int:job_pk>/permit/", permits.permit_page, name="permit"),
    path("jobs/<int:job_pk>/permit/start/", permits.permit_start, name="permit_start"),
    path("jobs/<int:job_pk>/permit/papers/<int:pk>/", permits.permit_document, name="permit_document"),
    re_path(
        rf"^jobs/(?P<job_pk>\d+)/permit/(?P<pk>\d+)/(?P<act>{_one_of(permits.PERMIT_ACTS)})/$",
        permits.permit_act,
        name="permit_act",
    ),
    path("jobs/<int:job_pk>/inspections/add/", permits.inspection_add, name="inspection_add"),
    re_path(
        rf"^jobs/(?P<job_pk>\d+)/inspections/(?P<pk>\d+)/(?P<act>{_one_of(permits.INSPECTION_ACTS)})/$",
        permits.inspection_act,
        name="inspection_act",
    ),
    path("jobs/<int:job_pk>/deficiencies/<int:pk>/clear/", permits.deficiency_clear, name="deficiency_clear"),
    path("jobs/<int:job_pk>/chases/", permits.chase_list, name="chases"),
    path("jobs/<int:job_pk>/chases/new/", permits.chase_new, name="chase_new"),
    path("jurisdictions/", jurisdictions.jurisdiction_list, name="jurisdictions"),
    path("jurisdictions/new/", jurisdictions.jurisdiction_edit, name="jurisdiction_new"),
    path("jurisdictions/<int:pk>/", jurisdictions.jurisdiction_edit, name="jurisdiction_edit"),
    # behind the pages
    path("background/<int:pk>/", background.background_job, name="background_job"),
]
