"""Photos: checked, decoded, encoded again without metadata, and kept under a name that tells nothing."""

from __future__ import annotations

import hashlib
import io
import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass

from django.core.files.base import ContentFile
from django.core.files.uploadedfile import UploadedFile
from django.db import transaction
from PIL import Image, ImageOps

from projects.errors import Refused
from projects.models import Job, Photo, User
from projects.permissions import require
from projects.services.events import event_record
from projects.services.locking import job_lock

MAX_BYTES = 15 * 1024 * 1024
MAX_PIXELS = 50_000_000
#: The long side that is kept; enough to read a label on a beam.
KEPT_SIDE = 2560
ENDINGS = {"JPEG": ("jpg", "image/jpeg"), "PNG": ("png", "image/png"), "WEBP": ("webp", "image/webp")}
ACCEPTED = "a JPEG, PNG or WebP picture of at most 15 MB and 50 million dots"


@dataclass(frozen=True)
class CleanPicture:
    """A picture as it will be kept."""

    content: bytes
    extension: str
    content_type: str
    width: int
    height: int


def picture_clean(upload: UploadedFile, *, field: str = "upload", label: str = "Photo") -> CleanPicture:
    """Decode and encode again. Raises Refused with one sentence for anything that is not a picture."""
    name = repr((upload.name or "a file without a name")[:80])
    if not upload.size:
        raise Refused(f"{label}: read {name}, which is empty; accepted is {ACCEPTED}.", field=field)
    if upload.size > MAX_BYTES:
        size = upload.size / 1024 / 1024
        raise Refused(f"{label}: read {name} of {size:.1f} MB; accepted is {ACCEPTED}.", field=field)
    try:
        upload.seek(0)
        with warnings.catch_warnings():
            warnings.simplefilter("error")
            with Image.open(upload, formats=tuple(ENDINGS)) as opened:
                kind, width, height = opened.format or "", opened.width, opened.height
                # Before anything is decoded: a small file can unpack to gigabytes.
                if width * height <= MAX_PIXELS:
                    return _encoded(opened, kind)
    except Exception as broken:
        raise Refused(
            f"{label}: read {name}, whose content is not a picture; accepted is {ACCEPTED}.", field=field
        ) from broken
    raise Refused(
        f"{label}: read a picture of {width} by {height} dots; accepted is {ACCEPTED}.", field=field
    )


def _encoded(opened: Image.Image, kind: str) -> CleanPicture:
    extension, content_type = ENDINGS[kind]
    picture = ImageOps.exif_transpose(opened)
    transparent = kind != "JPEG" and (picture.mode in ("RGBA", "LA", "PA") or "transparency" in picture.info)
    picture = picture.convert("RGBA" if transparent else "RGB")
    picture.thumbnail((KEPT_SIDE, KEPT_SIDE))
    # Only the dots go on: comments, profiles, places and thumbnails of the original stay behind.
    bare = Image.frombytes(picture.mode, picture.size, picture.tobytes())
    out = io.BytesIO()
    if kind == "PNG":
        bare.save(out, kind, optimize=True)
    else:
        bare.save(out, kind, quality=85)
    return CleanPicture(out.getvalue(), extension, content_type, bare.width, bare.height)


def photo_store(*, job: Job, actor: User, upload: UploadedFile, caption: str = "") -> Photo:
    """Keep a photo with the job. Stores nothing at all when it is refused."""
    require(actor, "add_photo", job)
    clean = picture_clean(upload)
    photo = Photo(
        job=job,
        extension=clean.extension,
        content_type=clean.content_type,
        width=clean.width,
        height=clean.height,
        sha256=hashlib.sha256(clean.content).hexdigest(),
        caption=caption.strip(),
        uploaded_by=actor,
    )
    try:
        with transaction.atomic():
            job_lock(job)
            photo.file.save(f"photo.{clean.extension}", ContentFile(clean.content), save=False)
            photo.full_clean(exclude=["file"])
            photo.save()
            event_record(
                job=job,
                actor=actor,
                verb="photo.added",
                detail=f"Added a photo{': ' + photo.caption if photo.caption else ''}.",
                data={"photo": photo.pk, "sha256": photo.sha256},
            )
    except BaseException:
        if photo.file:
            photo.file.delete(save=False)
        raise
    return photo


@contextmanager
def photo_attached(
    *, job: Job, actor: User, upload: UploadedFile | None, caption: str
) -> Iterator[Photo | None]:
    """A photo kept for what is recorded inside the block; its file goes away again when that is refused."""
    photo = photo_store(job=job, actor=actor, upload=upload, caption=caption) if upload else None
    try:
        yield photo
    except BaseException:
        if photo is not None:
            photo.file.delete(save=False)
        raise
