"""Labels: one for every kind of part and every bag, with side, plate, size and code; true to size, no word over a cut."""

from __future__ import annotations

import itertools

import pytest

from planner.output import SIZES, PaperName, head_of, pdf
from planner.output.paper_files.sheet import Picture
from planner.output.papers.bags import bags_of
from planner.output.papers.labels import COLUMNS_N, HIGH_MM, labels, tags_of
from planner.plan import Plan
from tests.output.conftest import BARE, MakePlan
from tests.output.pages import pages_of


def test_every_part_and_every_bag_has_its_label(plan: Plan) -> None:
    """Seventeen kinds and eight bags; the jaws lie on plate 2, the cuff is mirrored, the lock pin keeps 100 %."""
    tags = {tag.name: tag for tag in tags_of(plan, head_of(plan))}

    assert len(tags) == len(plan.parts) + len(bags_of(plan.job))
    assert tags["jaw × 2"].first == "plate 2, bag 3, not mirrored"
    assert tags["cuff"].first == "plate 3, bag 2, mirrored"
    assert tags["cuff"].second == "R-07 · 106.5 % · left side"
    assert tags["lock-pin"].second == "R-07 · 100 % · left side"
    assert tags["bag 2"].first == "cuff, saddle, buckle and lock-pin"


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_labels_are_cut_apart_with_their_letter(plan: Plan, paper: PaperName) -> None:
    """As many letters L of 9 mm as labels, and every cut line as far from the next as a label is high."""
    sheet = labels(plan, SIZES[paper])
    pages = pages_of(pdf([sheet], head_of(plan), SIZES[paper]))
    tags_n = len(tags_of(plan, head_of(plan)))

    assert sum(page.letters_of(9.0 * 72.0 / 25.4).count("L") for page in pages) == tags_n
    for page in pages:
        heights = sorted(
            {round(ends[0][1], 2) for _, ends in page.strokes if len(ends) == 2 and ends[0][1] == ends[1][1]}
        )
        apart = [b - a for a, b in itertools.pairwise(heights)]
        assert sum(abs(one - HIGH_MM) < 0.2 for one in apart) >= (tags_n // len(pages)) // COLUMNS_N - 1
    assert len(pages) == len(sheet.cards) == 1


@pytest.mark.parametrize("name", ["long name " * 6, "v17-" * 20, "W" * 900])
def test_a_long_name_stays_whole_inside_its_label(make_plan_of: MakePlan, name: str) -> None:
    """By Fira Sans' own widths nothing reaches over its label; sixty letters stand whole, and only what no label holds is cut."""
    from reportlab.pdfbase.pdfmetrics import stringWidth

    from planner.output.paper_files.type_face import REGULAR
    from planner.output.paper_files.type_face import letters as registered

    registered()
    plan = make_plan_of(text=BARE.replace('name = "a"', f'name = "{name}"'))
    size = SIZES["a4"]
    (card,) = labels(plan, size).cards
    drawing = next(block.drawing for block in card.blocks if isinstance(block, Picture))
    texts = "".join(label.text.replace(" ", "") for label in drawing.labels)
    assert name.replace(" ", "")[:80] in texts
    assert ("…" in texts) == (len(name) > 100)
    for label in drawing.labels:
        assert label.at[1] % HIGH_MM >= 0.3 * label.size_mm  # what hangs below the line stays above the cut
        column = int(label.at[0] // (size.inner_mm[0] / COLUMNS_N))
        end = label.at[0] + stringWidth(label.text, REGULAR, label.size_mm)
        assert end <= size.inner_mm[0] / COLUMNS_N * (column + 1), label.text
