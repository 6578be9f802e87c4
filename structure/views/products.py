"""Products in hand: entered with their paper, listed with who entered them, voided with a reason."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_http_methods

from projects.errors import Refused
from projects.requests import SignedIn
from structure.forms.products import ProductForm, VoidForm
from structure.models import EnteredProduct
from structure.services.products import product_enter, product_void
from structure.views.common import page, page_job


@require_http_methods(["GET", "POST"])
def products(request: SignedIn, job_pk: int) -> HttpResponse:
    """Every product of the job, those taken out of use too, and the form for one more."""
    writing = request.method == "POST"
    job = page_job(request, job_pk, "design" if writing else "view_job")
    form = ProductForm(request.POST if writing else None, code=job.code)
    if writing and form.is_valid():
        try:
            product = product_enter(job=job, actor=request.user, values=form.cleaned_data)
        except Refused as refusal:
            form.add_error(refusal.field if refusal.field in form.fields else None, refusal.sentence)
        else:
            messages.success(request, f"{product} is kept with the job. Work the sizes out to see it tried.")
            return redirect("structure:products", job_pk=job.pk)
    held = EnteredProduct.objects.filter(job=job).select_related("entered_by", "voided_by")
    context = page(request, job, "products", form=form, products=held)
    return render(request, "structure/products.html", context, status=422 if form.errors else 200)


@require_http_methods(["GET", "POST"])
def product_out(request: SignedIn, job_pk: int, pk: int) -> HttpResponse:
    """Take one product out of use."""
    job = page_job(request, job_pk, "design")
    product = get_object_or_404(EnteredProduct, job=job, pk=pk)
    form = VoidForm(request.POST or None)
    if request.method == "POST" and form.is_valid():
        try:
            product_void(product=product, actor=request.user, reason=form.cleaned_data["reason"])
        except Refused as refusal:
            form.put(refusal.sentence)
        else:
            messages.success(request, f"{product} is not tried any more.")
            return redirect("structure:products", job_pk=job.pk)
    context = page(request, job, "products", form=form, product=product)
    return render(request, "structure/product_void.html", context, status=422 if form.errors else 200)
