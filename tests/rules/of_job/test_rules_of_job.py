"""Every rule of a job is bound once, before any scale is tried; what is lifted or in doubt is told apart."""

from __future__ import annotations

from collections import Counter

from planner.finding import Verdict
from planner.rules.of_job.rules_of_job import KnownRules, rules_of
from planner.survey import survey
from tests.conftest import MakeJob
from tests.shapes import Manifold, bored_plate, cuboid, solid_of

HEAD = '[job]\nname = "x"\nmaterial = "petg"\nmesh_unit = "mm"\n'
PARTS = "".join(
    f'[[part]]\nname = "{name}"\nmesh = "{name}.stl"\nduty = "load"\npose = [0, 0, -1]\n' for name in ("a", "b")
)
SOLIDS = {"a": bored_plate(60, 40, 8, [(20, 20, 9.0, 48)]), "b": cuboid(40, 30, 8)}
SURVEYS = {name: survey(solid) for name, solid in SOLIDS.items()}
DOWNS = dict.fromkeys("ab", (0.0, 0.0, -1.0))


def test_each_part_and_each_bore_has_its_rules_once(make_job: MakeJob) -> None:
    """Two beds, one wall each, one edge and one word for the bore that nothing claims; no settings were asked for."""
    bound = rules_of(make_job(HEAD + PARTS, **SOLIDS), SURVEYS, DOWNS)
    rules = Counter((rule.rule, rule.part) for rule in bound.rules)

    assert rules["bed.over", "a"] == rules["bed.over", "b"] == 1
    assert rules["bore.unclaimed", "a"] == rules["bore.edge", "a"] == 1
    assert rules["bore.unclaimed", "b"] == 0
    assert bound.every == bound.rules


def test_a_lifted_hold_passes_and_keeps_its_reason(make_job: MakeJob) -> None:
    """The bore without hardware in a load part is a hold; with an override the same rule passes and says who took it."""
    more = '[[override]]\nrule = "bore.unclaimed"\nreason = "tried on the bench"\nrole = "lead"\n'
    held, lifted = (
        next(
            rule.at(1.0)
            for rule in rules_of(make_job(HEAD + PARTS + text, **SOLIDS), SURVEYS, DOWNS).rules
            if rule.rule == "bore.unclaimed"
        )
        for text in ("", more)
    )

    assert held.verdict is Verdict.HOLD
    assert lifted.verdict.passes
    assert lifted.caution.startswith("Hold lifted by lead: tried on the bench.")


def test_what_was_bound_of_a_part_as_it_is_is_not_bound_again(make_job: MakeJob) -> None:
    """With a memory of what was bound, a part measured the same has the very same rules; one turned over has others."""
    job, known = make_job(HEAD + PARTS, **SOLIDS), KnownRules()
    one, same = (rules_of(job, SURVEYS, DOWNS, known=known).rules for _ in range(2))
    turned = rules_of(job, SURVEYS, {**DOWNS, "b": (0.0, 0.0, 1.0)}, known=known).rules

    assert [rule for rule in one if rule.part == "a"] == [rule for rule in same if rule.part == "a"]
    assert {name: len(kept) for name, kept in known.items()} == {"a": 1, "b": 2}
    assert len(turned) == len(one)


def test_a_slot_that_nothing_claims_is_listed(make_job: MakeJob) -> None:
    """An opening of 4 x 20 mm without a strap is told, and stops nothing."""
    slotted = solid_of(Manifold.cube((40, 30, 8)) - Manifold.cube((20, 4, 20)).translate((10, 13, -5)))
    surveys = {**SURVEYS, "b": survey(slotted)}
    found = [
        rule.at(1.0)
        for rule in rules_of(make_job(HEAD + PARTS, a=SOLIDS["a"], b=slotted), surveys, DOWNS).rules
        if rule.rule == "slot.unclaimed"
    ]

    assert [(one.part, one.verdict, one.why) for one in found] == [
        ("b", Verdict.GO, "no strap is named for an opening of 4.0 x 20.0 mm")
    ]
