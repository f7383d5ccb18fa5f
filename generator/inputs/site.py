"""The data folder: the maker, the boards, the builders, the tables. The only place that opens input files."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType
from typing import TypeVar

from generator.inputs.board import Board
from generator.inputs.board_checks import board_faults
from generator.inputs.builder import Builder, slug_of
from generator.inputs.builder_checks import builder_faults
from generator.inputs.fault import BadInput, Fault, shown
from generator.inputs.fields import Part, nearest_name
from generator.inputs.fit import Fitted, UnsoundError, fit
from generator.inputs.maker import Maker
from generator.inputs.maker_checks import maker_faults
from generator.inputs.read import MOST_BYTES, Document, read_document
from generator.inputs.rocker_rules import RockerRules, read_rocker_rules
from generator.inputs.tables import MOST_BYTES as MOST_TABLE_BYTES
from generator.inputs.tables import PracticeRow, R, Species, Tool, read_table, tool_faults

P = TypeVar("P", bound=Part)
T = TypeVar("T")

RULES = "rocker_rules.csv"


@dataclass(frozen=True, slots=True)
class Site:
    """All that is not one builder's own. Boards by slug, builders by slug in order of their file names."""

    maker: Maker
    boards: Mapping[str, Board]
    builder_slugs: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Inputs:
    """All that one builder's guide is made from, checked."""

    slug: str
    board_slug: str
    maker: Maker
    board: Board
    builder: Builder
    species: Species
    practice: tuple[PracticeRow, ...]
    tools: tuple[Tool, ...]
    rocker_rules: RockerRules


@dataclass(slots=True)
class _Reading:
    """Collects faults while files are read; what can't be read is None."""

    folder: Path
    faults: list[Fault]

    def table(self, name: str, row_type: type[R]) -> tuple[R, ...] | None:
        """One CSV table."""
        return self._kept(lambda: read_table(_bytes_of(self.folder, name, MOST_TABLE_BYTES), name, row_type))

    def rocker_rules(self) -> RockerRules | None:
        """The maker's rules for rockers."""
        return self._kept(lambda: read_rocker_rules(_bytes_of(self.folder, RULES, MOST_TABLE_BYTES), RULES))

    def fitted(self, name: str, model: type[P]) -> Fitted[P] | None:
        """One YAML file against its model; its faults are kept."""
        document: Document | None = self._kept(lambda: read_document(_bytes_of(self.folder, name, MOST_BYTES), name))
        if document is None:
            return None
        fitted = fit(model, document)
        self.faults += fitted.faults
        return fitted

    def maker(self) -> Fitted[Maker] | None:
        """The maker's file with its cross-checks."""
        fitted = self.fitted("maker.yaml", Maker)
        self.faults += maker_faults(fitted) if fitted else []
        return fitted

    def board(self, slug: str, timbers: tuple[Species, ...] | None) -> Fitted[Board] | None:
        """A board's file with its cross-checks."""
        fitted = self.fitted(f"boards/{slug}.yaml", Board)
        self.faults += board_faults(fitted, timbers) if fitted else []
        return fitted

    def _kept(self, read: Callable[[], T]) -> T | None:
        try:
            return read()
        except BadInput as bad:
            self.faults += bad.faults
            return None


def builder_slugs(folder: Path) -> tuple[str, ...]:
    """The builders' file names without `.yaml`, sorted."""
    return _slugs(folder / "builders")


def misnamed(folder: Path) -> tuple[Fault, ...]:
    """A fault for each file in `boards` and `builders` whose name is no slug with `.yaml`."""
    faults = []
    for kind in ("boards", "builders"):
        for path in sorted((folder / kind).glob("*")):
            if not path.name.startswith(".") and not _good_name(path):
                nearest = f"{slug_of(path.stem) or 'a-name'}.yaml"
                allowed = "small letters, digits and single hyphens, then .yaml"
                name = shown(path.name)
                faults.append(Fault(f"{kind}/{name}", "the file's name", name, allowed, nearest))
    return tuple(faults)


