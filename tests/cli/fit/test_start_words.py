"""Words of ``start``: measures, side, bed and materials, and one sentence for what cannot be read."""

from __future__ import annotations

from pathlib import Path

import pytest

from planner.cli.fit.start_words import measures_of, only_for_new, printer_of, side_of, spools_of
from planner.errors import CommandError
from planner.job import Station, read_printer


def test_a_measure_names_a_part_or_the_devices_own() -> None:
    """The middle of a part, the device's own number, or a circumference."""
    plain, both, around = measures_of(["cuff=58", "cuff=58/62", "cuff=around:190"], ["cuff"])

    assert plain.device_mm == Station(part="cuff", station_percent=50.0)
    assert both.device_mm == 62.0
    assert (around.kind, around.recipient_mm) == ("around", 190.0)


@pytest.mark.parametrize("word", ["cuff", "cuff=0", "cuff=x", "cuf=58"])
def test_a_measure_that_cannot_be_is_refused(word: str) -> None:
    """The sentence names the word as it was typed."""
    with pytest.raises(CommandError) as caught:
        measures_of([word], ["cuff"])

    assert word in str(caught.value)


def test_side_and_materials() -> None:
    """Left, right or nothing; materials by their shipped names."""
    assert (side_of("left"), side_of(None)) == ("left", None)
    assert [spool.material for spool in spools_of("pla, PETG")] == ["pla", "petg"]
    for wrong in (lambda: side_of("up"), lambda: spools_of("wood")):
        with pytest.raises(CommandError):
            wrong()


def test_a_bed_makes_a_profile_that_loads(tmp_path: Path) -> None:
    """The written profile reads back with the bed that was typed."""
    printer, name, text = printer_of(None, "200x210x220", tmp_path)
    assert text is not None
    (tmp_path / name).write_text(text, encoding="utf-8")

    assert printer.bed.size_mm == (200.0, 210.0)
    assert read_printer(name, tmp_path).bed == printer.bed


def test_a_bed_of_ones_own_makes_no_guess_exact(tmp_path: Path) -> None:
    """A usual least gap of 0.2 to 0.5 mm stays so beside one's own bed: only the bed was stated."""
    usual = read_printer("bench-220", tmp_path)
    _, name, text = printer_of(None, "200x200x180", tmp_path)
    assert text is not None
    (tmp_path / name).write_text(text, encoding="utf-8")
    own = read_printer(name, tmp_path)

    assert own.bed.size_mm == (200.0, 200.0)
    assert (own.least_gap_mm, own.undersize) == (usual.least_gap_mm, usual.undersize)
    assert own.melt_rate_mm3_s == usual.melt_rate_mm3_s


def test_what_only_a_new_job_takes_is_never_ignored() -> None:
    """Answers go into a job that is there; a measure beside them would be lost without a word."""
    only_for_new(Path("job.toml"), measure=[], side=None)

    with pytest.raises(CommandError, match="--measure and --side"):
        only_for_new(Path("job.toml"), measure=["cuff=58"], side="left", bed=None)
