"""The greater of stated load and known force is judged; what nobody ruled out beyond it is a question."""

from __future__ import annotations

from planner.rules.fit.strength.bore_force import BoreForce, feared_force, known_force

FORCES = (
    BoreForce(force_n=41.0, said="where 15 N are held at the tip"),
    BoreForce(force_n=60.0, said="if it is a lever", asks="What holds it?"),
)


def test_the_stated_load_stays_the_least_that_is_judged() -> None:
    """15 N stated and 41 N known: 41; 50 N stated: 50, with no words about where it comes from."""
    assert known_force(FORCES, 15.0).force_n == 41.0
    assert known_force(FORCES, 50.0) == BoreForce(force_n=50.0, said="")


def test_what_may_be_is_told_only_where_it_is_more() -> None:
    """60 N that may be counts beside 41 N, and not beside 70."""
    found = feared_force(FORCES, 41.0)

    assert found is not None
    assert found.asks == "What holds it?"
    assert feared_force(FORCES, 70.0) is None
