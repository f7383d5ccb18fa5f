#!/usr/bin/env python3
"""Sets shedbook up and runs it: `run.py guide`, `test`, `serve BUILDER`, `shots` or `speed`. Standard library only."""

import hashlib
import os
import shutil
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent
VENV = ROOT / ".venv"
STAMP = VENV / "shedbook-stamp"
OLDEST = (3, 11)
USAGE = "usage: python3 run.py guide | test [pytest words] | serve BUILDER | shots [BUILDER ...] | speed"


class SetupFailed(Exception):
    """One line that says what to do."""


def say(words):
    print(words, file=sys.stderr, flush=True)


def venv_python():
    return VENV / ("Scripts/python.exe" if os.name == "nt" else "bin/python")


def check_python():
    """The two things that `-m venv` would only stumble over half-way."""
    if sys.version_info < OLDEST:
        raise SetupFailed(
            f"shedbook needs Python {OLDEST[0]}.{OLDEST[1]} or newer; this is {sys.version_info[0]}."
            f"{sys.version_info[1]}. Install a newer Python 3 and call run.py with it."
        )
    try:
        import ensurepip

        ensurepip.version()
    except Exception:
        raise SetupFailed(
            "This Python can't make environments (ensurepip is missing). Install it: on Debian and "
            "Ubuntu `apt install python3-venv`, elsewhere a complete Python 3."
        ) from None


def wanted_stamp(locks):
    digest = hashlib.sha256(repr(sys.version_info[:2]).encode())
    for name in ("pyproject.toml", *locks):
        digest.update((ROOT / name).read_bytes())
    return f"{digest.hexdigest()} {' '.join(locks)}"


def stamped(locks):
    """Whether .venv was finished with these locks (or with these and more)."""
    try:
        stamp = STAMP.read_text("utf-8")
    except OSError:
        return False
    return venv_python().exists() and any(
        stamp == wanted_stamp(have) for have in (locks, ("lock.txt", "lock-test.txt"))
    )


def set_up(locks):
    if stamped(locks):
        return
    check_python()
    say("Setting up .venv (a minute or two, once) …")
    STAMP.unlink(missing_ok=True)
    pip = [str(venv_python()), "-m", "pip", "--disable-pip-version-check", "--quiet", "install"]
    steps = [[sys.executable, "-m", "venv", "--clear", str(VENV)]]
    steps += [[*pip, "--require-hashes", "--requirement", str(ROOT / lock)] for lock in locks]
    steps += [[*pip, "--no-deps", "--no-build-isolation", "--no-index", "--editable", str(ROOT)]]
    for number, step in enumerate(steps):
        if subprocess.call(step, cwd=ROOT) != 0:
            if number == 0:
                shutil.rmtree(VENV, ignore_errors=True)
            raise SetupFailed(f"Setting up stopped at `{' '.join(step[1:4])}`: see above. Run the same command again.")
    STAMP.write_text(wanted_stamp(locks), "utf-8")


def found_chromium():
    """The browser for the browser tests: named by the user, the machine's own, or None."""
    names = (os.environ.get("SHEDBOOK_CHROMIUM"), "chromium", "chromium-browser", "google-chrome")
    return next((path for path in map(shutil.which, filter(None, names)) if path), None)


def get_chromium():
    path = found_chromium()
    if path:
        return path
    if sys.platform == "linux" and shutil.which("apt-get") and os.geteuid() == 0:
        say("Getting Debian's Chromium for the browser tests …")
        quiet = {"stdout": subprocess.DEVNULL, "env": {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}}
        subprocess.call(["apt-get", "update", "-qq"], **quiet)
        subprocess.call(["apt-get", "install", "-y", "-qq", "--no-install-recommends", "chromium"], **quiet)
        if found_chromium():
            return found_chromium()
    say("Getting Playwright's Chromium for the browser tests …")
    if subprocess.call([str(venv_python()), "-m", "playwright", "install", "chromium"]) == 0:
        ask = "from playwright.sync_api import sync_playwright as p\nwith p() as q: print(q.chromium.executable_path)"
        asked = subprocess.run([str(venv_python()), "-c", ask], capture_output=True, text=True, check=False)
        if asked.returncode == 0:
            return asked.stdout.strip()
    return None


def shedbook(*words):
    return subprocess.call([str(venv_python()), "-m", "generator", *words], cwd=ROOT)


def test(words):
    set_up(("lock.txt", "lock-test.txt"))
    chromium = get_chromium()
    python = str(venv_python())
    env = {"OPENBLAS_NUM_THREADS": "1", **os.environ, "SHEDBOOK_CHROMIUM": chromium or ""}
    checks = [["ruff", "check", "."], ["ruff", "format", "--check", "."], ["mypy"]] if not words else []
    tests = ["pytest", *(words or ["-n", "2", "--dist", "loadgroup"])]
    if not chromium:
        tests += ["-m", "not browser"]
    codes = [subprocess.call([python, "-m", *step], cwd=ROOT, env=env) for step in [*checks, tests]]
    if not chromium:
        say("No Chromium could be had, so the browser tests did not run: install Chromium and run this again.")
    return 0 if chromium and not any(codes) else 1


def speed():
    set_up(("lock.txt", "lock-test.txt"))
    return subprocess.call([str(venv_python()), str(ROOT / "tests" / "speed" / "bench_speed.py")], cwd=ROOT)


def shots(builders):
    """Pictures of all pages into `shots`, for those who change the look."""
    set_up(("lock.txt", "lock-test.txt"))
    chromium = get_chromium()
    if not chromium:
        say("No Chromium could be had, so no pictures were taken: install Chromium and run this again.")
        return 1
    env = {**os.environ, "SHEDBOOK_CHROMIUM": chromium}
    script = str(ROOT / "tests" / "browser" / "shots.py")
    return subprocess.call([str(venv_python()), script, *builders], cwd=ROOT, env=env)


def main(argv):
    try:
        if argv[:1] == ["guide"] and len(argv) == 1:
            set_up(("lock.txt",))
            return shedbook("build")
        if argv[:1] == ["serve"] and len(argv) == 2:
            set_up(("lock.txt",))
            return shedbook("serve", argv[1])
        if argv[:1] == ["test"]:
            return test(argv[1:])
        if argv[:1] == ["shots"]:
            return shots(argv[1:])
        if argv == ["speed"]:
            return speed()
    except SetupFailed as stopped:
        say(stopped)
        return 2
    except KeyboardInterrupt:
        return 130
    say(USAGE)
    return 2


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
