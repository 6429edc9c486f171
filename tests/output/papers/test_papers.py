"""The papers: what stands on each, in HTML and PDF alike, for a device with a side and for one with nothing."""

from __future__ import annotations

import re

import pytest

from planner.output import SIZES, Sheet, bench_papers, head_of, html, pdf
from planner.output.papers.drill_list import work_of
from planner.output.press.press_html import TEMPLATES
from planner.output.press.sheet import Beside, Block, Facts, Rows, Ticks, Words
from planner.output.words.retold import told
from planner.plan import Plan
from planner.plan.plan import make_plan
from planner.plan.prepare import prepare
from tests.conftest import MakeJob
from tests.output.papers.conftest import BARE, TODAY, MakePlan
from tests.output.papers.pages import pages_of
from tests.shapes import Manifold, cylinder, solid_of

NAMES = [
    "job-sheet",
    "plate-cards",
    "labels",
    "finishing",
    "drill",
    "cut",
    "padding",
    "bags",
    "assembly",
    "test",
    "record",
    "hand-over",
]


def _flat(blocks: tuple[Block, ...]) -> list[Block]:
    """Return blocks with those of two columns among them."""
    found: list[Block] = []
    for block in blocks:
        found += _flat((*block.left, *block.right)) if isinstance(block, Beside) else [block]
    return found


def _words(sheet: Sheet) -> str:
    """Return every word of a paper."""
    told: list[str] = []
    for card in sheet.cards:
        told.append(card.title)
        for block in _flat(card.blocks):
            if isinstance(block, Rows):
                told += [*block.head, *(cell for row in block.rows for cell in row)]
            elif isinstance(block, Facts):
                told += [cell for row in block.rows for cell in row]
            elif isinstance(block, Ticks):
                told += block.steps
            elif isinstance(block, Words):
                told.append(block.text)
    return " | ".join(told)


@pytest.fixture(name="sheets", scope="session")
def _sheets(plan: Plan) -> dict[str, Sheet]:
    return {sheet.name: sheet for sheet in bench_papers(plan, SIZES["a4"])}


def test_every_paper_is_there_in_both_forms(plan: Plan) -> None:
    """Twelve papers: a file each in HTML, a title each in the PDF."""
    sheets = bench_papers(plan, SIZES["a4"])
    text = " ".join(page.text for page in pages_of(pdf(sheets, head_of(plan), SIZES["a4"])))

    assert [sheet.name for sheet in sheets] == NAMES
    assert list(html(sheets, head_of(plan), SIZES["a4"])) == [f"{name}.html" for name in NAMES]
    assert all(card.title in text for sheet in sheets for card in sheet.cards)


def test_a_big_letter_stands_on_every_card(plan: Plan) -> None:
    """Each page of the PDF carries an L of 36 points, each card of the HTML one in a frame; without a side none."""
    sheets, head = bench_papers(plan, SIZES["a4"]), head_of(plan)
    pages = pages_of(pdf(sheets, head, SIZES["a4"]))

    assert all(page.letters_of(36) == "L" for page in pages)
    for sheet in sheets:
        text = html([sheet], head, SIZES["a4"])[f"{sheet.name}.html"]
        assert text.count('class="letter"') == len(sheet.cards)


def test_html_loads_nothing_and_escapes_all(make_plan_of: MakePlan) -> None:
    """A hostile name stays a name in HTML and PDF, and no file asks for another."""
    plan = make_plan_of(text=BARE.replace('name = "x"', 'name = "<script>alert(1)</script>"'))
    sheets, head = bench_papers(plan, SIZES["letter"]), head_of(plan)
    for text in html(sheets, head, SIZES["letter"]).values():
        assert "<script>" not in text
        assert not re.search(r'(src|href)="(https?:)?//', text)
        assert "url(" not in text
        assert "size:Letter" in text
    assert "<script>alert(1)</script>" in pages_of(pdf(sheets, head, SIZES["letter"]))[0].text


def test_papers_are_ink_and_grey() -> None:
    """No colour carries meaning: every colour of the style is a grey."""
    style = (TEMPLATES / "papers.css").read_text(encoding="utf-8")
    for code in re.findall(r"#([0-9a-fA-F]{3,6})\b", style):
        full = code if len(code) == 6 else "".join(2 * digit for digit in code)
        levels = [int(full[k : k + 2], 16) for k in (0, 2, 4)]
        assert max(levels) - min(levels) <= 5, code


def test_a_plate_card_says_what_a_person_at_the_printer_needs(plan: Plan, sheets: dict[str, Sheet]) -> None:
    """Hours, grams, every piece with its caliper reading, the first layer, what to do when it fails."""
    cards = sheets["plate-cards"].cards

    assert len(cards) == len(plan.plates)
    for card, plate in zip(cards, plan.plates, strict=True):
        told = _words(Sheet(name="x", title="x", cards=(card,)))
        assert f"{plate.duration_s.value / 3600:.1f} h" in told
        assert plate.mass_g is not None
        assert f"{plate.mass_g.value:.0f} g" in told or f"{plate.mass_g.value:.1f} g" in told
        for name in {p.part for p in plate.placements}:
            assert name in told
        assert "do not scale, do not mirror" in told
        assert "Pieces that are whole by then" in told
        assert "whole from" in told


