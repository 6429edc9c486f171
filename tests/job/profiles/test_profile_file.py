"""Profiles: every number has an origin, and the published tables are in them."""

from __future__ import annotations

import csv
import re
from collections.abc import Callable
from dataclasses import fields
from pathlib import Path

import pytest

from planner.errors import ProfileError
from planner.job import (
    Limits,
    Material,
    Printer,
    Settings,
    read_environments,
    read_limits,
    read_material,
    read_printer,
    read_settings,
    read_tables,
    shipped_names,
)
from planner.sourced import Sourced
from tests.shapes import DATA, ROOT

HERE = Path()


def _numbers(record: object) -> list[Sourced]:
    """Return every sourced number of a record."""
    assert isinstance(record, Printer | Material | Settings | Limits)
    return [value for field in fields(record) if isinstance(value := getattr(record, field.name), Sourced)]


def test_there_are_enough_profiles() -> None:
    """Four printers, seven materials and three settings are shipped at least."""
    assert len(shipped_names("printers")) >= 4
    assert len(shipped_names("materials")) >= 7
    assert len(shipped_names("settings")) >= 3


def test_every_shipped_number_has_a_source() -> None:
    """No number of a shipped profile is without a source and a kind other than the user's own."""
    records = [
        *(read_printer(name, HERE) for name in shipped_names("printers")),
        *(read_material(name, HERE) for name in shipped_names("materials")),
        *(read_settings(name, HERE) for name in shipped_names("settings")),
        read_limits(),
    ]
    numbers = [number for record in records for number in _numbers(record)]

    assert len(numbers) > 200
    assert all(number.source and number.kind != "job" for number in numbers)


def test_bench_220_petg_and_standard_carry_the_values_of_the_contract(
    printer: Printer, petg: Material, standard: Settings
) -> None:
    """The three profiles that acceptance checks hold on to have their agreed values."""
    assert (printer.bed.size_mm, printer.bed.height_mm, printer.bed.margin_mm) == ((220.0, 220.0), 240.0, 5.0)
    assert (printer.undersize.upright_mm.low, printer.undersize.upright_mm.value) == (0.10, 0.20)
    assert (printer.undersize.lying_mm.value, printer.undersize.lying_mm.high) == (0.35, 0.50)
    assert (printer.least_gap_mm.value, printer.melt_rate_mm3_s.value, printer.heat_up_s.value) == (0.30, 11.0, 300.0)
    assert (petg.density_g_cm3.value, petg.softens_c.value, petg.price_per_kg.value) == (1.27, 80.0, 22.0)
    assert (petg.nozzle_c.low, petg.nozzle_c.value, petg.nozzle_c.high) == (220.0, 235.0, 260.0)
    assert (standard.layer_height_mm.value, standard.line_width_mm.value, standard.contours_n) == (0.20, 0.45, 3)
    assert (standard.least_layer_s.value, standard.spacing_mm.value) == (8.0, 4.0)


def test_clearance_bores_are_those_of_iso_273() -> None:
    """Machine screw bores equal ISO 273 fine, medium, coarse (transcribed table, tests/data/references)."""
    rows = (DATA / "references" / "iso273_clearance_m2_m10.csv").read_text(encoding="utf-8").splitlines()
    table = {row["size"]: row for row in csv.DictReader(line for line in rows if not line.startswith("#"))}
    for screw in read_tables().machine_screws:
        row = table[screw.label]
        assert [bore.value for bore in screw.bores_mm] == [float(row[key]) for key in ("fine", "medium", "coarse")]


def test_nuts_and_washers_are_those_of_iso_4032_and_7089() -> None:
    """Flats, nut heights and washer diameters equal ISO 4032 and ISO 7089 (transcribed table, tests/data/references)."""
    rows = (DATA / "references" / "fasteners_metric_m2_m8.csv").read_text(encoding="utf-8").splitlines()
    table = {row["size"]: row for row in csv.DictReader(line for line in rows if not line.startswith("#"))}
    for screw in read_tables().machine_screws:
        row = table[screw.label]
        assert screw.nut_flats_mm is not None
        assert screw.nut_height_mm is not None
        assert screw.washer_mm is not None
        found = (screw.nut_flats_mm.value, screw.nut_height_mm.value, screw.washer_mm.value)
        assert found == (float(row["nut_s"]), float(row["nut_m"]), float(row["washer_d2"]))


@pytest.mark.parametrize("screw", read_tables().wood_screws, ids=lambda s: s.label)
def test_wood_screw_diameters_follow_the_gauge_formula(screw: object) -> None:
    """Diameter = 0.060 + 0.013 N inch, exact; and the root is smaller than the shank."""
    assert screw.diameter_mm.value == pytest.approx(25.4 * (0.060 + 0.013 * int(screw.label[1:])), abs=1e-3)  # type: ignore[attr-defined]
    assert screw.root_mm.high < screw.diameter_mm.value  # type: ignore[attr-defined]


