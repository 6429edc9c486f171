"""The glossary: each term has one meaning and is used somewhere; the report explains those that it uses."""

from __future__ import annotations

import re
from pathlib import Path

from planner.job import read_glossary, terms_in
from planner.output.page.terms_section import with_terms

ROOT = Path(__file__).parents[3]


def test_every_term_is_used_and_explained_without_itself() -> None:
    """A term that no text of ours uses, or whose meaning begins with itself, helps nobody."""
    texts = " ".join(
        path.read_text(encoding="utf-8")
        for pattern in ("planner/**/*.py", "planner/**/*.j2", "README.md")
        for path in ROOT.glob(pattern)
    )
    for term in read_glossary():
        assert term.stands_in(texts), term.word
        assert term.word not in term.means.lower(), term.word


def test_a_page_explains_the_terms_that_it_shows_and_no_others() -> None:
    """Words in scripts and in tags count for nothing."""
    html = with_terms('<main class="brim"><p>Bores print undersize.</p></main><script>"coupon"</script>')

    assert re.findall(r"<dt>([^<]*)</dt>", html) == ["undersize"]
    assert html.endswith('</main><script>"coupon"</script>')


def test_a_term_is_found_in_the_plural_and_in_its_other_forms() -> None:
    """``reamed`` is ream, ``coupons`` coupon; ``hold`` is not in ``household`` nor in ``threshold``."""
    assert [term.word for term in terms_in("Reamed coupons of the household, at the threshold.")] == ["coupon", "ream"]
