"""Bores for screws against tables from outside: ISO 273, and drills for tapping screws of ASME B18.6.4."""

from __future__ import annotations

import pytest

from planner.assembly.bore_ends import bore_leaving, drill_of, drilled_mm, ends_of, printed_ends
from planner.job import Hardware, read_limits, read_tables

LIMITS, TABLES = read_limits(), read_tables()
ISO_273 = {"M2": (2.2, 2.6), "M2.5": (2.7, 3.1), "M3": (3.2, 3.6), "M4": (4.3, 4.8), "M5": (5.3, 5.8), "M6": (6.4, 7.0)}
"""Fine and coarse clearance bores of ISO 273, from memory."""
ISO_CORES = {"M2": 1.509, "M2.5": 1.948, "M3": 2.387, "M4": 3.141, "M5": 4.019, "M6": 4.773, "M8": 6.466}
"""Root of the coarse screw thread, d - 1.22687 P (ISO 724 with the pitches of ISO 261), from memory."""
TAPPING = {  # major and minor diameter, middle of their limits, and the drill for light metal, inch
    "#4": (0.111, 0.084, 0.0960),
    "#6": (0.1355, 0.1015, 0.1160),
    "#8": (0.1625, 0.119, 0.1360),
    "#10": (0.1855, 0.138, 0.1590),
}
"""Type AB tapping screws: limits of ASME B18.6.4 with the usual drills, read in a published table of them."""


@pytest.mark.parametrize("label", ISO_273)
def test_clamped_machine_screws_go_by_the_standard(label: str) -> None:
    """A screw that slides in may sit in a coarse bore of ISO 273, a held one in a fine one; a pivot in neither."""
    size = next(s for s in TABLES.machine_screws if s.label == label).diameter_mm.value
    slides, held, turns = (
        list(printed_ends(size, "machine-screw", fit, LIMITS, TABLES) or ()) for fit in ("sliding", "held", "turning")
    )

    assert slides == pytest.approx([size + 0.1, ISO_273[label][1]])
    assert held == pytest.approx([size, ISO_273[label][0]])
    assert turns == pytest.approx([size + 0.2, size + 0.6])


def test_pins_and_posts_keep_the_play_of_their_fit() -> None:
    """A 5 mm post that turns may have 0.2 to 0.6 mm of play, a held 6 mm pin 0 to 0.1 mm: ISO 273 is no rule there."""
    assert printed_ends(5.0, "binding-post", "turning", LIMITS, TABLES) == (5.2, 5.6)
    assert printed_ends(6.0, "dowel-pin", "held", LIMITS, TABLES) == (6.0, 6.1)


def test_a_number_six_in_2_80_mm_keeps_97_percent_of_its_thread() -> None:
    """(3.505 - 2.80) / (3.505 - 2.78) = 0.97, so 2.80 mm is a good pilot and 3.20 mm, 42 %, is none."""
    ends = printed_ends(3.505, "wood-screw", "pilot", LIMITS, TABLES)

    assert bore_leaving(3.505, 2.78, 0.972) == pytest.approx(2.80, abs=1e-3)
    assert ends is not None
    assert list(ends) == pytest.approx([2.78, 3.1425], abs=1e-4)
    assert ends[0] < 2.80 < ends[1] < 3.20


@pytest.mark.parametrize("label", TAPPING)
def test_published_drills_for_tapping_screws_pass(label: str) -> None:
    """The drills that a table names for type AB screws leave 50 to 100 % of the thread, as our pilots must."""
    major, minor, drill = TAPPING[label]

    share = (major - drill) / (major - minor)
    assert LIMITS.pilot_least_thread_share.value < share < LIMITS.pilot_most_thread_share.value
    assert LIMITS.pilot_least_thread_share.low < share <= LIMITS.pilot_least_thread_share.high + 0.02


@pytest.mark.parametrize("screw", TABLES.wood_screws, ids=lambda screw: screw.label)
def test_pilots_lie_where_plastics_are_drilled(screw: object) -> None:
    """Pilots of 0.75 to 0.85 of the screw are usual in plastics (from memory): each of ours meets that range."""
    size = screw.diameter_mm.value  # type: ignore[attr-defined]
    drill = drilled_mm(size, "wood-screw", "pilot", LIMITS, TABLES)

    assert drill is not None
    assert 0.75 < drill / size < 0.88
    assert drill == pytest.approx(round(drill, 1))


@pytest.mark.parametrize("screw", TABLES.machine_screws, ids=lambda screw: screw.label)
def test_machine_screws_cut_their_thread_from_the_root_of_the_standard(screw: object) -> None:
    """An M3 that cuts its own thread is drilled 2.5 mm, its tapping drill; roots are those of ISO 724."""
    size, root = screw.diameter_mm.value, screw.root_mm.value  # type: ignore[attr-defined]

    assert root == pytest.approx(ISO_CORES[screw.label], abs=2e-3)  # type: ignore[attr-defined]
    assert bore_leaving(size, root, 1.0) == pytest.approx(root)
    assert drilled_mm(3.0, "machine-screw", "pilot", LIMITS, TABLES) == pytest.approx(2.5)


def test_a_bearing_sits_by_its_outside() -> None:
    """One of 8 x 22 x 7 mm, held, wants a printed bore of 22.0 to 22.1 mm, not one of 8."""
    bearing = Hardware(name="b", kind="bearing", diameter_mm=8.0, size_mm=22.0, joins=("a",), fit="held")

    assert ends_of(bearing, "held", LIMITS, TABLES) == pytest.approx((22.0, 22.1))
    assert drill_of(bearing, "held", LIMITS, TABLES) == pytest.approx(22.0)


@pytest.mark.parametrize(("size_mm", "low", "high"), [(None, 4.0, 0.92 * 4.6), (5.0, 4.3, 4.6)])
def test_an_insert_bites_into_a_bore_narrower_than_itself(size_mm: float | None, low: float, high: float) -> None:
    """An M3 insert 4.6 mm wide takes a bore of 4.0 mm; of one 5.0 mm wide nothing is listed: 86 to 92 % of it."""
    insert = Hardware(name="i", kind="insert", diameter_mm=3.0, size_mm=size_mm, joins=("a",))

    assert ends_of(insert, "held", LIMITS, TABLES) == pytest.approx((low, high))
