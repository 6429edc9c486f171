"""Reading meshes: every format gives the same solid, damage gives one sentence or a named fault."""

from __future__ import annotations

import struct
from pathlib import Path

import numpy as np
import pytest
import stl
import trimesh
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from planner.errors import MeshError
from planner.mesh import Solid, copy_at, read_solid, write_3mf, write_stl
from tests.shapes import DATA, Manifold, ball, bored_plate, cuboid, solid_of, tube

DAMAGED = DATA / "meshes"


def _ascii(solid: Solid) -> str:
    """Return a solid as ASCII STL with Windows line ends and capitals."""
    lines = ["SOLID part"]
    for a, b, c in solid.corners_mm:
        lines += ["FACET NORMAL 0 0 0", "OUTER LOOP"]
        lines += [f"VERTEX {x:.9e} {y:.9e} {z:.9e}" for x, y, z in (a, b, c)]
        lines += ["ENDLOOP", "ENDFACET"]
    return "\r\n".join([*lines, "ENDSOLID part"])


def _raw(path: Path, *solids: Solid) -> None:
    """Write triangles as they are, with no look back."""
    corners = np.concatenate([solid.corners_mm for solid in solids]).astype("<f4")
    rows = np.zeros(len(corners), dtype=[("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("attribute", "<u2")])
    rows["corners"] = corners
    path.write_bytes(b"\0" * 80 + struct.pack("<I", len(rows)) + rows.tobytes())


def _in_every_format(solid: Solid, folder: Path) -> list[Path]:
    """Write a solid in every format and return the files."""
    write_stl(folder / "binary.stl", [solid])
    write_3mf(folder / "package.3mf", [copy_at("part", solid, 0.0, 0.0, 0.0)])
    (folder / "text.stl").write_text(_ascii(solid), encoding="utf-8")
    for ending in ("obj", "ply"):
        trimesh.Trimesh(solid.vertices_mm, solid.faces, process=False).export(folder / f"other.{ending}")
    return sorted(folder.iterdir())


@pytest.mark.parametrize("solid", [cuboid(20, 30, 40), tube(20, 16, 30), bored_plate(40, 30, 4, [(10, 10, 5.3, 48)])])
def test_all_formats_give_the_same_solid(solid: Solid, tmp_path: Path) -> None:
    """Binary and ASCII STL, 3MF, OBJ and PLY agree in size, volume, area and soundness."""
    for path in _in_every_format(solid, tmp_path):
        read = read_solid(path)
        assert read.sound, path.name
        assert read.size_mm == pytest.approx(solid.size_mm, abs=1e-4)
        assert read.volume_mm3 == pytest.approx(solid.volume_mm3, rel=1e-6)
        assert read.area_mm2 == pytest.approx(solid.area_mm2, rel=1e-6)


def test_mass_properties_are_those_of_numpy_stl(tmp_path: Path) -> None:
    """Outside check: the volume equals numpy-stl's mass properties on the same file."""
    write_stl(tmp_path / "a.stl", [tube(20, 16, 30)])
    volume, _, _ = stl.mesh.Mesh.from_file(str(tmp_path / "a.stl")).get_mass_properties()

    assert read_solid(tmp_path / "a.stl").volume_mm3 == pytest.approx(volume, rel=1e-5)


@pytest.mark.parametrize(("unit", "factor"), [("mm", 1.0), ("cm", 10.0), ("m", 1000.0), ("inch", 25.4)])
def test_units_are_exact(unit: str, factor: float, tmp_path: Path) -> None:
    """A file in another unit comes back in mm (the inch is 25.4 mm, exact since 1959)."""
    write_stl(tmp_path / "a.stl", [cuboid(1, 2, 3)])

    assert read_solid(tmp_path / "a.stl", unit=unit).size_mm == pytest.approx((factor, 2 * factor, 3 * factor))


def test_the_unit_of_a_3mf_wins_and_a_conflict_is_noted(tmp_path: Path) -> None:
    """A 3MF in mm stays in mm although inches were said, and the doubt is in words."""
    write_3mf(tmp_path / "a.3mf", [copy_at("a", cuboid(10, 20, 30), 0.0, 0.0, 0.0)])
    read = read_solid(tmp_path / "a.3mf", unit="inch")

    assert read.size_mm == pytest.approx((10, 20, 30))
    assert "inch" in read.unit_doubt


def test_a_file_that_starts_with_solid_may_be_binary(tmp_path: Path) -> None:
    """Binary STL is told by its size, not by its first word."""
    write_stl(tmp_path / "a.stl", [cuboid(10, 10, 10)])
    raw = bytearray((tmp_path / "a.stl").read_bytes())
    raw[:5] = b"solid"
    (tmp_path / "a.stl").write_bytes(raw)

    assert read_solid(tmp_path / "a.stl").volume_mm3 == pytest.approx(1000.0)


def test_an_inside_out_body_is_turned_and_a_cavity_stays(tmp_path: Path) -> None:
    """A reversed cube gets its volume back; a hollow cube keeps its hollow."""
    box = cuboid(10, 10, 10)
    reverse = Solid(name="r", vertices_mm=box.vertices_mm.copy(), faces=box.faces[:, ::-1].copy(), sha256="")
    _raw(tmp_path / "r.stl", reverse)
    hollow = solid_of(Manifold.cube((20, 20, 20)) - Manifold.cube((10, 10, 10)).translate((5, 5, 5)))
    write_stl(tmp_path / "h.stl", [hollow])

    assert read_solid(tmp_path / "r.stl").volume_mm3 == pytest.approx(1000.0)
    assert "inside out" in " ".join(read_solid(tmp_path / "r.stl").healed)
    assert read_solid(tmp_path / "h.stl").volume_mm3 == pytest.approx(7000.0)


def test_overlapping_bodies_count_shared_matter_once(tmp_path: Path) -> None:
    """Two cubes that share a quarter weigh what their union weighs."""
    _raw(tmp_path / "a.stl", cuboid(10, 10, 10), cuboid(10, 10, 10).moved((5, 0, 0)))
    read = read_solid(tmp_path / "a.stl")

    assert read.volume_mm3 == pytest.approx(1500.0, rel=1e-5)
    assert "united" in " ".join(read.healed)


def test_an_open_mesh_is_read_and_its_fault_is_counted(tmp_path: Path) -> None:
    """A big hole is not guessed shut: the solid is not sound and says how many edges are open."""
    part = ball(20)
    kept = part.faces[part.corners_mm[:, :, 2].max(axis=1) < 6.0]
    _raw(tmp_path / "a.stl", Solid(name="a", vertices_mm=part.vertices_mm.copy(), faces=kept, sha256=""))
    read = read_solid(tmp_path / "a.stl")

    assert not read.sound
    assert "open at" in read.faults[0]


def _broken() -> dict[str, bytes]:
    """Return broken and hostile files by name."""
    good = b"\0" * 80 + struct.pack("<I", 1) + struct.pack("<12fH", 0, 0, 1, 0, 0, 0, 1, 0, 0, 0, 1, 0, 0)
    return {
        "empty.stl": b"",
        "short.stl": b"solid",
        "cut.stl": good[:100],
        "liar.stl": b"\0" * 80 + struct.pack("<I", 4_000_000_000) + good[84:],
        "nan.stl": good[:96] + struct.pack("<f", float("nan")) + good[100:],
        "far.stl": good[:96] + struct.pack("<f", 1e30) + good[100:],
        "words.stl": b"this is a letter, not a mesh, and it is long enough to have a head of eighty-four bytes " * 3,
        "cut-text.stl": b"solid a\nfacet normal 0 0 1\nouter loop\nvertex 0 0 0\nvertex 1 0 0\n",
        "no-number.stl": b"solid a\nfacet normal 0 0 1\nouter loop\nvertex 0 zero 0\nendloop\nendfacet\nendsolid",
        "none.stl": b"solid a\nendsolid a\n",
        "empty.obj": b"# nothing\n",
        "index.obj": b"v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 99\n",
        "binary.obj": bytes(range(256)) * 4,
        "head.ply": b"ply\nformat ascii 1.0\nelement vertex 3\n",
        "junk.ply": b"not a ply at all",
        "junk.3mf": b"PK\x03\x04 this is no package",
        "text.3mf": b"<model/>",
        "part.step": b"ISO-10303-21;",
        "none": b"abc",
    }


@pytest.mark.parametrize("name", _broken())
def test_a_broken_file_gives_one_sentence(name: str, tmp_path: Path) -> None:
    """Each broken file is refused with its name, what is wrong and what to do, and nothing else is raised."""
    (tmp_path / name).write_bytes(_broken()[name])

    with pytest.raises(MeshError) as caught:
        read_solid(tmp_path / name)

    assert name in str(caught.value)
    assert "\n" not in str(caught.value)


@pytest.mark.parametrize("path", sorted(DAMAGED.glob("*.[os3]*")), ids=lambda path: path.name)
def test_damaged_meshes_of_others_are_refused_or_their_faults_are_named(path: Path) -> None:
    """Every damaged mesh by others is refused in one sentence, or read; one that is not closed says so."""
    try:
        solid = read_solid(path)
    except MeshError as error:
        assert "\n" not in str(error)
        return

    assert not path.name.startswith("MUSTFAIL")
    assert solid.faults or solid.manifold is not None


def test_a_folder_and_a_missing_file_are_refused(tmp_path: Path) -> None:
    """A folder is no mesh, and a missing file is named."""
    for path in (tmp_path, tmp_path / "gone.stl"):
        with pytest.raises(MeshError):
            read_solid(path)


@settings(max_examples=80, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    ending=st.sampled_from(["stl", "obj", "ply", "3mf"]),
    cut=st.integers(0, 400),
    junk=st.binary(max_size=60),
)
def test_mutated_files_never_raise_anything_but_a_sentence(ending: str, cut: int, junk: bytes, tmp_path: Path) -> None:
    """A file with bytes overwritten anywhere is read, or refused in one sentence."""
    good = tmp_path / f"good.{ending}"
    if not good.exists():
        for path in _in_every_format(cuboid(5, 5, 5), tmp_path):
            if path.suffix == good.suffix:
                path.rename(good)
                break
    raw = bytearray(good.read_bytes())
    at = cut % len(raw)
    raw[at : at + len(junk)] = junk
    bad = tmp_path / f"bad.{ending}"
    bad.write_bytes(raw)

    try:
        solid = read_solid(bad)
    except MeshError as error:
        assert "\n" not in str(error)
    else:
        assert np.isfinite(solid.vertices_mm).all()
