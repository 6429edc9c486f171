"""A language that is none: every message in brackets and a third longer, so that what goes untranslated stands out."""

from __future__ import annotations

import re
from gettext import NullTranslations

from planner.output import Sheet
from planner.output.tongue import ENGLISH_BELOW, Tongue
from planner.output.words.block_texts import texts_of
from planner.plan import Plan

OURS = re.compile(r"«[^«»]*»")
KNOWN = re.compile(r"\d (min|mm|g|h|s|m|kg|mm/s|cm²|mm²|°C)\b|\bund\b|\bb\d+\b|\.toml\b|\.html\b|\.3mf\b")
"""Units, the list of Unicode CLDR, names of bores and endings of files: the same in every language."""


class _Bracketed(NullTranslations):
    """Every message in brackets, and a third longer."""

    def gettext(self, message: str) -> str:
        """Return a message in brackets."""
        return f"«{message}{' ~' * (len(message) // 6)}»"

    def ngettext(self, one: str, more: str, n: int) -> str:
        """Return one of two forms in brackets."""
        return self.gettext(one if n == 1 else more)


PSEUDO = Tongue(code="de", words=_Bracketed(), signed_by="nobody, this is no language")


def untranslated(sheet: Sheet, plan: Plan) -> list[str]:
    """Return what a paper says outside the brackets, but for names, codes, numbers and what stands in English below."""
    assert sheet.head is not None
    head, left = sheet.head, list[str]()
    texts = [head.side, head.maker, head.paged, head.box, head.papers, head.together, head.bar, sheet.title]
    for card in sheet.cards:
        own = [text.split(ENGLISH_BELOW)[0] for text in texts_of(card.blocks)]
        texts += [card.title, *([" ".join(own)] if sheet.name == "labels" else own)]  # a label's words run over lines
    for text in texts:
        rest = text
        while OURS.search(rest):
            rest = OURS.sub("", rest)  # the innermost first
        for name in names_of(plan):
            rest = rest.replace(name, "")
        if re.search(r"[a-z]{2,}", KNOWN.sub("", rest)):
            left.append(text)
    return left


def names_of(plan: Plan) -> list[str]:
    """Return what is named in the job and stands in every language as it was written, the longest first."""
    job = plan.job
    named = [one.name for some in (job.parts, job.hardware, job.cords, job.straps, job.size.measures) for one in some]
    return sorted({job.name, job.recipient, plan.material.name, *named}, key=len, reverse=True)
