"""Check: verdicts, counts, guesses, questions and overrides."""

from __future__ import annotations

import math
import shutil
from datetime import date
from pathlib import Path

import pytest

from planner.finding import Finding, Verdict
from planner.job import job_of_folder, read_job, read_printer
from planner.mesh import Solid, copy_at, write_3mf
from planner.plan import Prepared, prepare
from planner.rules import Checked, check
from planner.rules.fit.cord_force import cord_pull_n
from planner.rules.fit.small_part import largest_small
from planner.size import window
from planner.survey import hull_points
from tests.conftest import MakeJob
from tests.shapes import DATA, Manifold, ball, bored_plate, cuboid, cylinder, solid_of, written

TODAY = date(2026, 12, 1)
PART = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\npose = [0, 0, -1]\n'


def _checked(job: object) -> Checked:
    """Prepare and check a job at its own scale."""
    ready = prepare(job, TODAY)  # type: ignore[arg-type]
    return check(ready.bound, ready.sizing.percent)


def _rules(checked: Checked, verdict: Verdict) -> set[str]:
    """Return the rules that gave a verdict."""
    return {finding.rule for finding in checked.findings if finding.verdict is verdict}


def _of(checked: Checked, rule: str) -> Finding:
    """Return the first finding of a rule."""
    return next(finding for finding in checked.findings if finding.rule == rule)


def test_the_block_of_the_contract_is_good_for_the_heron(heron: Path, tmp_path: Path) -> None:
    """The job of the contract's own text, laid beside the Heron's meshes, gives go-with-work or better.

    With a quarter of its load: half of it takes 36 % of the jaw's low strength, and at the 60 °C that the job states no
    more than 35 % of that is left, which is a hold since it is asked where the load acts.
    """
    text = (DATA / "jobs" / "interface.toml").read_text(encoding="utf-8")
    assert "load_n = 40.0" in text
    text = text.replace("load_n = 40.0", "load_n = 10.0")
    for name, mm, n in (("bracket screw", 3.3, 4), ("knob screw", 3.45, 1)):  # the deck has their bores since
        text += f'\n[[hardware]]\nname = "{name}"\nkind = "machine-screw"\ndiameter_mm = 3.0\nbore_mm = {mm}\n'
        text += f'fit = "sliding"\njoins = ["deck"]\nstack_mm = 14.0\nnut = "plain"\ncount = {n}\n'
    shutil.copytree(heron.parent / "parts", tmp_path / "parts")
    (tmp_path / "job.toml").write_text(text, encoding="utf-8")
    checked = _checked(read_job(tmp_path / "job.toml"))

    assert checked.verdict.passes, [f.why for f in checked.findings if not f.verdict.passes]


def test_the_heron_goes_with_its_two_pieces_of_work(heron: Path) -> None:
    """The sample device needs a clearance bore and a pilot drilled, and nothing else."""
    checked = _checked(read_job(heron))

    assert checked.verdict is Verdict.GO_WITH_WORK
    assert [f.part for f in checked.findings if f.verdict is Verdict.GO_WITH_WORK] == ["yoke", "anchor"]


def test_a_job_without_hardware_never_goes_over_bores_on_load_parts(make_job: MakeJob) -> None:
    """Nothing passes in silence: an unclaimed bore holds, unless the part says to ignore it."""
    plate = bored_plate(60, 40, 8, [(20, 20, 5.3, 48)])
    held = _checked(make_job(PART, a=plate))
    ignored = _checked(make_job(PART + "ignore_bores = true\n", a=plate))

    assert held.verdict is Verdict.HOLD
    assert "bore.unclaimed" in _rules(held, Verdict.HOLD)
    assert ignored.verdict is Verdict.GO
    assert held.checked_n < held.features_n


