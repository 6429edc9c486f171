"""``check`` in a terminal: one screen whatever the device, and nothing dropped without a count."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from planner.finding import Finding, Verdict
from planner.output.terminal.check_text import check_lines, part_lines
from planner.rules import Checked, Headline, Question

PARTS = st.sampled_from([f"part_with_a_long_name_{k}" for k in range(13)])
RULES = st.sampled_from(["wall.thin", "bore.tight", "bore.unclaimed", "slot.tight", "bed.over"])
FINDINGS = st.lists(
    st.builds(
        Finding,
        rule=RULES,
        part=PARTS,
        feature=st.sampled_from(["b1", "b2", "slot 1"]),
        verdict=st.sampled_from(list(Verdict)),
        why=st.sampled_from(["thinnest wall 0.65 mm " + "and so on " * n for n in (1, 10, 30)]),
        remedy=st.sampled_from(["", "thicken the wall " * 8, "drill 2.9 to 3.1 mm", "drill 2.9 to 3.4 mm"]),
    ),
    max_size=200,
)

QUESTION = Question(
    id="bores-3.2-through",
    text="What goes into the bores of " * 6,
    options=(("screw", "if a screw goes through"), ("nothing", "if nothing does")),
    default="screw",
    settles_n=6,
    features=(),
)


def _checked(findings: list[Finding]) -> Checked:
    return Checked(
        scale_percent=100.0,
        verdict=max((f.verdict for f in findings), key=lambda v: v.severity, default=Verdict.GO),
        findings=tuple(findings),
        guesses=(),
        questions=(QUESTION,) * 7,
        headline=Headline(ends=(), hangs_on=(), fine_n=40, open_n=60),
        doubts=(),
        checked_n=90,
        features_n=96,
    )


@given(FINDINGS)
def test_check_fits_one_screen(findings: list[Finding]) -> None:
    """At most 40 lines of 80 columns; a verdict that stops the job has its cause on the screen."""
    lines = check_lines(
        _checked(findings), "device at 100 %", ["the drawn size is taken."] * 3, "", "fitwright check x"
    )

    assert len(lines) <= 40
    assert max(map(len, lines)) <= 80
    assert "5 answers settle 30 of 60 open points" in " ".join(lines)
    for sign, verdict in (("no    ", Verdict.NO_GO), ("hold  ", Verdict.HOLD), ("work  ", Verdict.GO_WITH_WORK)):
        assert any(line.startswith(sign) for line in lines) == any(f.verdict is verdict for f in findings)


@given(FINDINGS)
def test_all_shows_every_finding_that_does_not_pass(findings: list[Finding]) -> None:
    """With ``--all`` everything that is said of a part has an entry, once for all features of which it is said."""
    lines = check_lines(_checked(findings), "device", [], "", "fitwright check x", everything=True)
    bad = [f for f in findings if f.verdict is not Verdict.GO]

    shown = sum(line.startswith(("no    ", "hold  ", "work  ")) for line in lines)
    assert shown == len({(f.verdict, f.part, f.why, f.remedy) for f in bad})


def test_features_of_which_the_same_is_said_are_counted() -> None:
    """Three bores to drill alike are one entry of 3 places; a fourth that is drilled wider has its own."""
    drill = [
        Finding(rule="bore.tight", part="jaw", feature=f"b{k}", verdict=Verdict.GO_WITH_WORK, why="2.9", remedy=remedy)
        for k, remedy in enumerate(["drill to 3.1"] * 3 + ["drill to 3.2"])
    ]
    lines = check_lines(_checked(drill), "device", [], "", "fitwright check x", everything=True)

    assert [line for line in lines if line.startswith("work")] == ["work  jaw, 3 places: 2.9", "work  jaw: 2.9"]


def test_ways_that_failed_are_left_to_the_part_where_the_screen_has_no_room() -> None:
    """What was tried is not cut in the middle of a sentence: three of six ways, and the command that tells the rest."""
    why = "; ".join(["print with lines of 0.32 mm: the nozzle of 0.4 mm lays none so narrow"] * 6)
    stopped = Finding(
        rule="wall.thin", part="jaw", verdict=Verdict.NO_GO, why="0.7 mm", remedy=f"change the drawing (tried: {why})"
    )
    lines = check_lines(_checked([stopped]), "device", [], "", "fitwright check x")

    told = " ".join(lines)

    assert told.count("lines of 0.32 mm:") == 3
    assert "; more: --part jaw)" in told


def test_the_number_of_a_remedy_is_never_cut() -> None:
    """A long change of settings is shortened before its number: that is what does it."""
    long = "print with " + "layers of 0.16 mm and " * 12 + "a fan (--do 3)"
    (finding,) = [Finding(rule="wall.thin", part="jaw", verdict=Verdict.NO_GO, why="0.7 mm", remedy=long)]
    lines = check_lines(_checked([finding]), "device", [], "", "fitwright check x")

    assert sum(line.endswith("… (--do 3)") for line in lines) == 1
    assert lines[2] == "Stops it, whatever is answered"


def test_a_part_shows_what_passes_too() -> None:
    """One part: its features that share a sentence share an entry, others are left out."""
    findings = [Finding(rule="bore.tight", part="jaw", feature=b, verdict=Verdict.GO, why="fits") for b in ("b1", "b2")]
    findings.append(Finding(rule="bore.tight", part="deck", feature="b1", verdict=Verdict.HOLD, why="unknown"))

    assert part_lines(_checked(findings), "jaw") == ["GO  jaw at 100 %", "", "Passes", "ok    b1 and b2: fits"]


def test_every_caution_and_pass_that_is_counted_is_shown_where_all_is_asked_for() -> None:
    """The last lines count cautions and what is fine; ``--all`` tells each, so that no number stays without its reason."""
    careful = [Finding(rule="wall.thin", part="d", verdict=Verdict.GO, why="a thick wall")]
    careful += [
        Finding(rule="wall.thin", part=part, verdict=verdict, why="a wall", remedy="r", caution=f"mind {part}")
        for part, verdict in [("a", Verdict.GO), ("b", Verdict.GO), ("c", Verdict.GO_WITH_WORK)]
    ]
    short, whole = (
        check_lines(_checked(careful), "device", [], "", "fitwright check x", everything=everything)
        for everything in (False, True)
    )

    assert "2 cautions" in " ".join(whole)
    assert [line.strip() for line in whole if "mind" in line] == ["-> mind a", "-> mind b"]
    assert "ok    d: a thick wall" in whole
    assert not [line for line in short if "mind" in line or "a thick wall" in line]
