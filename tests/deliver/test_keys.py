"""Keys: made once, kept whole, never shown."""

import base64
import json
import os
import stat
import subprocess
import sys
from pathlib import Path

import pytest

from generator.deliver.keys import FILE, key_of
from generator.deliver.whole_file import CannotWrite
from generator.inputs.fault import BadInput

ROOT = Path(__file__).resolve().parents[2]
KEY = "abcdefghijklmnopqrstuvwx23"


def kept(data):
    return json.loads((data / FILE).read_text("ascii"))


def test_a_key_is_made_once_and_stays(tmp_path):
    first = key_of(tmp_path, "mara")
    other = key_of(tmp_path, "tobin")
    assert key_of(tmp_path, "mara") == first != other
    assert kept(tmp_path) == {"mara": first, "tobin": other}
    assert os.listdir(tmp_path) == [FILE]


def test_a_key_is_128_bits_in_small_base32(tmp_path):
    key = key_of(tmp_path, "mara")
    assert len(base64.b32decode(key.upper() + "======")) == 16
    assert key == key.lower()


def test_only_the_owner_reads_the_file(tmp_path):
    key_of(tmp_path, "mara")
    path = tmp_path / FILE
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    path.chmod(0o644)  # as a copy or a backup leaves it
    key_of(tmp_path, "mara")
    assert stat.S_IMODE(path.stat().st_mode) == 0o600


def test_keys_of_builders_that_are_gone_stay(tmp_path):
    (tmp_path / FILE).write_text(json.dumps({"gone": KEY}))
    key_of(tmp_path, "mara")
    assert kept(tmp_path)["gone"] == KEY


def test_git_does_not_see_the_file():
    for name in (f"site_data/{FILE}", "mail/mara.eml", "mara.eml"):
        asked = ["git", "check-ignore", "--no-index", "--quiet", name]
        assert subprocess.run(asked, cwd=ROOT, check=False).returncode == 0, name


def test_runs_at_once_lose_no_key(tmp_path):
    code = "import sys; from pathlib import Path; from generator.deliver.keys import key_of\n"
    code += "for n in range(8): key_of(Path(sys.argv[1]), f'{sys.argv[2]}{n}')"
    runs = [
        subprocess.Popen([sys.executable, "-c", code, str(tmp_path), name], cwd=ROOT) for name in ("a", "b", "c", "d")
    ]
    assert [run.wait() for run in runs] == [0, 0, 0, 0]
    assert len(set(kept(tmp_path).values())) == 32
    assert os.listdir(tmp_path) == [FILE]


BROKEN = {
    "cut short": ('{\n "mara": "' + KEY + '",\n "tob', 3),
    "a bare key": ('{"mara": ' + KEY + "}", 1),
    "a list": (f'["{KEY}"]', 1),
    "a name that is none": ('{\n "Mara Q": "' + KEY + '"}', 2),
    "a key that is none": ('{\n\n "mara": "' + KEY[:20] + '"}', 3),
    "a number": ('{"mara": 5}', 1),
    "two with one key": ('{"mara": "' + KEY + '",\n "tobin": "' + KEY + '"}', 2),
    "name and key changed over": ('{"' + KEY + '": "mara"}', 1),
    "given twice": ('{"mara": "' + KEY + '",\n "mara": "' + KEY[::-1].replace("3", "z") + '"}', 2),
    "nothing": ("", 1),
}


@pytest.mark.parametrize(("text", "line"), BROKEN.values(), ids=BROKEN)
def test_a_broken_file_is_told_with_its_line_without_a_key_and_left_alone(tmp_path, text, line):
    path = tmp_path / FILE
    path.write_text(text)
    with pytest.raises(BadInput) as stopped:
        key_of(tmp_path, "tobin")
    words = str(stopped.value)
    assert words.startswith(f"{FILE}:{line}: ")
    for part in (KEY, KEY[:20], KEY[:8], KEY[-8:], KEY[::-1][2:10]):
        assert part not in words
    assert path.read_text() == text


def test_a_folder_in_its_place_is_told(tmp_path):
    (tmp_path / FILE).mkdir()
    with pytest.raises(BadInput, match="not a file"):
        key_of(tmp_path, "mara")


def test_a_key_that_can_t_be_kept_is_not_given(tmp_path, monkeypatch):
    def full(*_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "replace", full)
    with pytest.raises(CannotWrite, match="No space left") as stopped:
        key_of(tmp_path, "mara")
    assert "\n" not in str(stopped.value)
    assert os.listdir(tmp_path) == []