def test_a_part_drawn_at_another_size_is_found_by_its_bores(make_job: MakeJob) -> None:
    """A joined part whose bore is 12 % larger has no bore of the size named: a hold that asks about its scale."""
    post = '[[hardware]]\nname="p"\nkind="binding-post"\ndiameter_mm=5.0\nbore_mm=5.3\njoins=["a","b"]\n'
    text = PART + '[[part]]\nname = "b"\nmesh = "b.stl"\nduty = "cover"\n' + post
    plate = bored_plate(60, 40, 8, [(20, 20, 5.3, 48)])
    checked = _checked(make_job(text, a=plate, b=bored_plate(30, 30, 5, [(15, 15, 5.3, 48)]).scaled(1.12)))

    missing = _of(checked, "bore.missing")
    assert (missing.verdict, missing.part) == (Verdict.HOLD, "b")
    assert "112.0 %" in missing.why


def test_parts_that_meet_at_different_scales_hold(make_job: MakeJob) -> None:
    """A running gap between a part at 100 % and one at 110 % holds; at 100 % it does not."""
    text = (
        PART
        + '[[part]]\nname = "b"\nmesh = "b.stl"\nduty = "cover"\nscale = 100.0\n[[gap]]\nbetween = ["a", "b"]\ndrawn_mm = 0.4\n'
    )
    ready = prepare(make_job(text, a=cuboid(40, 30, 6), b=cuboid(20, 20, 5)), TODAY)

    assert _of(check(ready.bound, 110.0), "size.apart").verdict is Verdict.HOLD
    assert _of(check(ready.bound, 100.0), "size.apart").verdict is Verdict.GO
    found = window(ready.bound.rules, 100.0).workable.intervals
    assert [(i.low_percent, i.high_percent) for i in found] == [pytest.approx((100 / 1.005, 100.5))]


def test_the_same_shape_at_two_sizes_is_a_hold(make_job: MakeJob) -> None:
    """Two sizes mixed in one job are named."""
    text = PART + '[[part]]\nname = "b"\nmesh = "b.stl"\nduty = "cover"\n'
    plate = solid_of(Manifold.cube((60, 40, 8)) + cylinder(10, 20, 24))
    checked = _checked(make_job(text, a=plate, b=plate.scaled(1.12)))

    assert "size.mixed" in _rules(checked, Verdict.HOLD)


def test_a_changed_file_and_a_file_already_at_size_hold(make_job: MakeJob, tmp_path: Path) -> None:
    """Another SHA-256 than the job's, or a name that says 112pc, each give their own hold."""
    changed = _checked(make_job(PART + f'sha256 = "{"0" * 64}"\n', a=cuboid(40, 30, 6)))
    written(cuboid(40, 30, 6), tmp_path / "a-112pc-left.stl")
    sized = _checked(make_job(PART.replace("a.stl", "a-112pc-left.stl")))

    assert "mesh.changed" in _rules(changed, Verdict.HOLD)
    assert "mesh.sized" in _rules(sized, Verdict.HOLD)


@pytest.mark.parametrize(("size", "unit"), [((5, 3, 1.4), ""), ((1500, 300, 60), "")])
def test_sizes_that_are_implausible_for_the_unit_hold(
    size: tuple[float, float, float], unit: str, make_job: MakeJob
) -> None:
    """A device of 5 mm or of 1.5 m is probably drawn in another unit."""
    checked = _checked(make_job(PART + unit, a=cuboid(*size)))

    assert "mesh.unit" in _rules(checked, Verdict.HOLD)


def test_measures_that_disagree_or_are_stale_hold(make_job: MakeJob) -> None:
    """Over 5 % apart is a hold; over three months old for a child is a hold."""
    measures = (
        '[[size.measure]]\nname="w"\nkind="width"\nrecipient_mm=58.0\ndevice_mm=62.0\ntaken=2026-08-01\n'
        '[[size.measure]]\nname="l"\nkind="length"\nrecipient_mm=150.0\ndevice_mm=120.0\n[use]\nrecipient_age_years=9\n'
    )
    checked = _checked(make_job(PART + measures, a=cuboid(40, 30, 6)))

    assert {"size.disagree", "size.stale"} <= _rules(checked, Verdict.HOLD)
    assert checked.scale_percent == pytest.approx(125.0)


