"""Uploaded papers: what they are is read from their content, never from their name."""

from __future__ import annotations

from dataclasses import dataclass

from django.core.files.uploadedfile import UploadedFile
from PIL import Image

from projects.errors import Refused

MAX_BYTES = 20 * 1024 * 1024
MAX_PIXELS = 60_000_000
IMAGE_ENDINGS = {"JPEG": ".jpg", "PNG": ".png"}
CONTENT_TYPES = {".pdf": "application/pdf", ".jpg": "image/jpeg", ".png": "image/png"}
ACCEPTED = "a PDF, or a JPEG or PNG picture, of at most 20 MB"


@dataclass(frozen=True)
class DocumentKind:
    """What an upload turned out to be."""

    ending: str

    @property
    def content_type(self) -> str:
        """The type it is served as."""
        return CONTENT_TYPES[self.ending]


def document_kind(upload: UploadedFile, *, field: str = "document", label: str = "Document") -> DocumentKind:
    """Look at size, first bytes and, for a picture, its header. Raises Refused with what was read."""
    name = (upload.name or "a file without a name")[:80]
    if not upload.size:
        raise Refused(f"{label}: read {name!r}, which is empty; accepted is {ACCEPTED}.", field=field)
    if upload.size > MAX_BYTES:
        raise Refused(
            f"{label}: read {name!r} of {upload.size / 1024 / 1024:.0f} MB; accepted is {ACCEPTED}.",
            field=field,
        )
    upload.seek(0)
    head = upload.read(5)
    upload.seek(0)
    if head == b"%PDF-":
        return DocumentKind(".pdf")
    try:
        with Image.open(upload, formats=tuple(IMAGE_ENDINGS)) as picture:
            ending = IMAGE_ENDINGS[picture.format or ""]
            if picture.width * picture.height > MAX_PIXELS:
                raise Refused(
                    f"{label}: read a picture of {picture.width} by {picture.height} dots; accepted is at most "
                    f"{MAX_PIXELS // 1_000_000} million dots.",
                    field=field,
                )
            picture.verify()
    except Refused:
        raise
    except Exception as broken:  # whatever a broken picture makes the library raise, the sentence is the same
        raise Refused(
            f"{label}: read {name!r}, whose content is none of these; accepted is {ACCEPTED}.", field=field
        ) from broken
    finally:
        upload.seek(0)
    return DocumentKind(ending)
