"""A folder replaced as a whole: made beside the old one, renamed into its place, and mended after a crash.

Names beside `out/SLUG`: `.SLUG.new-…` is being made, `.SLUG.old` was moved away. A process holds a lock on the
folder that it makes, so that the leavings of a dead one can be told from the work of a living one.
"""

from __future__ import annotations

import contextlib
import os
import secrets
import shutil
import sys
import time
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

if sys.platform != "win32":
    import fcntl

GIVEN_UP_S = 3600.0


@dataclass(slots=True)
class Place:
    """A fresh folder to build in; `keep` says that it is whole and may replace the old one."""

    folder: Path
    whole: bool = field(default=False, init=False)

    def keep(self) -> None:
        self.whole = True


@contextlib.contextmanager
def beside(out: Path) -> Iterator[Place]:
    """A place to build what shall become `out`; it replaces `out` at the end if it was kept, else it vanishes."""
    out.parent.mkdir(parents=True, exist_ok=True)
    mend(out)
    place = Place(out.parent / f".{out.name}.new-{os.getpid()}-{secrets.token_hex(4)}")
    with contextlib.ExitStack() as until_done:
        until_done.callback(shutil.rmtree, place.folder, ignore_errors=True)
        with locked(out.parent):
            place.folder.mkdir()
            until_done.enter_context(locked(place.folder))
        yield place
        if place.whole:
            with locked(out.parent):
                _swap(place.folder, out)


def mend(out: Path) -> None:
    """Finish or take back a replacement of `out` that was cut short, and clear what dead processes left."""
    with locked(out.parent):
        old = _old(out)
        if old.exists():
            if out.exists():
                shutil.rmtree(old)
            else:
                old.rename(out)
        for left in out.parent.glob(f".{out.name}.new-*"):
            if _given_up(left):
                shutil.rmtree(left, ignore_errors=True)


def _old(out: Path) -> Path:
    return out.parent / f".{out.name}.old"


def _swap(new: Path, out: Path) -> None:
    """A crash between the two renames leaves the old one under its other name, where `mend` finds it."""
    old = _old(out)
    if out.exists():
        out.rename(old)
    try:
        new.rename(out)
    except OSError:
        if old.exists():
            old.rename(out)
        raise
    shutil.rmtree(old, ignore_errors=True)


@contextlib.contextmanager
def locked(folder: Path) -> Iterator[None]:
    """Hold `folder` for this process; the lock goes with the process, however it ends (not on Windows)."""
    if sys.platform == "win32":
        yield
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        fcntl.flock(handle, fcntl.LOCK_EX)
        yield
    finally:
        os.close(handle)


def _given_up(folder: Path) -> bool:
    """Whether no living process is making `folder`."""
    if sys.platform == "win32":
        return time.time() - folder.stat().st_mtime > GIVEN_UP_S
    try:
        handle = os.open(folder, os.O_RDONLY)
    except FileNotFoundError:
        return False
    try:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except BlockingIOError:
        return False
    else:
        return True
    finally:
        os.close(handle)
