"""The terms at the end of the report."""

from __future__ import annotations

from planner.output.page.terms_section import with_terms


def test_terms_that_a_page_uses_are_explained_and_no_others() -> None:
    """Words of scripts, styles and tags are not read; the section comes before the end of the page's main part."""
    page = with_terms('<main><p class="coupon">Ream the bore.</p><script>var brim</script></main><p>after</p>')

    assert "<dt>ream</dt>" in page
    assert "<dt>coupon</dt>" not in page
    assert "<dt>brim</dt>" not in page
    assert page.index("Ream the bore") < page.index("<dt>ream</dt>") < page.index("</main>") < page.index("after")