def test_a_hold_is_lifted_by_role_and_reason_and_stays_in_the_record(make_job: MakeJob) -> None:
    """An override lifts a hold, not a no-go, and its reason stands beside the finding."""
    override = '[[override]]\nrule="mesh.changed"\nrole="chapter lead"\nreason="same part, saved again"\n'
    checked = _checked(make_job(PART + f'sha256 = "{"0" * 64}"\n' + override, a=cuboid(40, 30, 6)))

    assert checked.verdict is Verdict.GO
    assert "saved again" in _of(checked, "mesh.changed").caution


def test_an_unknown_is_judged_at_its_middle_and_the_deciding_measurement_is_asked(make_job: MakeJob) -> None:
    """A bore that fits at 0.2 mm undersize and not at 0.3 is go, with the question that decides."""
    post = '[[hardware]]\nname="p"\nkind="dowel-pin"\ndiameter_mm=5.0\nbore_mm=5.45\nfit="turning"\njoins=["a"]\n'
    checked = _checked(make_job(PART + post, a=bored_plate(60, 40, 8, [(20, 20, 5.45, 96)], deep=5)))

    assert checked.verdict is Verdict.GO
    assert "undersize" in _of(checked, "bore.tight").caution
    assert "smaller" in checked.questions[0].text
    assert len(checked.questions) <= 3


def test_a_pilot_is_judged_by_the_thread_that_it_leaves(make_job: MakeJob) -> None:
    """Blind #6 pilots: 3.0 prints at 2.8 and keeps 97 %; 2.6 is drilled; 3.6 prints at 3.4, 14 %, and takes a #8."""
    screw = '[[hardware]]\nname="s"\nkind="wood-screw"\ndiameter_mm=3.505\nbore_mm={}\nfit="pilot"\njoins=["a"]\n'
    good, narrow, wide = (
        _checked(make_job(PART + screw.format(d), a=bored_plate(40, 30, 12, [(20, 15, d, 96)], deep=8)))
        for d in (3.01, 2.6, 3.6)
    )

    assert good.verdict is Verdict.GO
    assert "drill 2.40 to 3.00 mm, no deeper than 8.0 mm" in _of(narrow, "bore.tight").remedy
    assert _of(wide, "bore.loose").remedy == "take #8 wood-screw instead"


def test_a_nuts_pocket_is_found_and_judged(make_job: MakeJob) -> None:
    """A hexagonal pocket of 5.7 mm across flats takes an M3 nut (5.5, ISO 4032) at 110 % and not at 90 %."""
    corner = 5.7 / math.cos(math.pi / 6)
    body = Manifold.cube((20, 20, 10), True) - cylinder(corner, 6, 6).translate((0, 0, 2))
    nut = f'[[hardware]]\nname="n"\nkind="nut"\ndiameter_mm=3.0\nbore_mm={corner}\njoins=["a"]\n'
    ready = prepare(make_job(PART + nut, a=solid_of(body)), TODAY)
    at = {s: _of(check(ready.bound, s), "seat.tight") for s in (90.0, 95.0, 110.0)}

    assert at[110.0].measured == pytest.approx(1.1 * 5.7 - 0.2, abs=1e-3)
    assert [one.verdict for one in at.values()] == [Verdict.NO_GO, Verdict.GO_WITH_WORK, Verdict.GO]
    assert not ready.bound.guesses or "seat" not in ready.bound.guesses[0].what


def test_a_small_part_holds_for_a_child_under_three() -> None:
    """A ball of 31.75 mm just fits the cylinder of 16 CFR 1501; a rod fits up to 65.4 mm, tilted (geometry)."""
    small = largest_small(hull_points(ball(31.75, 128).vertices_mm))
    rod = largest_small(hull_points(cuboid(65.0, 0.5, 0.5).vertices_mm))

    assert small == pytest.approx(1.0, abs=0.01)
    assert 0.97 < rod < 1.01