def test_densities_lie_in_the_published_table() -> None:
    """PLA 1.24, PETG 1.27, ABS 1.04, ASA 1.07, PA12 1.01, PC 1.20, TPU 1.21 g/cm3 (from memory)."""
    table = {"pla": 1.24, "petg": 1.27, "abs": 1.04, "asa": 1.07, "pa12": 1.01, "pc": 1.20, "tpu": 1.21}
    for name, density in table.items():
        assert read_material(name, HERE).density_g_cm3.value == pytest.approx(density, abs=0.005)


def test_a_parked_car_reaches_what_was_measured() -> None:
    """41 to 76 C inside parked cars (Grundstein et al. 2009)."""
    car = read_environments()["car"].hottest_c

    assert (car.low, car.high) == (41.0, 76.0)


def test_a_users_plain_numbers_do(tmp_path: Path) -> None:
    """A printer profile of plain numbers, as a person writes it, loads."""
    path = tmp_path / "mine.toml"
    path.write_text(
        'about = "mine"\nbed = { shape = "circle", size_mm = [200.0, 200.0], height_mm = 180.0, margin_mm = 5.0 }\n'
        "nozzle_mm = 0.4\nfilament_mm = 1.75\nnozzle_max_c = 250.0\nbed_max_c = 90.0\nenclosed = false\n"
        "speed_max_mm_s = 150.0\nacceleration_max_mm_s2 = 2000.0\ncorner_speed_mm_s = 8.0\nmelt_rate_mm3_s = 10.0\n"
        "undersize = { upright_mm = 0.1, upright_low_mm = 0.05, upright_high_mm = 0.2, lying_mm = 0.2 }\n"
        "least_gap_mm = 0.25\nheat_up_s = 200.0\nplate_change_s = 600.0\n"
        "power_w = { heating = 200.0, printing = 80.0 }\nfailure_per_hour = 0.01\n",
        encoding="utf-8",
    )
    mine = read_printer("mine.toml", tmp_path)

    assert mine.undersize.upright_mm.low == 0.05
    assert mine.nozzle_mm.kind == "job"


def test_a_round_bed_is_written_by_its_diameter(tmp_path: Path) -> None:
    """As a ruler tells it: once; two sizes that differ are still refused."""
    source = (ROOT / "profiles" / "printers" / "bench-220.toml").read_text(encoding="utf-8")
    bed = next(line for line in source.splitlines() if line.startswith("bed ="))
    for told, name in (("diameter_mm = 180.0", "round"), ("size_mm = [180.0, 180.0]", "twice")):
        own = f'bed = {{ shape = "circle", {told}, height_mm = 200.0, margin_mm = 3.0 }}'
        (tmp_path / f"{name}.toml").write_text(source.replace(bed, own), encoding="utf-8")

    assert read_printer("round.toml", tmp_path).bed == read_printer("twice.toml", tmp_path).bed
    assert read_printer("round.toml", tmp_path).bed.usable_mm == (174.0, 174.0)
    bad = source.replace(bed, bed.replace('"rectangle"', '"circle"').replace("[220.0, 220.0]", "[220.0, 200.0]"))
    (tmp_path / "bad.toml").write_text(bad, encoding="utf-8")
    with pytest.raises(ProfileError, match="diameter_mm"):
        read_printer("bad.toml", tmp_path)


def test_a_profile_with_both_corner_rules_is_refused(tmp_path: Path) -> None:
    """One corner rule is needed, not two and not none."""
    source = (ROOT / "profiles" / "printers" / "bench-220.toml").read_text(encoding="utf-8")
    (tmp_path / "p.toml").write_text("corner_speed_mm_s = 8.0\n" + source, encoding="utf-8")

    with pytest.raises(ProfileError, match="corner"):
        read_printer("p.toml", tmp_path)


@pytest.mark.parametrize(
    ("kind", "name", "key", "absurd", "read"),
    [
        ("printers", "bench-220", "upright_mm", "-0.9", read_printer),
        ("materials", "petg", "along", "5000.0", read_material),
        ("materials", "petg", "modulus_along_mpa", "900000.0", read_material),
    ],
)
def test_what_no_printer_and_no_plastic_can_be_is_refused(
    kind: str, name: str, key: str, absurd: str, read: Callable[[str, Path], object], tmp_path: Path
) -> None:
    """A bore that prints 0.9 mm wider, plastic as strong as spring wire or four times as stiff as steel: slips."""
    source = (ROOT / "profiles" / kind / f"{name}.toml").read_text(encoding="utf-8")
    own, changed = re.subn(rf"({key} = ){{[^}}]*}}", rf"\g<1>{absurd}", source)
    (tmp_path / "own.toml").write_text(own, encoding="utf-8")

    assert changed == 1
    with pytest.raises(ProfileError, match=f"{key}.*cannot be"):
        read("own.toml", tmp_path)


