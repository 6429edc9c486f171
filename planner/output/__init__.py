"""Output: a plan becomes a page, papers for the bench, JSON and text in a terminal; the same facts in each.

1. ``plan_json(plan)``, ``check_json``, ``window_json`` ... give dictionaries; ``page(plan, papers)`` the report.
2. ``bench_papers(plan, size)`` says every paper once; ``html`` and ``pdf`` print it; ``write_papers`` writes them.
3. ``read_record(path)`` reads a record back; ``release(plan, record, today)`` says what is missing in it.
4. ``write_whole_plan(plan, folder)`` writes everything in place of an earlier plan, whole or not at all.
"""

from planner.output.asking.photo_words import again as photo_again
from planner.output.asking.photo_words import photo_json, photo_lines
from planner.output.asking.question_picture import QuestionPictures
from planner.output.asking.start_json import doubt_json, start_json
from planner.output.asking.start_text import start_lines
from planner.output.bench.bench_folder import RECORD, Written, write_papers, write_release
from planner.output.bench.paper_set import bench_papers
from planner.output.chapter_page.chapter_page import CHAPTER_PAGE, chapter_page
from planner.output.drawing.part_picture import picture_png
from planner.output.json.audit_json import audit_json
from planner.output.json.calibrate_json import calibrate_json
from planner.output.json.chapter_json import chapter_json
from planner.output.json.check_json import check_json
from planner.output.json.keys.chapter_keys import chapter_tables
from planner.output.json.keys.plan_keys import plan_tables
from planner.output.json.mesh_json import inspect_json, settings_json
from planner.output.json.move_json import move_json
from planner.output.json.plan_json import plan_json, rebore_json, window_json
from planner.output.json.release_json import release_json
from planner.output.json.remedy_json import remedies_json
from planner.output.json.strength_json import strength_json
from planner.output.page.page import page
from planner.output.page.plan_folder import write_plan, write_whole_plan
from planner.output.paper_files.card_pdf import card_pdf
from planner.output.paper_files.page_size import SIZES, PaperName
from planner.output.paper_files.paper_html import html
from planner.output.paper_files.paper_pdf import pdf
from planner.output.paper_files.sheet import Sheet
from planner.output.papers.assembly_order import order_of
from planner.output.pattern.pattern_files import write_patterns
from planner.output.pattern.pattern_json import pattern_json
from planner.output.pattern.pattern_lines import pattern_lines
from planner.output.record.record import Record, blank
from planner.output.record.record_file import read_record
from planner.output.record.record_form import form_text, untouched
from planner.output.record.release import release
from planner.output.terminal.calibrate_text import show_fitted, show_logged
from planner.output.terminal.chapter.limits_text import buy_lines, change_lines, late_lines, limit_lines
from planner.output.terminal.chapter.row_table import row_table
from planner.output.terminal.check_text import check_lines, part_lines, size_sentences
from planner.output.terminal.device.strength_text import strength_lines
from planner.output.terminal.finding_list import finding_list, show_lines
from planner.output.terminal.inspect_text import show_mesh
from planner.output.terminal.keys_text import show_keys, show_terms
from planner.output.terminal.move_text import move_lines
from planner.output.terminal.plan_text import show_chapter, show_plan
from planner.output.terminal.plates_text import rebored_words
from planner.output.terminal.rebore_text import show_rebored
from planner.output.terminal.release_text import show_release
from planner.output.terminal.risk_text import show_risk
from planner.output.terminal.terminal import Out, notes, verdict_line
from planner.output.terminal.window_text import show_limits, show_widenings, show_window
from planner.output.words.language_words import language_words
from planner.output.words.paper_words import head_of
from planner.output.words.remedy_words import remedy_lines
from planner.output.words.strength_words import pull_words
from planner.phrases import plural

__all__ = [
    "CHAPTER_PAGE",
    "RECORD",
    "SIZES",
    "Out",
    "PaperName",
    "QuestionPictures",
    "Record",
    "Sheet",
    "Written",
    "audit_json",
    "bench_papers",
    "blank",
    "buy_lines",
    "calibrate_json",
    "card_pdf",
    "change_lines",
    "chapter_json",
    "chapter_page",
    "chapter_tables",
    "check_json",
    "check_lines",
    "doubt_json",
    "finding_list",
    "form_text",
    "head_of",
    "html",
    "inspect_json",
    "language_words",
    "late_lines",
    "limit_lines",
    "move_json",
    "move_lines",
    "notes",
    "order_of",
    "page",
    "part_lines",
    "pattern_json",
    "pattern_lines",
    "pdf",
    "photo_again",
    "photo_json",
    "photo_lines",
    "picture_png",
    "plan_json",
    "plan_tables",
    "plural",
    "pull_words",
    "read_record",
    "rebore_json",
    "rebored_words",
    "release",
    "release_json",
    "remedies_json",
    "remedy_lines",
    "row_table",
    "settings_json",
    "show_chapter",
    "show_fitted",
    "show_keys",
    "show_limits",
    "show_lines",
    "show_logged",
    "show_mesh",
    "show_plan",
    "show_rebored",
    "show_release",
    "show_risk",
    "show_terms",
    "show_widenings",
    "show_window",
    "size_sentences",
    "start_json",
    "start_lines",
    "strength_json",
    "strength_lines",
    "untouched",
    "verdict_line",
    "window_json",
    "write_papers",
    "write_patterns",
    "write_plan",
    "write_release",
    "write_whole_plan",
]
