"""Work on a cluster: processes of this computer, or any running cluster of ``dask.distributed`` by its address.

A worker does an item with an empty cache of its own and sends back what that kept; here it goes into the cache, where
who asks finds it. So results are those of one process to the last byte, and a worker that is killed costs time alone:
what it did not send back is made where it is asked for.
"""

from __future__ import annotations

import os
import threading
import warnings
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager, suppress
from importlib import import_module
from importlib.util import find_spec
from tempfile import TemporaryDirectory
from typing import Any, TypeVar

from planner.cache import folder, held, put
from planner.errors import CommandError

T = TypeVar("T")
Files = dict[str, bytes]
"""What a cache holds, by path below its folder."""
MOST_N = 256
PATIENCE_S = "20s"
"""So long a cluster gets to answer."""
_CLIENT: list[Any] = []
"""The cluster that is asked; empty: none is."""
_ALONE = threading.Lock()


def known_workers(where: str) -> str:
    """Return where work may go: a number of processes, an address, or empty; nothing is started.

    Raises
    ------
    CommandError
        Where it is neither, or the library is not there.
    """
    if where and not (where.isdigit() and 1 <= int(where) <= MOST_N) and "://" not in where:
        raise CommandError(where="--workers", wrong=f"'{where}' is neither", todo="write a number, or tcp://HOST:PORT")
    if where and find_spec("distributed") is None:
        raise CommandError(
            where="--workers", wrong="dask.distributed is not there", todo="pip install 'fitwright[workers]'"
        )
    return where


@contextmanager
def on_workers(where: str) -> Iterator[None]:
    """Let work that is done ahead go to so many local processes, or to the cluster at an address; empty: neither.

    Raises
    ------
    CommandError
        Where it is neither a number nor an address, nothing answers there, or the library is not there.
    """
    if not known_workers(where):
        yield
        return
    with _client(where) as client:
        _CLIENT.append(client)
        try:
            yield
        finally:
            _CLIENT.pop()


@contextmanager
def _client(where: str) -> Iterator[Any]:
    """Yield a client of so many new local processes, or of a cluster that runs."""
    distributed = import_module("distributed")  # optional: [workers] of pyproject.toml
    if "://" in where:
        try:
            client = distributed.Client(where, timeout=PATIENCE_S)
        except (OSError, ValueError) as error:
            raise CommandError(
                where=where, wrong="no cluster answers there", todo="start one, or correct it"
            ) from error
        with client:
            yield client
        return
    processes = {"n_workers": int(where), "threads_per_worker": 1, "dashboard_address": None, "silence_logs": 50}
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", UserWarning)  # another cluster of this computer has the usual port: no matter
        cluster = distributed.LocalCluster(**processes)
    with cluster, distributed.Client(cluster) as client:
        yield client


def spread(work: Callable[[T], object], items: Sequence[T]) -> bool:
    """Let the cluster do some work on every item, and keep what comes back; False where there is none, or it cannot."""
    if not _CLIENT or folder() is None:
        return False
    distributed = import_module("distributed")
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", UserWarning)  # meshes are large, and are sent once
        try:
            futures = [_CLIENT[-1].submit(files_of, work, item, pure=False) for item in items]
        except Exception:  # noqa: BLE001  what cannot be sent is done here: whatever pickling raises
            return False
        for future in distributed.as_completed(futures):
            with suppress(Exception):  # what failed there fails again, or is made, where it is asked for
                for name, data in future.result().items():
                    put(name, data)
    return True


def files_of(work: Callable[[T], object], item: T) -> Files:
    """Return what an item's work kept in an empty cache, on a worker."""
    with _ALONE, TemporaryDirectory(prefix="fitwright-") as here:
        before = os.environ.get("FITWRIGHT_CACHE")
        os.environ["FITWRIGHT_CACHE"] = here
        try:
            work(item)
            return held()
        finally:
            if before is None:
                del os.environ["FITWRIGHT_CACHE"]
            else:
                os.environ["FITWRIGHT_CACHE"] = before
