"""What a started job file says around its tables: how to read it, and everything else that a person may state."""

from __future__ import annotations

HEAD = """\
# {name}: a job for fitwright, written from the meshes in this folder.
# Nobody has stated what is marked GUESS: correct it, then take its key out of the list `guessed` below it. Questions
# do both at once: fitwright start FOLDER --ask, or fitwright desk FOLDER. Lengths are mm, scale is a percent of the
# drawn size. fitwright keys explains every key. Then: fitwright check job.toml
"""
TAIL = """
# --- what the meshes cannot show: delete the # and fill in ----------------------
# More keys of a [[part]]:
# count = 2            # how many one device needs
# spares = 1           # printed in addition
# handed = true        # mirrored for the other side; leave it false for a part with text or threads: they must not be
#                      # mirrored. Print such a part as drawn, or draw its text or thread again for the other side
# skin_toward = [0, 0, -1]  # the drawn direction that its skin side faces; support is kept off that side
# ignore_bores = true  # bores that no hardware is named for stay as they print, and nobody is asked about them
# [[hardware]]         # what you buy; it keeps its size: screws, pins, posts, nuts, inserts, bearings, belts
# name = "pivot"
# kind = "dowel-pin"
# diameter_mm = 5.0
# bore_mm = 5.4        # as drawn: this finds its bores
# fit = "turning"      # or sliding, held, pilot
# joins = ["{part}", "another part"]
# stack_mm = 14.0      # through all of them
# other_bores = [{{ part = "another part", bore_mm = 5.7, fit = "turning" }}]  # where its bore, or how it sits, differs
# [[work]]             # what you do by hand: drill, ream, bush or plug a bore; sand a peg, file flat faces
# kind = "drill"
# part = "{part}"
# drawn_mm = 5.4       # or bores = ["b1"], as fitwright inspect names them
# to_mm = 5.5
# [[gap]]              # two printed parts that move on each other
# between = ["{part}", "another part"]
# drawn_mm = 0.4       # on each side; left out: measured where the parts are drawn in place
# [[open]]             # openings that nothing goes through
# name = "window"
# parts = ["{part}"]
# bore_mm = 20.0       # or slot_mm = 40.0
# [[cord]]
# name = "pull cord"
# part = "{part}"
# diameter_mm = 1.0
# channel_mm = 2.0
# path_mm = 200.0
# [[strap]]
# name = "strap"
# part = "{part}"
# webbing_mm = 25.0
# slot_mm = 26.0
# around_mm = 190.0
# [[padding]]
# part = "{part}"
# thickness_mm = 3.0
# outline = "pad.svg"  # drawn in mm at 100 %; or area_mm2 = 9000.0
# [[joint]]  # how parts meet: screwed, pressed, slid, snapped, glued, tied, strapped; or move: turns, slides
# between = ["{part}", "another part"]
# how = "pressed"
# [settings]           # single print settings instead of the profile's: fitwright keys settings
# nozzle_c = 230.0     # left out: the material's own. The nozzle fitted is a key of [job]: nozzle_mm
# [use]
# recipient_age_years = 9
# kept = ["house"]
# load_n = 40.0
# [plan]
# start = 2030-01-01T17:30:00
# attended = ["Mon-Fri 17:30-22:30", "Sat-Sun 09:00-22:00"]
# Tables not shown here: [[size.measure]], [[place]], [[point]], [drive], [hands], [[spool]], [[override]]; fitwright
# keys explains each of them.
"""
