"""Addresses of the structure app. Everything but the verification page belongs to a job."""

from django.urls import include, path

from structure.views import designs, offsets, options, products, schedules, sections, verification

app_name = "structure"

job_patterns = [
    path("section/", sections.section_edit, name="section"),
    path("section/draw/", sections.section_draw, name="section_draw"),
    path("section/loads/", sections.takedown, name="takedown"),
    path("section/products/", products.products, name="products"),
    path("section/products/<int:pk>/void/", products.product_out, name="product_void"),
    path("section/offset/", offsets.offset, name="offset"),
    path("sizes/work-out/", designs.design_run, name="design_run"),
    path("sizes/", options.options, name="options"),
    path("sizes/choose/", schedules.choose, name="choose"),
    path("sizes/members/", designs.members, name="members"),
    path("sizes/load-path/", designs.load_path, name="load_path"),
    path("sizes/shoring/", designs.shoring, name="shoring"),
    path("sizes/schedule/", schedules.schedule, name="schedule"),
    path("sizes/schedule/sealed/", schedules.sealed, name="sealed"),
    path("sizes/schedule/marks/<int:mark_pk>/tick/", schedules.tick, name="tick"),
]

urlpatterns = [
    path("jobs/<int:job_pk>/structure/", include(job_patterns)),
    path("verification/", verification.verification, name="verification"),
    path("verification/<path:case_id>/", verification.verification_case, name="verification_case"),
]
