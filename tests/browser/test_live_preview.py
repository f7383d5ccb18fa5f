"""The preview in a browser: an edit shows by itself, and a bad file shows its message instead of ending the server."""

import contextlib
import shutil
import socket
import subprocess
import sys
import time

from generator.deliver.offline import no_worker
from tests.browser.conftest import DATA, ROOT

SLUG = "mara"
PATIENCE_MS = 120_000


@contextlib.contextmanager
def preview(data):
    """The address of a running `shedbook serve`."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    words = ["generator", "serve", SLUG, "--data", str(data), "--port", str(port)]
    server = subprocess.Popen(
        [sys.executable, "-m", *words], cwd=ROOT, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
    )
    try:
        give_up = time.monotonic() + PATIENCE_MS / 1000
        while not answers(port):
            assert server.poll() is None, "the server ended by itself"
            assert time.monotonic() < give_up, "the server never answered"
            time.sleep(0.2)
        yield f"http://127.0.0.1:{port}/"
        assert server.poll() is None, "the server ended by itself"
    finally:
        server.terminate()
        server.wait(timeout=30)


def answers(port):
    with socket.socket() as probe:
        return probe.connect_ex(("127.0.0.1", port)) == 0


def test_edits_show_by_themselves_and_a_bad_file_shows_its_message_until_it_is_mended(watched, tmp_path):
    data = tmp_path / "data"
    shutil.copytree(DATA, data)
    file = data / "builders" / f"{SLUG}.yaml"
    good = file.read_text("utf-8")
    edits = {
        good.replace("Mara Quill", "Mara Sandpiper"): "Mara Sandpiper",
        good.replace("body_mass: 68", "body_mass: heavy"): "body mass",
        good: "Mara Quill",
    }
    watch = watched(390)
    with preview(data) as address:
        page = watch.open(address)
        for text, words in edits.items():
            file.write_text(text, "utf-8")
            page.wait_for_function(
                "words => document.querySelector('article')?.textContent.includes(words)",
                arg=words,
                timeout=PATIENCE_MS,
            )
        assert not watch.said
        assert page.request.get(f"{address}worker.js").text() == no_worker(), "a preview is never kept"
        assert page.locator("meta[name=shedbook-worker]").count() == 0