def read_site(folder: Path) -> Site:
    """The maker and all boards; the maker's rules for rockers are checked with them.

    Raises:
        BadInput: all faults of these files and of all file names.
    """
    reading = _Reading(folder, list(misnamed(folder)))
    maker = reading.maker()
    reading.rocker_rules()
    timbers = reading.table("timber.csv", Species)
    boards = {slug: reading.board(slug, timbers) for slug in _slugs(folder / "boards")}
    if not boards:
        none = Fault("boards", "the folder of boards", "empty", "one file a board", "a copy of a demo board")
        reading.faults.append(none)
    if reading.faults:
        raise BadInput(reading.faults)
    good = {slug: _all_there(board) for slug, board in boards.items()}
    return Site(_all_there(maker), MappingProxyType(good), builder_slugs(folder))


def read_timbers(folder: Path) -> tuple[Species, ...]:
    """The table of timbers alone.

    Raises:
        BadInput: it is not there or has faults.
    """
    name = "timber.csv"
    return read_table(_bytes_of(folder, name, MOST_TABLE_BYTES), name, Species)


def read_builder(folder: Path, slug: str) -> Inputs:
    """Everything for the guide of one builder.

    Raises:
        BadInput: all faults of the maker's, the board's and the builder's file and of the tables.
    """
    if slug not in builder_slugs(folder):
        nearest = nearest_name(slug, builder_slugs(folder))
        known = ", ".join(builder_slugs(folder)) or "none yet: the folder `builders` has no file"
        raise BadInput([Fault(f"builders/{shown(slug)}.yaml", "the builder", "not there", known, nearest)])
    reading = _Reading(folder, [])
    maker = reading.maker()
    timbers = reading.table("timber.csv", Species)
    practice = reading.table("practice.csv", PracticeRow)
    tools = reading.table("household.csv", Tool)
    rules = reading.rocker_rules()
    builder = reading.fitted(f"builders/{slug}.yaml", Builder)
    slugs = _slugs(folder / "boards")
    board_slug = _board_slug(builder)
    board = reading.board(board_slug, timbers) if board_slug in slugs else None
    if builder:
        seen = board.sound if board else None
        reading.faults += builder_faults(builder, seen, board_slugs=slugs, tools=tools, rules=rules)
    reading.faults += tool_faults(tools or ())
    if reading.faults or rules is None:
        raise BadInput(reading.faults)
    good = _all_there(maker), _all_there(board), _all_there(builder)
    species = next(timber for timber in timbers or () if timber.name == good[1].panel.timber)
    return Inputs(slug, board_slug, *good, species, practice or (), tools or (), rules)


def _all_there(fitted: Fitted[P] | None) -> P:
    """The model of a file in which no fault was found."""
    if fitted is None or fitted.model is None:
        raise RuntimeError("a file without faults gave no model")
    return fitted.model


def _board_slug(builder: Fitted[Builder] | None) -> str:
    try:
        return str(builder.sound.board) if builder else ""
    except UnsoundError:
        return ""


def _good_name(path: Path) -> bool:
    stem, dot, ending = path.name.partition(".")
    return ending == "yaml" and bool(dot) and slug_of(stem) == stem


def _slugs(folder: Path) -> tuple[str, ...]:
    return tuple(sorted(path.stem for path in folder.glob("*.yaml") if _good_name(path)))


def _bytes_of(folder: Path, name: str, most: int) -> bytes:
    """The file's bytes, one more than `most` at the most."""
    path = folder / name
    problem = "not there" if not path.exists() else "not a file"
    if path.is_file():
        try:
            with path.open("rb") as file:
                return file.read(most + 1)
        except OSError as error:
            problem = f"not readable ({error.strerror})"
    raise BadInput([Fault(name, "the file", problem, "a file that can be read", "a copy from the demo data")])