def test_the_capstan_equation_gives_the_published_values() -> None:
    """T2/T1 = e^(mu theta): mu 0.2 and 90 degrees 1.3691, 180 degrees 1.8745; mu 0.3 and 180 degrees 2.5663."""
    assert cord_pull_n(1.0, 1.0, 90.0, 0.2) == pytest.approx(1.3691, abs=1e-4)
    assert cord_pull_n(1.0, 1.0, 180.0, 0.3) == pytest.approx(2.5663, abs=1e-4)


def test_a_cord_force_over_a_fifth_of_the_pull_holds(make_job: MakeJob) -> None:
    """40 N over 120 degrees of bends is 61 N: a hold for someone who pulls 200 N, none for 400 N."""
    text = (
        PART
        + '[[cord]]\nname="c"\npart="a"\ndiameter_mm=1.0\nchannel_mm=2.5\nlever=1.0\nbends_deg=120.0\n[use]\nload_n=40.0\npull_n={}\n'
    )

    assert "cord.force" in _rules(_checked(make_job(text.format(200.0), a=cuboid(40, 30, 6))), Verdict.HOLD)
    assert "cord.force" in _rules(_checked(make_job(text.format(400.0), a=cuboid(40, 30, 6))), Verdict.GO)


def test_a_folder_of_strange_meshes_gets_a_verdict_with_guesses(tmp_path: Path) -> None:
    """Bores of 3.4 mm are guessed to be M3 and judged; a broken file is a hold and the rest is judged."""
    written(bored_plate(60, 40, 8, [(10, 10, 3.4, 48), (50, 30, 3.4, 48)]), tmp_path / "plate.stl")
    (tmp_path / "broken.stl").write_bytes(b"solid")
    job = job_of_folder(tmp_path, printer=read_printer("bench-220", tmp_path))
    ready = prepare(job, TODAY)
    checked = check(ready.bound, ready.sizing.percent)

    assert any("M3" in guess.why for guess in checked.guesses)
    assert "bore.tight" in {finding.rule for finding in checked.findings}
    assert _of(checked, "mesh.unread").verdict is Verdict.HOLD


def test_every_finding_says_why_and_where_from(heron_ready: Prepared) -> None:
    """Each finding has a sentence and a source; each that is not go has a remedy; no result is called safe."""
    for finding in check(heron_ready.bound, heron_ready.sizing.percent).findings:
        assert finding.why
        assert finding.source
        assert finding.remedy or finding.verdict is Verdict.GO
        assert "certified" not in (finding.why + finding.remedy).lower()


def test_files_without_a_unit_beside_one_in_inches_hold(tmp_path: Path) -> None:
    """An STL of 20 beside a 3MF in inches may be 508 mm long: that is asked before all else. One of 40 cannot be."""
    (tmp_path / "a.3mf").write_bytes(_in_inches(cuboid(3, 2, 1), tmp_path))
    written(cuboid(20, 15, 4), tmp_path / "b.stl")
    written(cuboid(40, 30, 8), tmp_path / "c.stl")
    ready = prepare(job_of_folder(tmp_path, printer=read_printer("bench-220", tmp_path)), TODAY)
    first, *others = check(ready.bound, 100.0).findings

    assert (first.rule, first.part, first.verdict) == ("mesh.unit", "b", Verdict.HOLD)
    assert "508.0" in first.question
    assert not any(finding.rule == "mesh.unit" for finding in others)


def _in_inches(solid: Solid, folder: Path) -> bytes:
    """Return a 3MF whose unit is the inch."""
    import io
    import zipfile

    write_3mf(folder / "mm" / "x.3mf", [copy_at("x", solid, 0.0, 0.0, 0.0)])
    out = io.BytesIO()
    with zipfile.ZipFile(folder / "mm" / "x.3mf") as old, zipfile.ZipFile(out, "w") as new:
        for name in old.namelist():
            new.writestr(name, old.read(name).replace(b'unit="millimeter"', b'unit="inch"'))
    (folder / "mm" / "x.3mf").unlink()
    return out.getvalue()
