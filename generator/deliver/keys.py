"""The secret part of each builder's address: made once, never again, and kept in one file that only its owner reads.

Whoever knows the key of a guide can open it, so it stands in that file and in the mail draft, and nowhere else: no
message of this module holds one.
"""

from __future__ import annotations

import base64
import json
import os
import re
import secrets
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from generator.deliver.swap import locked
from generator.deliver.whole_file import OWNER, put, told_plainly
from generator.inputs.builder import slug_of
from generator.inputs.fault import BadInput, Fault
from generator.inputs.read import Document
from generator.inputs.read_json import read_json

FILE = "keys.json"
BYTES = 16
"""128 bits: nobody finds such a name by trying."""

_KEY = re.compile(r"[a-z2-7]{26}")
FORM = 'an object like {"mara": "…"}, a key for each builder'
WAY_OUT = "the file as it was, from a backup: a new key would be a new address"


def key_of(data: Path, slug: str) -> str:
    """The key of a builder, made and kept if there is none yet.

    Raises:
        BadInput: the file of keys is broken; it is left as it is.
        CannotWrite: a new key can't be kept.
    """
    path = data / FILE
    with told_plainly(path), locked(data):
        keys = _read(path)
        if slug not in keys:
            keys[slug] = _new_key(keys)
            text = json.dumps(dict(sorted(keys.items())), indent=1) + "\n"
            put(path, text.encode("ascii"), mode=OWNER)
        elif path.stat().st_mode & 0o077 and os.name == "posix":
            path.chmod(OWNER)
    return keys[slug]


def _new_key(keys: dict[str, str]) -> str:
    """Small letters and the digits 2 to 7. Source: RFC 4648 (2006), section 6, base32 without its padding."""
    key = base64.b32encode(secrets.token_bytes(BYTES)).decode("ascii").rstrip("=").lower()
    return key if key not in keys.values() else _new_key(keys)


def _read(path: Path) -> dict[str, str]:
    if not path.exists():
        return {}
    if not path.is_file():
        raise BadInput([Fault(FILE, "the file", "not a file", "a file of keys", "moving it away")])
    try:
        document = read_json(path.read_bytes(), FILE)
    except BadInput as bad:
        raise BadInput(_without_text(bad.faults)) from None
    faults = [*_without_text(document.faults), *_faults(document)]
    if faults:
        raise BadInput(faults)
    return dict(document.data)


def _without_text(faults: Sequence[Fault]) -> list[Fault]:
    """The same places: the reader's own words would quote what stands there, and that may be a key."""
    return [Fault(fault.place, "the file", "not what JSON looks like here", FORM, WAY_OUT) for fault in faults]


def _faults(document: Document) -> list[Fault]:
    """What is wrong in the file; neither keys nor names are quoted, since one may stand in the other's place."""
    data: Any = document.data
    if not isinstance(data, dict):
        return [Fault(document.at(()), "the file", "no object", FORM, WAY_OUT)]
    faults, seen = [], set[str]()
    for slug, key in data.items():
        place = document.at((slug,))
        if slug_of(slug) != slug:
            faults.append(Fault(place, "the name before the colon", "no builder's file name", FORM, WAY_OUT))
        elif not isinstance(key, str) or not _KEY.fullmatch(key):
            faults.append(Fault(place, "the key", "not 26 small letters and digits from 2 to 7", FORM, WAY_OUT))
        elif key in seen:
            faults.append(Fault(place, "the key", "another builder's too", "a key of its own", "taking this line out"))
        seen.add(str(key))
    return faults
