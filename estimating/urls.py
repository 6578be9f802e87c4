"""Addresses of the estimating app."""

from django.urls import include, path

from estimating.views import estimates, prices, workbooks

app_name = "estimating"

job_patterns = [
    path("", estimates.quote, name="quote"),
    path("revisions/<int:pk>/", estimates.revision, name="revision"),
    path("takeoff/", estimates.takeoff, name="takeoff"),
    path("cut-list/", estimates.cut_list, name="cut_list"),
    path("options/", estimates.options, name="options"),
    path("settings/", estimates.settings_edit, name="settings"),
    path("build/", estimates.build, name="build"),
    path("revisions/<int:pk>/issue/", estimates.issue, name="issue"),
    path("revisions/<int:pk>/workbook/", workbooks.request_workbook, name="workbook_request"),
    path("revisions/<int:pk>/workbook/file/", workbooks.download, name="workbook"),
]

urlpatterns = [
    path("jobs/<int:job_pk>/estimate/", include(job_patterns)),
    path("prices/", prices.price_list, name="prices"),
    path("prices/new/", prices.price_new, name="price_new"),
    path("prices/rates/", prices.rates, name="rates"),
    path("prices/<int:pk>/", prices.price_edit, name="price_edit"),
]
