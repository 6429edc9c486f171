"""Stress against the drawn size: at equal force it goes as one over the square of the scale."""

from __future__ import annotations

from dataclasses import dataclass

from planner.digits import told_apart
from planner.finding import Finding, Verdict
from planner.rules.fit.part_case import PartCase
from planner.rules.rule import ConstantVerdict, Rule, at_most
from planner.sourced import Sourced


@dataclass(frozen=True, slots=True, kw_only=True)
class StrengthRatio(ConstantVerdict):
    """``strength.ratio``: 1/s2 against the limit; never worse than go, with a caution."""

    part: str
    most: Sourced
    rule: str = "strength.ratio"
    feature: str = "strength"

    def at(self, s: float) -> Finding:
        """Judge the stress ratio at a scale."""
        measured = 1.0 / s**2
        has, most = told_apart(measured, self.most.value)
        return Finding(
            rule=self.rule,
            part=self.part,
            feature=self.feature,
            verdict=Verdict.GO,
            measured=measured,
            limit=self.most.value,
            unit="x",
            why=f"stress at equal force is {has} times that at the drawn size (1/s2: areas grow as s2); up to {most} "
            "times is accepted",
            source=self.most.source,
            caution=""
            if at_most(measured, self.most.value)
            else f"{self.part} carries load and is stressed {has} times as much as at 100 %: "
            "a screening number, test it before use.",
        )


def ratio_rules(case: PartCase) -> list[Rule]:
    """Bind the rule to a part that carries load."""
    return [StrengthRatio(part=case.part.name, most=case.job.limits.strength_ratio)] if case.loaded else []
