"""A build that is killed at any moment leaves a whole guide, the old one or the new one."""

import hashlib
import random
import shutil
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from generator.deliver.building import build_site
from generator.deliver.swap import mend
from tests.deliver.small_guide import small_guide

ROOT = Path(__file__).resolve().parents[2]
NEW_BENCH = "# The bench\n\n## Steps { #steps }\n\nAll new.\n"
CHILD = """
import sys
from pathlib import Path
from generator.deliver.building import build_site
from tests.deliver.small_guide import small_guide
guide = small_guide(bench=sys.argv[2])
print("ready", flush=True)
build_site(guide, out=Path(sys.argv[1]))
print("done", flush=True)
"""

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="kill -9 is not to be had there")


def contents(folder):
    return {
        path.relative_to(folder).as_posix(): hashlib.sha256(path.read_bytes()).hexdigest()
        for path in folder.rglob("*")
        if path.is_file()
    }


@pytest.fixture(scope="module")
def two_guides(tmp_path_factory):
    """The old guide's folder, and the contents of the old and of the new guide."""
    root = tmp_path_factory.mktemp("guides")
    build_site(small_guide(), out=root / "old")
    build_site(small_guide(bench=NEW_BENCH), out=root / "new")
    return root / "old", contents(root / "old"), contents(root / "new")


def start_build(out):
    return subprocess.Popen(
        [sys.executable, "-W", "ignore", "-c", CHILD, str(out), NEW_BENCH],
        cwd=ROOT,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        text=True,
    )


@pytest.mark.parametrize("moment", range(5))
def test_a_killed_build_leaves_a_whole_guide(two_guides, tmp_path, moment):
    folder, old, new = two_guides
    out = tmp_path / "demo"
    shutil.copytree(folder, out)
    child = start_build(out)
    try:
        assert child.stdout.readline() == "ready\n"
        time.sleep(random.Random(moment).uniform(0, 0.16) + 0.16 * moment)  # spread over the whole build
        child.send_signal(signal.SIGKILL)
        child.wait(timeout=30)
    finally:
        child.kill()
        child.stdout.close()
    mend(out)
    assert contents(out) in (old, new)
    assert list(tmp_path.iterdir()) == [out]


def test_killed_while_it_swaps_a_build_leaves_a_whole_guide(two_guides, tmp_path):
    """Killed as soon as the old folder moves, which a kill by the clock would hardly ever hit."""
    folder, old, new = two_guides
    out = tmp_path / "demo"
    shutil.copytree(folder, out)
    child = start_build(out)
    try:
        assert child.stdout.readline() == "ready\n"
        give_up = time.monotonic() + 60
        while (out / "numbers.html").exists() and "All new" not in (out / "bench.html").read_text("utf-8"):
            assert time.monotonic() < give_up
        child.send_signal(signal.SIGKILL)
        child.wait(timeout=30)
    except FileNotFoundError:
        child.send_signal(signal.SIGKILL)  # the read fell between the two renames
        child.wait(timeout=30)
    finally:
        child.kill()
        child.stdout.close()
    mend(out)
    assert contents(out) in (old, new)
    assert list(tmp_path.iterdir()) == [out]


def test_the_next_build_clears_what_a_killed_one_left(two_guides, tmp_path):
    folder, _, new = two_guides
    out = tmp_path / "demo"
    shutil.copytree(folder, tmp_path / ".demo.old")  # killed between the two renames
    shutil.copytree(folder, tmp_path / ".demo.new-1-dead")
    build_site(small_guide(bench=NEW_BENCH), out=out)
    assert contents(out) == new
    assert list(tmp_path.iterdir()) == [out]
