"""Rules that say what a test wants, with a limit at a scale."""

from __future__ import annotations

from dataclasses import dataclass

from planner.finding import Finding, Verdict, Work
from planner.rules.questions.if_clause import Asked
from planner.rules.questions.unanswered_rule import Case, UnansweredRule
from planner.rules.rule import Rule

DUTY = Asked(id="duty", text="What is it for?", clauses=("it carries load", "it only covers"))
BORE = Asked(id="bore", text="What goes in?", clauses=("an M3 screw goes in", "a pin goes in", "nothing goes in"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Says:
    """A rule that gives ``below`` under a scale, and go from there on; it needs ``limit`` of something."""

    below: Verdict
    turn: float = 1e9
    limit: float = 2.0
    remedy: str = "mend it"
    rule: str = "wall.thin"
    part: str = "plate"
    feature: str = "b1"

    def at(self, s: float) -> Finding:
        """Return the finding."""
        verdict = self.below if s < self.turn else Verdict.GO
        return Finding(
            rule=self.rule,
            part=self.part,
            feature=self.feature,
            verdict=verdict,
            measured=1.0 * s,
            limit=self.limit,
            why=f"{s:.2f} is there, {self.limit:g} needed",
            remedy="" if verdict is Verdict.GO else f"{self.remedy} to {self.limit:g}",
            work=Work(kind="drill", hardware="pin", to_mm=self.limit) if verdict is Verdict.GO_WITH_WORK else None,
        )

    def turns(self) -> tuple[float, ...]:
        """Return where it turns."""
        return (self.turn,)


def hangs(now: Rule | None, *answers: Rule | None, whole: bool = True, asked: Asked = BORE) -> UnansweredRule:
    """Return a rule that hangs on one question, with what each answer leads to."""
    cases = tuple(Case(choices=((k,),), rules=(rule,) if rule else ()) for k, rule in enumerate(answers))
    return UnansweredRule(
        rule="wall.thin",
        part="plate",
        feature="b1",
        asked=(asked,),
        now=(now,) if now else (),
        cases=cases,
        whole=whole,
    )