def test_mirrored_and_not_mirrored_parts_are_listed_apart(sheets: dict[str, Sheet]) -> None:
    """Cuff and cover are handed and mirrored; every other part stands in the other list."""
    rows = {
        row[0]: row
        for block in _flat(sheets["job-sheet"].cards[0].blocks)
        if isinstance(block, Facts)
        for row in block.rows
    }

    assert rows["mirrored"][1].startswith("cuff and cover")
    assert "deck" in rows["not mirrored"][1]
    assert "cuff" not in rows["not mirrored"][1].replace("cuff strap", "")
    assert rows["worn mass"][1].endswith("of 250 g allowed")


def test_the_drill_list_has_the_wall_that_stays(plan: Plan, sheets: dict[str, Sheet]) -> None:
    """The yoke's bore: from its own finding of matter beside it, after drilling, with the limit."""
    edge = next(f for f in plan.findings if f.rule == "bore.edge" and f.feature.startswith("yoke middle screw"))
    table = next(block for block in sheets["drill"].cards[0].blocks if isinstance(block, Rows))

    assert table.rows[0][0] == "yoke"
    assert "drill 2.94 to 3.10 mm" in table.rows[0][2]
    assert table.rows[0][3:5] == (f"{edge.measured:.2f} mm", f"{edge.limit:.2f} mm")
    assert "Eye protection" in _words(sheets["drill"])


def test_a_reamed_channel_has_its_wall_too(make_job: MakeJob) -> None:
    """A 2 mm bore in the middle of a bar 10 mm wide, at 60 %, reamed to 1.3 mm: 0.6 x 5 - 0.65 = 2.35 mm (by hand)."""
    bar = solid_of(
        Manifold.cube((40.0, 10.0, 10.0), True) - cylinder(2.0, 80, 32).translate((0, 0, -40)).rotate((0, 90, 0))
    )
    text = (
        '[job]\nname = "x"\nmaterial = "petg"\n[size]\npercent = 60.0\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "cover"\n'
        '[[cord]]\nname = "pull"\npart = "a"\ndiameter_mm = 1.0\nchannel_mm = 2.0\npath_mm = 100.0\n'
    )
    plan = make_plan(prepare(make_job(text, a=bar), TODAY))

    work = next(one for one in work_of(plan) if one.feature == "pull")

    assert work.what == "ream the channel to 1.30 mm"
    assert work.left_mm == pytest.approx(2.35, abs=0.01)


def test_hot_water_has_its_caution(sheets: dict[str, Sheet]) -> None:
    """Never on the wearer, and only for shells; the drawn cuff is one."""
    assert "Never on the wearer" in _words(sheets["finishing"])


def test_nothing_to_do_is_said_and_not_left_out(make_plan_of: MakePlan) -> None:
    """A lone plate without side, hardware, cord or padding gives every paper, each saying so."""
    plan = make_plan_of()
    sheets = {sheet.name: sheet for sheet in bench_papers(plan, SIZES["a4"])}

    assert "Nothing is to be drilled" in _words(sheets["drill"])
    assert "nothing is cut" in _words(sheets["cut"])
    assert "no padding" in _words(sheets["padding"])
    assert "names no joint" in _words(sheets["assembly"])
    assert head_of(plan).letter == ""
    assert pages_of(pdf(tuple(sheets.values()), head_of(plan), SIZES["a4"]))


def test_no_paper_promises_what_it_cannot(sheets: dict[str, Sheet]) -> None:
    """The device is called neither safe nor certified, and the hand-over sheet defers."""
    for sheet in sheets.values():
        assert not re.search(r"\b(safe|safely|certified)\b", _words(sheet), re.IGNORECASE)
    assert "prosthetist or therapist" in _words(sheets["hand-over"])


def test_the_hand_over_sheet_names_what_is_there(sheets: dict[str, Sheet], make_plan_of: MakePlan) -> None:
    """The Heron has metal, cord, straps and padding; a lone plate has nothing of that, and its sheet promises none."""
    bare = {sheet.name: sheet for sheet in bench_papers(make_plan_of(), SIZES["a4"])}

    assert "metal screws, nuts or pins, cord, straps and padding" in _words(sheets["hand-over"])
    assert "and nothing else" in _words(bare["hand-over"])


