"""Addresses of the projects app; those of papers are in `paper_urls`."""

from django.urls import include, path

from projects.views import holds, jobs, site, survey, theme

app_name = "projects"

job_patterns = [
    path("", jobs.job_detail, name="job"),
    path("edit/", jobs.job_edit, name="job_edit"),
    path("archive/", jobs.job_put_away, name="job_archive"),
    path("record/", jobs.job_record, name="job_record"),
    path("stage/", jobs.job_stage, name="job_stage"),
    path("stage/move/", jobs.job_move, name="job_move"),
    path("survey/", survey.survey, name="survey"),
    path("survey/findings/new/<slug:kind>/", survey.finding_new, name="finding_new"),
    path("survey/findings/<int:pk>/withdraw/", survey.finding_take_back, name="finding_withdraw"),
    path("survey/photos/new/", survey.photo_new, name="photo_new"),
    path("verdict/", survey.verdict, name="verdict"),
    path("holds/", holds.holds, name="holds"),
    path("holds/<slug:name>/record/", holds.hold_record, name="hold_record"),
    path("holds/<slug:name>/override/", holds.hold_go_past, name="hold_override"),
    path("holds/records/<int:pk>/set-aside/", holds.hold_record_set_aside, name="hold_set_aside"),
]

urlpatterns = [
    path("", site.dashboard, name="dashboard"),
    path("theme/", theme.theme_set, name="theme"),
    path("properties/", site.property_list, name="property_list"),
    path("properties/new/", site.property_new, name="property_new"),
    path("properties/<int:pk>/", site.property_detail, name="property"),
    path("properties/<int:pk>/edit/", site.property_edit, name="property_edit"),
    path("properties/<int:pk>/jobs/new/", site.job_new, name="job_new"),
    path("people/", site.people, name="people"),
    path("people/new/", site.person_new, name="person_new"),
    path("people/<int:pk>/edit/", site.person_edit, name="person_edit"),
    path("photos/<int:pk>/", survey.photo, name="photo"),
    path("jobs/<int:job_pk>/", include(job_patterns)),
    path("", include("projects.paper_urls")),
]
