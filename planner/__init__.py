"""Fitwright: from meshes to a working many-part device, at the size that fits one person.

The street of rooms, read from left to right; a room imports only from its left::

    job -> mesh -> survey -> fit -> layers -> process -> plates -> supplies -> plan -> report -> cli

Words everyone shares: ``errors``, ``finding``, ``sourced``, ``cache``.
"""

__version__ = "0.2.0"