def test_hardware_is_listed_for_sizes_beside_this_one(sheets: dict[str, Sheet]) -> None:
    """The pivot post: 14 mm of stack x 1.065 is 14.9 mm, stock 15; at 116.5 % 16.3 mm, stock 20 (by hand)."""
    table = next(block for block in sheets["bags"].cards[1].blocks if isinstance(block, Rows))
    row = next(row for row in table.rows if row[0] == "pivot post × 2")

    assert row[4] == "15 mm"
    assert row[6] == "20 mm"


def test_bags_hold_everything_once(plan: Plan, sheets: dict[str, Sheet]) -> None:
    """Every part, piece of hardware and cut lies in one bag and in no other."""
    names = [
        row[0].removesuffix(" (mirrored)")
        for block in sheets["bags"].cards[0].blocks
        if isinstance(block, Rows)
        for row in block.rows
    ]
    meant = [p.part.name for p in plan.parts] + [h.name for h in plan.hardware] + [c.name for c in plan.cuts]

    assert sorted(names) == sorted(meant)


def test_names_of_any_length_and_script_are_printed(make_plan_of: MakePlan) -> None:
    """Three thousand letters are cut in the PDF and whole in the HTML; a name that cannot be set is put in words."""
    plan = make_plan_of(text=BARE.replace('name = "a"', f'name = "{"x" * 3000}"').replace('"x"\n', '"漢字"\n'))
    sheets, head = bench_papers(plan, SIZES["a4"]), head_of(plan)
    pages = pages_of(pdf(sheets, head, SIZES["a4"]))

    assert "x" * 3000 in html(sheets, head, SIZES["a4"])["finishing.html"]
    assert all("(name 1) is in CJK letters" in page.text for page in pages if "(name 1)" in page.text)
    assert "job-sheet.html beside this PDF shows them" in " ".join(pages[0].text.split())
    assert "漢字" in html(sheets, head, SIZES["a4"])["finishing.html"]


def test_two_names_that_cannot_be_set_stay_apart(make_plan_of: MakePlan) -> None:
    """Two parts of two Han letters each, one in Hebrew, one with a mark that nobody sees: three numbers, no question mark."""
    names = ("漢字", "仮名", "שלום עולם", "plain\u200e")
    text = BARE.replace('name = "a"', 'name = "a-0"')
    plan = make_plan_of(text=text + "".join(f'[[part]]\nname = "{n}"\nmesh = "a.stl"\nduty = "cover"\n' for n in names))
    sheets, head = bench_papers(plan, SIZES["a4"]), head_of(plan)
    pages = pages_of(pdf(sheets, head, SIZES["a4"]))
    finishing = next(page.text for page in pages if "After printing" in page.text)

    assert {f"(name {n})" for n in (1, 2, 3)} <= set(re.findall(r"\(name \d\)", finishing))
    assert re.search(r"\(name \d\) is in Hebrew letters", finishing)
    assert "(name 4)" not in "".join(page.text for page in pages)
    assert "?" not in finishing
    assert all(name in html(sheets, head, SIZES["a4"])["finishing.html"] for name in names)


UNITS = r"(?:mm/s|mm[²³]?|cm²|°C|%|kg|[gNhsm]|min|EUR|M\d)(?![\w²³])"
NUMBER = r"\d+(?:[.,]\d+)?"
BARE_NUMBERS = (
    r"1\.5 d \+ 1",
    rf"{NUMBER}(?:(?: to (?:\+ )?| × ){NUMBER})*\s?(?:{UNITS})",  # 5 mm, 2.94 to 3.10 mm, 10 × 20 × 3 mm
    rf"× {NUMBER}",  # so many of them, or a factor
    r"\d{4}-\d\d-\d\d|\w{3} \d+ \w{3} \d\d:\d\d",  # days and hours of a calendar
    r"[\w./-]*[A-Za-z#][\w./-]*\d[\w./-]*|[0-9a-f]{16}",  # names: R-07, M3, plate-01.3mf, SHA-256
    rf"\d+,? (?:of \d+ )?{'(?:kinds|features|times|contours|months|digits|pieces?|steps)'}",
    r"(?:[Pp]late|[Bb]ag|No\.|no\.|ISO|sheet|first) \d+",
)


def test_every_number_has_its_unit(plan: Plan) -> None:
    """Lengths, masses, times and shares carry their unit; what is left without one is a count, a day, or a name."""
    bare = []
    for sheet in bench_papers(plan, SIZES["a4"]):
        for card in sheet.cards:
            for text in told(card.blocks):
                rest = text
                for known in BARE_NUMBERS:
                    rest = re.sub(known, "", rest)
                if re.search(r"\d", rest) and not re.fullmatch(r"\d+", text):
                    bare.append((sheet.name, text))

    assert bare == []


def test_the_same_plan_gives_the_same_bytes(plan: Plan) -> None:
    """No clock and no chance in the PDF."""
    sheets, head = bench_papers(plan, SIZES["a4"]), head_of(plan)

    assert pdf(sheets, head, SIZES["a4"]) == pdf(sheets, head, SIZES["a4"])
