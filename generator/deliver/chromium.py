"""The machine's own Chromium as a printer: one HTML file in, one PDF out, without a network."""

from __future__ import annotations

import contextlib
import os
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from pathlib import Path

NAMED_BY = "SHEDBOOK_CHROMIUM"
NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome", "msedge")
USUAL_PLACES = (
    "/Applications/Chromium.app/Contents/MacOS/Chromium",
    "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
    "C:/Program Files/Google/Chrome/Application/chrome.exe",
    "C:/Program Files (x86)/Google/Chrome/Application/chrome.exe",
    "C:/Program Files (x86)/Microsoft/Edge/Application/msedge.exe",
)
OLDEST = 131
"""The first version that prints what a style sheet says about a sheet's margins: page numbers stand there."""

TIMEOUT_S = 120.0
GONE_S = 1.0
"""How long what was killed is waited for, in seconds: the system may be slow to clear it away."""
SWITCHES = (
    "--headless",
    "--disable-gpu",
    "--disable-dev-shm-usage",
    "--disable-extensions",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
    "--no-default-browser-check",
    "--host-resolver-rules=MAP * ~NOTFOUND",
    "--no-pdf-header-footer",
    "--generate-pdf-document-outline",
)


class CannotPrint(Exception):
    """One line that says why, and what to do."""


def find_chromium() -> str:
    """The browser that the user named, else the machine's own.

    Raises:
        CannotPrint: there is none.
    """
    named = os.environ.get(NAMED_BY, "")
    if named:
        path = shutil.which(named)
        if path is None:
            raise CannotPrint(f"{NAMED_BY} names {named}, and no program is there.")
        return path
    found = next((path for path in map(shutil.which, (*NAMES, *USUAL_PLACES)) if path), None)
    if found is None:
        raise CannotPrint(
            "No Chromium or Chrome was found on this machine, and it is what makes the PDF. Install one, or name yours"
            f" in {NAMED_BY}. You can also open the guide in any browser and print a page from there."
        )
    return found


def print_pdf(html: bytes, *, chromium: str, folder: Path, timeout_s: float = TIMEOUT_S) -> bytes:
    """The PDF of one page that loads nothing.

    Args:
        chromium: The browser's program.
        folder: Where a folder of its own is made for the while; browsers in a box may not see the system's own.
        timeout_s: How long it may take, in seconds.

    Raises:
        CannotPrint: it can't be started, takes too long, or writes no PDF.
        OSError: the folder can't be written to.
    """
    with tempfile.TemporaryDirectory(dir=folder, prefix="shedbook-print-", ignore_cleanup_errors=True) as name:
        place = Path(name).resolve()
        page, pdf = place / "sheets.html", place / "sheets.pdf"
        page.write_bytes(html)
        command = [chromium, *SWITCHES, *_as_root(), f"--user-data-dir={place / 'profile'}"]
        said = _run([*command, f"--print-to-pdf={pdf}", page.as_uri()], place / "said", timeout_s)
        written = pdf.read_bytes() if pdf.is_file() else b""
    if not written.startswith(b"%PDF-") or b"%%EOF" not in written[-1024:]:
        raise CannotPrint(f"{chromium} wrote no PDF{_reason(said)}. Is it version {OLDEST} or newer?")
    return written


def _as_root() -> tuple[str, ...]:
    """Its sandbox refuses to run for the superuser, and only then is it left out."""
    return ("--no-sandbox",) if sys.platform != "win32" and os.geteuid() == 0 else ()


def _run(command: list[str], log: Path, timeout_s: float) -> str:
    """Run it to its end, and then end its children; what it said, by way of the file `log`.

    A pipe would stay open, and be waited for, as long as any child that it left behind holds it.
    """
    try:
        with log.open("wb") as said:
            process = subprocess.Popen(
                command, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, stderr=said, start_new_session=True
            )
    except OSError as error:
        raise CannotPrint(f"{command[0]} could not be started ({error.strerror}).") from None
    try:
        process.wait(timeout=timeout_s)
    except subprocess.TimeoutExpired:
        raise CannotPrint(
            f"{command[0]} had not finished printing after {timeout_s:.0f} s and was stopped. Try once more, or name"
            f" another browser in {NAMED_BY}."
        ) from None
    finally:
        _end(process)
    return log.read_text("utf-8", errors="replace")


def _end(process: subprocess.Popen[bytes]) -> None:
    """No part of it outlives this call."""
    if sys.platform == "win32":
        process.kill()
    else:
        with contextlib.suppress(ProcessLookupError, PermissionError):
            os.killpg(process.pid, signal.SIGKILL)
            process.wait()
            ends = time.monotonic() + GONE_S
            while time.monotonic() < ends:
                os.killpg(process.pid, 0)  # raises once none of them is left that could still write to its folder
                time.sleep(0.01)
    process.wait()


def _reason(said: str) -> str:
    """The last thing that it complained of, for the message; it also chats about services that no printing needs."""
    lines = [line.strip() for line in said.splitlines() if line.strip() and "dbus" not in line]
    return f" ({lines[-1][:200]})" if lines else ""
