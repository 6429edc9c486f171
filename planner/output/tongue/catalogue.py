"""Catalogues as translators keep them (gettext's .po), read as they are: nothing has to be compiled before a run."""

from __future__ import annotations

import io
import re
from dataclasses import dataclass
from functools import cache
from gettext import GNUTranslations
from pathlib import Path

from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po

CATALOGUES = Path(__file__).parent / "catalogues"
SIGNED = re.compile(r'^"X-Signed-By: *(.*?) *\\n"$', re.MULTILINE)
"""The line of a catalogue's header that names the speaker, by role, who has read it and answers for it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Catalogue:
    """The messages of one language, and which speaker has signed them; empty while nobody has."""

    words: GNUTranslations
    signed_by: str


def catalogue_path(code: str) -> Path:
    """Return the file of a language, by its ISO 639-1 code."""
    return CATALOGUES / f"{code}.po"


@cache
def read_catalogue(code: str) -> Catalogue:
    """Read the catalogue of a language; one that is not shipped is a FileNotFoundError, for no user can name it."""
    raw = catalogue_path(code).read_bytes()
    compiled = io.BytesIO()
    write_mo(compiled, read_po(io.BytesIO(raw), locale=code))
    compiled.seek(0)
    signed = SIGNED.search(raw.decode("utf-8"))
    return Catalogue(words=GNUTranslations(compiled), signed_by=signed[1] if signed else "")
