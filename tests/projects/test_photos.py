"""Photos: decoded and encoded again, stripped, hidden from strangers; what is no picture stores nothing."""

from __future__ import annotations

import io
import struct
import zlib
from pathlib import Path

import pytest
from django.conf import settings
from django.core.exceptions import PermissionDenied
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse
from PIL import Image

from projects.errors import Refused
from projects.models import Finding, HoldPass, Photo
from projects.services.photos import KEPT_SIDE, MAX_BYTES, MAX_PIXELS, photo_store
from tests.projects.walls import answer_survey

pytestmark = pytest.mark.django_db

SECRET = b"Taken at 14 Larkmoor Lane <script>alert(1)</script>"


def picture(kind="JPEG", size=(60, 40), mode="RGB", **options):
    out = io.BytesIO()
    Image.new(mode, size, 90 if mode == "L" else (90, 120, 30, 255)[: len(mode)]).save(out, kind, **options)
    return out.getvalue()


def upload(content, name="IMG_0001.jpg"):
    return SimpleUploadedFile(name, content, content_type="image/jpeg")


def kept_files():
    root = Path(settings.MEDIA_ROOT)
    return [path for path in root.rglob("*") if path.is_file()] if root.exists() else []


@pytest.mark.parametrize(("kind", "extension"), [("JPEG", "jpg"), ("PNG", "png"), ("WEBP", "webp")])
def test_a_picture_is_kept_under_a_name_of_our_own(job, crew, kind, extension):
    photo = photo_store(job=job, actor=crew, upload=upload(picture(kind), "../../Kitchen wall.php.jpg"))
    (file,) = kept_files()
    assert file.suffix == f".{extension}"
    assert len(file.stem) == 32
    assert "Kitchen" not in photo.file.name
    assert (photo.width, photo.height) == (60, 40)
    with Image.open(file) as again:
        assert again.format == kind


def test_what_the_camera_wrote_beside_the_picture_is_dropped(job, crew):
    exif = Image.Exif()
    exif[0x010E] = SECRET.decode()
    exif[0x0112] = 6
    content = picture(size=(60, 40), exif=exif, comment=SECRET)
    assert SECRET in content
    photo = photo_store(job=job, actor=crew, upload=upload(content))
    (file,) = kept_files()
    assert SECRET not in file.read_bytes()
    with Image.open(file) as again:
        assert not again.getexif()
        assert "comment" not in again.info
    # The turn that the camera noted is made in the dots instead.
    assert (photo.width, photo.height) == (40, 60)


def test_what_hides_behind_a_picture_is_dropped(job, crew):
    photo_store(job=job, actor=crew, upload=upload(picture("PNG") + SECRET))
    assert SECRET not in kept_files()[0].read_bytes()


def test_large_pictures_are_made_smaller_and_clear_ones_stay_clear(job, crew):
    photo = photo_store(job=job, actor=crew, upload=upload(picture(size=(5000, 2500))))
    assert (photo.width, photo.height) == (KEPT_SIDE, KEPT_SIDE // 2)
    photo_store(job=job, actor=crew, upload=upload(picture("PNG", mode="RGBA")))
    photo_store(job=job, actor=crew, upload=upload(picture("JPEG", mode="L")))
    assert Photo.objects.count() == 3


def bomb(width, height):
    """A PNG header that promises many dots in few bytes."""

    def chunk(name, data):
        return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))

    head = struct.pack(">IIBBBBB", width, height, 1, 0, 0, 0, 0)
    rows = zlib.compress(b"\0" * 5000)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", rows) + chunk(b"IEND", b"")


NOT_PICTURES = {
    "text": b"this is a list of joists",
    "svg": b'<svg xmlns="http://www.w3.org/2000/svg" onload="alert(1)"/>',
    "html": b"<!doctype html><script>alert(1)</script>",
    "pdf": b"%PDF-1.7 nothing",
    "empty": b"",
    "gif": picture("GIF"),
    "bmp": picture("BMP"),
    "cut short": picture("JPEG", size=(400, 400))[:300],
    "cut short png": picture("PNG", size=(400, 400))[:60],
    "bomb": bomb(50_000, 50_000),
    "warned of": bomb(11_000, 9_000),
    "too many dots": bomb(8_000, 7_000),
    "too large": b"\xff\xd8\xff" + b"\0" * MAX_BYTES,
}


