"""Rules: everything that is judged; each rule is a function of scale that knows where its verdict turns.

1. ``rules_of(job, surveys, downs)`` binds every rule of fit to every feature it speaks of.
2. ``check(bound, scale)`` asks them all at one scale.
3. ``settings_findings(job, material, ...)`` runs every settings rule, ``smallest_change`` mends what is wrong.
"""

from planner.rules.answers_over_scale import Steps, steps_of
from planner.rules.check import USUAL, Checked, check, settled_n
from planner.rules.chosen_material import chosen_material, objections, other_objections
from planner.rules.fit.bearings.bearing_peg import BearingPeg
from planner.rules.fit.bores.between_tight import BetweenTight
from planner.rules.fit.bores.outside_done import FLAT_TOO
from planner.rules.fit.bores.peg_tight import PegTight
from planner.rules.fit.bores.worked_bore import WorkedBore
from planner.rules.fit.heat_over import Heat, heat_finding, hottest, too_hot
from planner.rules.fit.mesh_units import in_doubt
from planner.rules.fit.strength.bore_force import PIN, BoreForce, Forces
from planner.rules.fit.strength.lasting_strength import GoShare, Lasting, go_share, lasting_of
from planner.rules.fit.walls.slit_open import slit_rules
from planner.rules.fit.walls.thin_wall_rule import ThinWallRule
from planner.rules.kinds.finding_order import by_severity
from planner.rules.kinds.rule_row import RuleRow, rule_rows
from planner.rules.of_job.bore_rules import edge_limit, undersize_of, work_on
from planner.rules.of_job.channel_rules import ways_of
from planner.rules.of_job.mates.peg_rules import peg_rule
from planner.rules.of_job.one_size import hardware_of
from planner.rules.of_job.opening_rules import pockets_of, seat_size, slots_for
from planner.rules.of_job.own_scale import own_factor
from planner.rules.of_job.rules_of_job import BoundRules, rules_of
from planner.rules.questions.asked_at_range_ends import resting
from planner.rules.questions.given_answers import Answers, answers_of
from planner.rules.questions.headline import Headline, headline_of
from planner.rules.questions.open_doubts import open_doubts, with_sure_guesses
from planner.rules.questions.question import QUESTIONS_MOST, Question, questions_about, questions_of
from planner.rules.questions.unanswered_rule import bare, is_unanswered
from planner.rules.rule import ConstantVerdict, HoldLifted, Rule, Wrapped, at_least, constants, lifted
from planner.rules.settings.settings_rules import height_findings, settings_findings
from planner.rules.settings.smallest_change import Change, setting_remedy, smallest_change
from planner.rules.settings.without_layers import WithoutLayers

__all__ = [
    "FLAT_TOO",
    "PIN",
    "QUESTIONS_MOST",
    "USUAL",
    "Answers",
    "BearingPeg",
    "BetweenTight",
    "BoreForce",
    "BoundRules",
    "Change",
    "Checked",
    "ConstantVerdict",
    "Forces",
    "GoShare",
    "Headline",
    "Heat",
    "HoldLifted",
    "Lasting",
    "PegTight",
    "Question",
    "Rule",
    "RuleRow",
    "Steps",
    "ThinWallRule",
    "WithoutLayers",
    "WorkedBore",
    "Wrapped",
    "answers_of",
    "at_least",
    "bare",
    "by_severity",
    "check",
    "chosen_material",
    "constants",
    "edge_limit",
    "go_share",
    "hardware_of",
    "headline_of",
    "heat_finding",
    "height_findings",
    "hottest",
    "in_doubt",
    "is_unanswered",
    "lasting_of",
    "lifted",
    "objections",
    "open_doubts",
    "other_objections",
    "own_factor",
    "peg_rule",
    "pockets_of",
    "questions_about",
    "questions_of",
    "resting",
    "rule_rows",
    "rules_of",
    "seat_size",
    "setting_remedy",
    "settings_findings",
    "settled_n",
    "slit_rules",
    "slots_for",
    "smallest_change",
    "steps_of",
    "too_hot",
    "undersize_of",
    "ways_of",
    "with_sure_guesses",
    "work_on",
]
