"""One file written whole: made beside the old one, on the disk before it takes its name."""

from __future__ import annotations

import contextlib
import os
import tempfile
from collections.abc import Iterator
from pathlib import Path

EVERYBODY, OWNER = 0o644, 0o600


class CannotWrite(Exception):
    """One line that says which file, and why."""


@contextlib.contextmanager
def told_plainly(path: Path) -> Iterator[None]:
    """Turn what the system says against writing `path` into one line for people.

    Raises:
        CannotWrite: instead of an OSError.
    """
    try:
        yield
    except OSError as error:
        raise CannotWrite(
            f"{path} could not be read or written ({error.strerror or error}). What was there stays."
        ) from error


def put(path: Path, content: bytes, *, mode: int = EVERYBODY) -> None:
    """Write `content` to `path`, which holds its old content until the new one is whole.

    Args:
        mode: Who may read it, as of `chmod`: `EVERYBODY` or `OWNER`. A link is followed, and stays a link.

    Raises:
        OSError: it can't be written; what was there is still there.
    """
    target = path.resolve()
    target.parent.mkdir(parents=True, exist_ok=True)
    handle, name = tempfile.mkstemp(dir=target.parent, prefix=f".{target.name}.new-")
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        os.chmod(name, mode)
        os.replace(name, target)
    except BaseException:
        with contextlib.suppress(OSError):
            os.unlink(name)
        raise
