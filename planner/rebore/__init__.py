"""Re-bore: openings that hold hardware are put back to hardware size in the mesh, at scale.

1. ``rebored(job, solids, surveys, claims, downs, s)`` plugs and cuts them anew.
2. ``as_rebored(job, solids, surveys, downs, factor)`` gives meshes and surveys of parts that the job re-bores.
3. ``job_after(job, result, ...)`` is the job of the new meshes: their 100 % is the size just written.
4. ``other_work(...)`` names the scales at which it begins to do something else.
"""

from planner.rebore.as_rebored import as_rebored
from planner.rebore.job_after import job_after
from planner.rebore.other_work import other_work
from planner.rebore.rebore import Change, Rebored, rebored

__all__ = [
    "Change",
    "Rebored",
    "as_rebored",
    "job_after",
    "other_work",
    "rebored",
]
