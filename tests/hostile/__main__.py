"""``python -m tests.hostile [N] [SEED] [KIND]...``: N mutated files before every reader, 2 GB of memory at most."""

from __future__ import annotations

import resource
import sys
import tempfile
import time
from collections import Counter
from pathlib import Path

from tests.hostile.fuzz import faults
from tests.hostile.readers import READERS

MEMORY_BYTES = 2 * 2**30


def main() -> int:
    """Run, print each new fault with its file, and return whether there was one."""
    n, seed = (int(word) for word in [*sys.argv[1:3], *("10000", "1")[len(sys.argv[1:3]) :]])
    kinds = tuple(sys.argv[3:]) or tuple(READERS)
    folder, begin, seen = Path(tempfile.mkdtemp(prefix="hostile-")), time.process_time(), Counter[str]()
    resource.setrlimit(resource.RLIMIT_DATA, (MEMORY_BYTES, MEMORY_BYTES))
    for fault in faults(folder, seed, n, kinds):
        told = f"{fault.kind}: {fault.what}"
        if not seen[told]:
            print(f"{told} ({fault.seconds:.1f} s) {fault.file}", flush=True)
        seen[told] += 1
    spent = time.process_time() - begin
    print(f"{n} files, seed {seed}, {spent:.0f} s of processor time: {sum(seen.values())} faults, {len(seen)} kinds")
    return 1 if seen else 0


if __name__ == "__main__":
    sys.exit(main())
