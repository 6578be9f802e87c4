"""The engineer's part through its services."""

from datetime import timedelta

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile

from projects import package
from projects.errors import Refused
from projects.models import EngineeringRequest, SealedDesign
from projects.permit_holds import sealed_design_state
from projects.services import engineering
from tests.factories import ago, make_job, today

pytestmark = pytest.mark.django_db

DESIGN = {
    "signed_by": "Rowan Ashgrove",
    "licence": "PE 00000",
    "reference": "S-1",
    "dated": ago(3),
    "received_on": ago(2),
}


@pytest.fixture
def no_parts(monkeypatch):
    """A package without the parts that other apps add."""
    monkeypatch.setattr(package, "_PARTS", {})


@pytest.fixture
def sent(job, contractor, no_parts):
    """A request that went out nine days ago."""
    request = engineering.engineering_request_create(
        job=job,
        actor=contractor,
        engineer_name="Rowan Ashgrove",
        asks="Design and seal beam, posts and pads.",
    )
    return engineering.engineering_request_send(
        request=request, actor=contractor, version=request.version, on=ago(9)
    )


def test_a_package_with_a_gap_does_not_go_out(job, contractor, no_parts):
    request = engineering.engineering_request_create(
        job=job, actor=contractor, engineer_name="Rowan Ashgrove", asks="Seal it."
    )
    package.register("gap", "Loads", "x.html", lambda job: {}, lambda job: ["P2 ends on nothing."])
    with pytest.raises(Refused, match="Package: P2 ends on nothing."):
        engineering.engineering_request_send(
            request=request, actor=contractor, version=request.version, on=today()
        )
    request.refresh_from_db()
    assert (request.status, request.sent_on, request.version) == ("preparing", None, 1)


def test_questions_move_the_request_to_us_and_back(sent, contractor):
    first = engineering.engineering_question_add(
        request=sent,
        actor=contractor,
        version=sent.version,
        question="Which way do the joists run?",
        asked_on=ago(7),
    )
    second = engineering.engineering_question_add(
        request=sent, actor=contractor, version=sent.version, question="Slab thickness?", asked_on=ago(6)
    )
    for question, status in ((first, "questions"), (second, "sent")):
        engineering.engineering_question_answer(
            question=question,
            actor=contractor,
            version=question.version,
            answer="Seen and measured.",
            on=ago(5),
        )
        assert EngineeringRequest.objects.get().status == status
    with pytest.raises(Refused, match="it was answered on"):
        engineering.engineering_question_answer(
            question=first, actor=contractor, version=first.version, answer="Again.", on=ago(5)
        )


def test_a_design_answers_the_request_and_meets_the_hold_point(job, sent, contractor):
    assert sealed_design_state(job).why == "Request to Rowan Ashgrove: sent."
    engineering.sealed_design_record(job=job, actor=contractor, request=sent, **DESIGN)
    assert EngineeringRequest.objects.get().status == "answered"
    assert sealed_design_state(job).met


def test_a_revision_sets_the_earlier_design_aside(job, contractor):
    engineering.sealed_design_record(job=job, actor=contractor, **DESIGN)
    newer = engineering.sealed_design_record(job=job, actor=contractor, **(DESIGN | {"revision": "B"}))
    assert [(row.revision, row.current) for row in SealedDesign.objects.order_by("pk")] == [
        ("", False),
        ("B", True),
    ]
    assert str(newer) == "S-1 B"


def test_a_written_acceptance_stands_in_its_place(job, contractor):
    values = DESIGN | {"route": "accepted", "licence": "", "reference": "Letter 12"}
    engineering.sealed_design_record(job=job, actor=contractor, **values)
    assert "accepted in writing by the authority" in sealed_design_state(job).why


@pytest.mark.parametrize(
    ("values", "sentence"),
    [
        ({"licence": " "}, "Licence: read nothing"),
        ({"reference": ""}, "Reference: read nothing"),
        ({"signed_by": ""}, "Signed by: read nothing"),
        ({"received_on": ago(4)}, "Received on: read .* the date on the design"),
        ({"received_on": today() + timedelta(days=1)}, "Received on: read .* or earlier"),
        ({"route": "napkin"}, "Route: read 'napkin'"),
        ({"cure_days": 0}, "Cure: read 0 days"),
    ],
)
def test_what_can_not_be_used_is_said_and_nothing_is_kept(job, contractor, values, sentence):
    with pytest.raises(Refused, match=sentence):
        engineering.sealed_design_record(job=job, actor=contractor, **(DESIGN | values))
    assert not SealedDesign.objects.exists()
    assert not job.events.exists()


def test_a_request_of_another_job_is_refused(company, sent, contractor):
    with pytest.raises(Refused, match="another job"):
        engineering.sealed_design_record(job=make_job(company), actor=contractor, request=sent, **DESIGN)


PNG = (
    b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR\x00\x00\x00\x01\x00\x00\x00\x01\x08\x00\x00\x00\x00:~\x9bU"
    b"\x00\x00\x00\nIDATx\x9cc`\x00\x00\x00\x02\x00\x01H\xaf\xa4q\x00\x00\x00\x00IEND\xaeB`\x82"
)


@pytest.mark.parametrize(
    ("name", "content", "ending"),
    [("../../seal.exe", b"%PDF-1.7\n%%EOF", ".pdf"), ("scan.pdf", PNG, ".png")],
)
def test_a_document_is_named_by_its_content(job, contractor, name, content, ending):
    design = engineering.sealed_design_record(
        job=job, actor=contractor, document=SimpleUploadedFile(name, content), **DESIGN
    )
    kept = design.document.name
    assert kept.startswith(f"documents/{job.pk}/")
    assert kept.endswith(ending)
    assert "seal" not in kept


@pytest.mark.parametrize(
    ("name", "content"),
    [
        ("plan.pdf", b"<html><script>alert(1)</script>"),
        ("plan.pdf", b""),
        ("plan.png", PNG[:30]),
        ("plan.svg", b"<svg xmlns='http://www.w3.org/2000/svg'/>"),
        ("plan.pdf", b"GIF89a\x01\x00\x01\x00\x00\x00\x00;"),
    ],
)
def test_what_is_neither_pdf_nor_picture_is_refused(job, contractor, name, content):
    with pytest.raises(Refused, match=f"Document: read '{name}'") as refused:
        engineering.sealed_design_record(
            job=job, actor=contractor, document=SimpleUploadedFile(name, content), **DESIGN
        )
    assert refused.value.field == "document"
    assert not SealedDesign.objects.exists()