@pytest.mark.parametrize("what", sorted(NOT_PICTURES))
def test_an_upload_that_is_no_picture_gets_one_sentence_and_stores_nothing(job, crew, what):
    with pytest.raises(Refused) as refusal:
        photo_store(job=job, actor=crew, upload=upload(NOT_PICTURES[what]))
    said = refusal.value.sentence
    assert said.startswith("Photo: read ")
    assert said.endswith("accepted is a JPEG, PNG or WebP picture of at most 15 MB and 50 million dots.")
    assert refusal.value.field == "upload"
    assert not Photo.objects.exists()
    assert not kept_files()
    assert not job.events.exists()


def test_the_limit_of_dots_is_what_the_sentence_says():
    assert MAX_PIXELS == 50_000_000
    assert MAX_BYTES == 15 * 1024 * 1024


def test_a_file_does_not_outlive_the_row_it_was_for(job, crew, monkeypatch):
    def fail(**kwargs):
        raise RuntimeError("the disk of the record is full")

    monkeypatch.setattr("projects.services.photos.event_record", fail)
    with pytest.raises(RuntimeError):
        photo_store(job=job, actor=crew, upload=upload(picture()))
    assert not kept_files()
    assert not Photo.objects.exists()


def test_strangers_add_nothing(job, stranger):
    with pytest.raises(PermissionDenied):
        photo_store(job=job, actor=stranger, upload=upload(picture()))
    assert not kept_files()


def test_the_picture_is_served_to_colleagues_only(job, crew, stranger, client):
    photo = photo_store(job=job, actor=crew, upload=upload(picture("PNG")))
    address = reverse("projects:photo", args=[photo.pk])
    assert client.get(address).status_code == 302
    client.force_login(stranger)
    assert client.get(address).status_code == 404
    client.force_login(crew)
    answer = client.get(address)
    assert answer.status_code == 200
    assert answer["Content-Type"] == "image/png"
    assert answer["X-Content-Type-Options"] == "nosniff"
    assert "no-store" in answer["Cache-Control"]
    assert answer["Content-Disposition"].startswith("inline; filename=")
    assert b"".join(answer.streaming_content) == kept_files()[0].read_bytes()
    kept_files()[0].unlink()
    assert client.get(address).status_code == 404


def test_the_page_keeps_what_was_typed_and_stores_nothing(job, contractor, client):
    client.force_login(contractor)
    page = reverse("projects:finding_new", args=[job.pk, "splice"])
    typed = {
        "observation": "lap", "level": "roof", "how": "direct", "seen_by": "Ines Marlow",
        "seen_on": "2026-01-05", "note": "three laps",
    }  # fmt: skip
    answer = client.post(page, typed | {"upload": upload(b"no picture")})
    text = answer.content.decode()
    assert answer.status_code == 422
    assert "whose content is not a picture" in text
    assert "three laps" in text
    assert 'value="Ines Marlow"' in text
    assert 'href="#id_upload"' in text
    assert not Finding.objects.exists()
    assert not kept_files()
    assert client.post(page, typed | {"upload": upload(picture())}).status_code == 302
    assert Finding.objects.get().photo.caption == "Joist splice or lap over the wall"
    assert len(kept_files()) == 1


def test_a_refused_finding_leaves_no_photo_behind(job, contractor, client):
    client.force_login(contractor)
    page = reverse("projects:finding_new", args=[job.pk, "support_below"])
    typed = {
        "observation": "explained", "level": "below", "how": "direct", "seen_by": "I", "seen_on": "2026-01-05",
    }  # fmt: skip
    answer = client.post(page, typed | {"upload": upload(picture())})
    assert "what the support below belongs to" in answer.content.decode()
    assert not Photo.objects.exists()
    assert not kept_files()


def test_a_photo_is_evidence_enough_for_a_hold_point(job, contractor, client):
    answer_survey(job, contractor, lead="yes")
    client.force_login(contractor)
    page = reverse("projects:hold_record", args=[job.pk, "hazards_cleared"])
    typed = {"checked_by": "Ines Marlow", "checked_on": "2026-01-05", "evidence": "Stripped and wiped."}
    assert "Name a document or choose a photo" in client.post(page, typed).content.decode()
    assert client.post(page, typed | {"upload": upload(picture())}).status_code == 302
    assert HoldPass.objects.get().photo.caption == "Hazards cleared"