def test_own_limits_may_be_a_few_lines(tmp_path: Path) -> None:
    """One number in a user's own file replaces that one; a mistyped key is named."""
    (tmp_path / "own.toml").write_text("wall_load_lines = 4.0\n", encoding="utf-8")
    (tmp_path / "bad.toml").write_text("wall_lode_lines = 4.0\n", encoding="utf-8")
    own, usual = read_limits("own.toml", tmp_path), read_limits()

    assert own.wall_load_lines.value == 4.0
    assert own.wall_plain_lines == usual.wall_plain_lines
    with pytest.raises(ProfileError, match="wall_load_lines"):
        read_limits("bad.toml", tmp_path)


BENCH = (ROOT / "profiles" / "printers" / "bench-220.toml").read_text(encoding="utf-8")


def _with_bed(folder: Path, bed: str) -> Printer:
    """Read the bench printer with another bed."""
    lines = [f"bed = {{ {bed} }}" if line.startswith("bed =") else line for line in BENCH.splitlines()]
    (folder / "own.toml").write_text("\n".join(lines), encoding="utf-8")
    return read_printer("own.toml", folder)


def test_a_bed_may_be_any_polygon_with_zones(tmp_path: Path) -> None:
    """A polygon's size is that of its box; zones are kept as they are written."""
    text = 'shape = "polygon", outline_mm = [[0, 0], [200, 0], [100, 150]], height_mm = 180, margin_mm = 4'
    bed = _with_bed(tmp_path, text + ", zones_mm = [[[90, 20], [110, 20], [100, 40]]]").bed

    assert (bed.shape, bed.size_mm, len(bed.outline_mm)) == ("polygon", (200.0, 150.0), 3)
    assert bed.zones_mm == (((90.0, 20.0), (110.0, 20.0), (100.0, 40.0)),)


@pytest.mark.parametrize(
    ("bed", "told"),
    [
        ('shape = "polygon", outline_mm = [[0, 0], [9, 0]], height_mm = 9, margin_mm = 0', "this is not a polygon"),
        ('shape = "polygon", outline_mm = [[0,0],[9,9],[9,0],[0,9]], height_mm = 9, margin_mm = 0', "not a polygon"),
        ('shape = "polygon", outline_mm = [[5,0],[90,0],[9,90]], height_mm = 9, margin_mm = 0', "front left corner"),
        ('shape = "polygon", outline_mm = [[0,0],[90,0],[0,90]], height_mm = 9, margin_mm = 40', "leaves nothing"),
        ('shape = "polygon", size_mm = [9, 9], outline_mm = [[0,0],[9,0],[0,9]], height_mm = 9, margin_mm = 0', "size"),
        ('shape = "polygon", height_mm = 9, margin_mm = 0', "outline_mm"),
        ("size_mm = [90, 90], height_mm = 9, margin_mm = 0, zones_mm = [[[0,0],[99,0],[99,99],[0,99]]]", "zones leave"),
        ("size_mm = [90, 90], height_mm = 9, margin_mm = 0, zones_mm = 3", "a list of polygons"),
        ("size_mm = [90, 90], height_mm = 9, margin_mm = 0, zones_mm = [[[0, 0, 1]]]", "rows of 2 numbers"),
        ("size_mm = [90, 90], height_mm = 9, margin_mm = 0, zones_mm = [[[0, nan], [1, 0], [1, 1]]]", "finite"),
    ],
)
def test_a_bed_that_cannot_be_is_refused_in_one_sentence(tmp_path: Path, bed: str, told: str) -> None:
    """No polygon, a box that starts elsewhere, nothing left of it: each is named."""
    with pytest.raises(ProfileError, match=told):
        _with_bed(tmp_path, bed)


@pytest.mark.parametrize(
    ("folder", "read"),
    [
        ("printers", lambda path: read_printer(path.name, path.parent)),
        ("materials", lambda path: read_material(path.name, path.parent)),
        ("settings", lambda path: read_settings(path.name, path.parent)),
        ("limits", lambda path: read_limits(path.name, path.parent)),
    ],
)
def test_what_a_profile_is_for_is_told_in_words(folder: str, read: Callable[[Path], object], tmp_path: Path) -> None:
    """A list under ``about`` is refused in every kind of profile, though nothing is computed from it."""
    shipped = next((ROOT / "profiles" / folder).glob("*.toml"))
    text = re.sub(r"(?m)^about = .*\n", "", shipped.read_text(encoding="utf-8"))
    path = tmp_path / "mine.toml"
    path.write_text(f"about = []\n{text}", encoding="utf-8")
    with pytest.raises(ProfileError, match="about: a text is needed"):
        read(path)


def test_a_fast_printer_is_no_slip(tmp_path: Path) -> None:
    """2,000 mm/s are read as before: what bounds a strength bounds no speed."""
    source = (ROOT / "profiles" / "printers" / "bench-220.toml").read_text(encoding="utf-8")
    own, changed = re.subn(r"(?m)^speed_max_mm_s = .*$", "speed_max_mm_s = 2000.0", source)
    (tmp_path / "own.toml").write_text(own, encoding="utf-8")

    assert changed == 1
    assert read_printer("own.toml", tmp_path).speed_max_mm_s.value == 2000.0
