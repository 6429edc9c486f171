"""The desk on a screen and on a phone, light and dark: nothing is amiss for a reader, in any state."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from tests.desk.served import PATIENCE_MS, without_proofs
from tests.output.page.compared import COLOURS, LAYOUT, grave_of

LOOKS = ((1280, "light", ()), (390, "dark", (*COLOURS, *LAYOUT)))
"""All rules of axe-core once in each state; in the dark, on a phone, those that either can break."""


def test_axe_finds_nothing_serious_in_any_state(address: tuple[str, Path], chromium: Any) -> None:
    """Everything open, a new row of each kind, a refusal at a field and one at the foot; at go, and where nothing goes.

    One page, looked at in each state on a light screen and a dark phone; of the second state, what it has changed.
    """
    url, _ = address
    context = chromium.new_context(viewport={"width": 1280, "height": 900}, bypass_csp=True)
    without_proofs(context)
    context.set_default_timeout(PATIENCE_MS)
    tab = context.new_page()
    wrong: list[str] = []
    tab.on("pageerror", lambda error: wrong.append(str(error)))

    def look(where: str = "html") -> None:
        for width, scheme, only in LOOKS:
            tab.set_viewport_size({"width": width, "height": 900})
            tab.emulate_media(color_scheme=scheme)
            assert grave_of(tab, where, only) == [], (width, scheme)
            assert tab.evaluate("document.documentElement.scrollWidth") <= width

    tab.goto(url)
    tab.wait_for_selector("#verdict[class]")
    tab.evaluate("document.querySelectorAll('details').forEach((d) => { d.open = true; })")
    for kind in ("measure", "hardware", "cord", "strap"):
        tab.click(f"#add-{kind}")
    tab.locator("#rows-strap >> text=keep it").click()
    tab.wait_for_selector("[aria-invalid=true]")
    look()
    tab.fill("#words", "no = [toml")
    tab.click("#save")
    tab.wait_for_selector("#error:not([hidden])")
    tab.evaluate(
        "() => { const e = document.getElementById('percent'); e.value = 45; e.dispatchEvent(new Event('input')); }"
    )
    tab.wait_for_selector("#verdict.no-go")
    look("#answer, #error")
    assert wrong == []
    context.close()
