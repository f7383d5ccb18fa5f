"""On which page of a PDF that Chromium wrote each place is: its objects stand open, only their contents are packed."""

from __future__ import annotations

import re
from collections.abc import Mapping

_OBJECT = re.compile(rb"(?:^|\n)(\d+) 0 obj\s(.*?)\sendobj", re.DOTALL)
_STREAM = re.compile(rb"stream\r?\n.*?endstream", re.DOTALL)
_PLACE = re.compile(rb"/([A-Za-z0-9_.-]+) \[(\d+) 0 R /XYZ")
_KIDS = re.compile(rb"/Kids \[([^\]]*)\]")
_REFERENCE = re.compile(rb"(\d+) 0 R")


def page_of_each_place(pdf: bytes) -> Mapping[str, int]:
    """The page, counted from 1, of every place that a link of the document leads to, by its id.

    Empty if the file is built in another way than expected.

    Source: ISO 32000-1:2008, 7.7.3 (page tree) and 12.3.2.3 (named destinations).
    """
    objects = _objects(pdf)
    pages = {number: at for at, number in enumerate(_pages(objects), 1)}
    return {
        name.decode("ascii"): pages[int(page)]
        for content in objects.values()
        for name, page in _PLACE.findall(content)
        if int(page) in pages
    }


def page_sizes(pdf: bytes) -> tuple[tuple[float, float], ...]:
    """Width and height of each page in points (1/72 in)."""
    objects = _objects(pdf)
    boxes = (re.search(rb"/MediaBox \[([^\]]*)\]", objects[number]) for number in _pages(objects))
    sizes = [[float(part) for part in box[1].split()] for box in boxes if box]
    return tuple((right - left, top - bottom) for left, bottom, right, top in sizes)


def _objects(pdf: bytes) -> dict[int, bytes]:
    return {int(number): _STREAM.sub(b"", content) for number, content in _OBJECT.findall(_STREAM.sub(b"", pdf))}


def _pages(objects: Mapping[int, bytes]) -> list[int]:
    """The objects of the pages in order, from the root of their tree."""
    trees = {number for number, content in objects.items() if b"/Type /Pages" in content}
    children = {number: [int(kid) for kid in _kids(objects[number])] for number in trees}
    roots = trees - {kid for kids in children.values() for kid in kids}
    found: list[int] = []
    waiting = sorted(roots, reverse=True)
    while waiting:
        number = waiting.pop()
        if number in children:
            waiting += reversed(children.pop(number))
        elif number in objects and number not in trees:
            found.append(number)
    return found


def _kids(content: bytes) -> list[bytes]:
    found = _KIDS.search(content)
    return _REFERENCE.findall(found[1]) if found else []
