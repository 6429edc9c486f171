"""Fitwright: from meshes to a working many-part device, at the size that fits one person.

The rooms are the steps of the job, read from left to right; a room imports only from rooms on its left::

    job -> mesh -> survey -> assembly -> layers -> pose -> rules -> mechanism -> strength -> size
        -> rebore -> calibrate -> packing -> schedule -> supplies -> gcode -> plan -> output -> desk -> cli

Shared by all: ``errors``, ``finding``, ``sourced``, ``scale``, ``whole_file``, ``cache``.
"""

__version__ = "0.2.0"
