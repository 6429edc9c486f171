"""Rules followed through scale: the pieces print, at any scale, what the rule itself says."""

from __future__ import annotations

import json
import math
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.output.page.live_rules import finding_fields
from planner.output.page.rule_pieces import Piece, pieces_of
from planner.output.page.traced_number import LostError, Slot, printed, traced
from tests.output.conftest import JOBS, Reports


def at(pieces: tuple[Piece, ...], s: float) -> dict[str, object]:
    """Return what the pieces print at a scale."""
    piece = next(piece for piece in pieces if s <= piece.to_factor)
    return {key: printed(value, s) for key, value in piece.fields.items()}


@given(a=st.floats(0.1, 50), b=st.floats(0.0, 2.0), limit=st.floats(0.1, 80), s=st.floats(0.5, 2.0))
def test_a_sum_and_its_turn_are_followed(a: float, b: float, limit: float, s: float) -> None:
    """A linear measure against a limit gives at most two pieces, equal to the function itself at every scale."""

    def answer(x: float) -> dict[str, object]:
        measured = a * x - b
        return {
            "measured": measured,
            "fits": bool(measured >= limit),
            "why": f"{measured:.2f} of {limit:.2f} mm at {x:.4g}",
        }

    pieces = pieces_of(answer, 0.5, 2.0)

    assert len(pieces) <= 2
    assert at(pieces, s) == answer(s)


def test_the_turn_is_found_to_the_last_digit() -> None:
    """Two neighbouring floats lie on either side of a turn (closed form: 3 s = 2)."""
    pieces = pieces_of(lambda s: {"fits": bool(3.0 * s >= 2.0)}, 0.1, 2.0)

    assert [piece.fields["fits"] for piece in pieces] == [False, True]
    assert pieces[0].to_factor == pytest.approx(2 / 3, rel=1e-15)
    assert 3.0 * pieces[0].to_factor < 2.0 <= 3.0 * math.nextafter(pieces[0].to_factor, 2.0)


def test_a_share_over_a_width_that_ends_is_followed_by_its_named_turns() -> None:
    """1 over (2 - s) is over 20 only from 1.95 to 2: a grid of looks passes that by, and no width divides at 2."""

    def answer(s: float) -> dict[str, object]:
        wide = max(2.0 - s, 0.0)
        share = 1.0 / wide if wide > 0.0 else math.inf
        return {"fits": bool(share <= 20.0)}

    pieces = pieces_of(answer, 0.5, 2.5, turns=(1.95, 2.0))

    assert [piece.fields["fits"] for piece in pieces] == [True, False]
    assert pieces[0].to_factor == pytest.approx(1.95, rel=1e-12)


@pytest.mark.parametrize(
    "lose",
    [
        round,
        math.floor,
        abs,
        math.sqrt,
        lambda s: float(np.interp(s, [0, 1, 2], [0, 5, 6])),
        lambda s: float("%.2f" % s),  # noqa: UP031  an old way to print, and one that reads a float's value directly
    ],
    ids=["round", "floor", "abs", "root", "numpy", "printed"],
)
def test_what_cannot_be_followed_is_asked_at_every_step(lose: Any) -> None:
    """Where a scale goes through something that cannot be followed, every tenth of a percent is asked, and is right."""

    def answer(s: float) -> dict[str, object]:
        return {"measured": 1.0 * lose(10.0 * s)}

    pieces = pieces_of(answer, 0.5, 2.0)

    for step in range(500, 2001):
        s = step / 10.0 / 100.0
        assert at(pieces, s) == answer(s)


def test_an_unknown_format_is_not_guessed_at() -> None:
    """A format that the page cannot print is refused, not printed in another way."""
    with pytest.raises(LostError):
        traced(lambda s: {"why": f"{s:e}"}, 1.0)


def test_a_number_keeps_its_sum() -> None:
    """One look at a rule gives the sum of every number in it."""
    fields, guards = traced(lambda s: {"why": f"{3.0 * s - 0.2:.2f} mm", "fits": bool(s > 0.5)}, 1.0)

    assert fields["why"] == (Slot(code=(3.0, "s", "*", 0.2, "-"), spec=".2f"), " mm")
    assert [guard.holds(0.4) for guard in guards] == [False]


@pytest.mark.parametrize("name", JOBS)
def test_every_rule_of_three_jobs_is_followed_and_right(reports: Reports, name: str) -> None:
    """No rule of ours needs to be asked step by step, and at 60 scales each prints what it says itself."""
    for rule in reports.plan(name).rules:
        pieces = pieces_of(lambda s, rule=rule: finding_fields(rule.at(s)), 0.4, 2.5, rule.turns())  # type: ignore[misc]
        assert len(pieces) < 60, rule.rule
        for percent in range(40, 250, 7):
            s = (percent + 0.3) / 100.0
            assert at(pieces, s) == finding_fields(rule.at(s))


def test_the_data_is_small_and_finite(reports: Reports) -> None:
    """In the Heron's page its rules take less than 0.6 megabytes, as JSON that any reader takes; nothing long stands twice."""
    text = reports.page("heron").read_text(encoding="utf-8").partition('id="live-data">')[2].partition("</script>")[0]
    told: Any = json.loads(text, parse_constant=pytest.fail)
    assert {"rules", "said", "hardware", "words"} <= told.keys()
    long = [json.dumps(value) for value in told["said"]]

    rules = json.dumps(told["rules"])

    assert len(json.dumps(told, allow_nan=False)) < 600_000
    assert len(long) == len(set(long))
    assert not {text for text in long if text in rules}


def test_numbers_of_numpy_are_followed() -> None:
    """A numpy number on the left hands over: neither a sum nor a comparison is lost."""
    limit = np.float64(1.24)

    def answer(s: float) -> dict[str, object]:
        return {"fits": bool(limit < np.float64(1.0) * s < 1.2407), "measured": 1.0 * (np.float64(2.0) * s)}

    pieces = pieces_of(answer, 0.5, 2.0)

    assert [piece.fields["fits"] for piece in pieces] == [False, True, False]
    assert pieces[1].fields["measured"] == Slot(code=(1.0, 2.0, "s", "*", "*"))


def test_a_turn_that_no_look_meets_is_proved_where_the_rule_names_it() -> None:
    """Two turns 0.002 apart (roots of a parabola) fall between all looks; the rule's own turns bring them to light."""

    def answer(s: float) -> dict[str, object]:
        return {"between": bool((s - 1.3005) * (s - 1.3025) < 0.0)}

    pieces = pieces_of(answer, 0.5, 2.0, (1.3005, 1.3025))

    assert [at(pieces, step / 1000)["between"] for step in (1300, 1301, 1302, 1303)] == [False, True, True, False]


@pytest.mark.parametrize("name", ["\ue0000\ue001", "\ue0007\ue001"])
def test_a_name_that_looks_like_our_marks_stays_a_name(name: str) -> None:
    """Private-use characters in a name are printed as they are, with the numbers beside them."""

    def answer(s: float) -> dict[str, object]:
        return {"why": f"{name}: {2.0 * s:.1f} mm"}

    pieces = pieces_of(answer, 0.5, 2.0)

    for step in range(500, 2001, 7):
        assert at(pieces, step / 1000) == answer(step / 1000)
