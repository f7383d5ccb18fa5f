"""Data flows one way, and the computing parts do no I/O."""

import ast
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]
GENERATOR = ROOT / "generator"
PURE = ("board", "bench", "build", "timber", "safety", "sums", "figure_sets", "drawings", "guide")
PURE_FILES = ("quantities.py", "figures.py", "shown.py")
BANNED_MODULES = {
    "os",
    "pathlib",
    "yaml",
    "time",
    "random",
    "sys",
    "subprocess",
    "socket",
    "tempfile",
    "mkdocs",
    "secrets",
}
BANNED_CALLS = {"open", "print", "input", "exec", "eval"}
BANNED_METHODS = {"now", "today", "read_text", "write_text", "read_bytes", "write_bytes", "getenv"}
# The order in which data flows; a module may import its own layer and earlier ones.
FLOW = (
    ("quantities",),
    ("inputs",),
    ("timber",),
    ("board",),
    ("bench",),
    ("safety",),
    ("build",),
    ("figures", "figure_sets"),
    ("sums",),
    ("shown",),
    ("drawings",),
    ("guide",),
    ("guides", "deliver"),
    ("cli", "__main__"),
)
LAYER = {name: number for number, names in enumerate(FLOW) for name in names}
# `figures` holds plain types that anything after the inputs may name, and `guides` is deliver's own entrance.


def modules(*roots):
    return sorted(path for root in roots for path in (GENERATOR / root).rglob("*.py"))


def imported(tree):
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            yield node.module or ""


def parsed(path):
    return ast.parse(path.read_text("utf-8"))


@pytest.mark.parametrize(
    "path",
    [*modules(*PURE), *(GENERATOR / name for name in PURE_FILES)],
    ids=lambda path: str(path.relative_to(GENERATOR)),
)
def test_computing_parts_do_no_io(path):
    tree = parsed(path)
    assert not {name.split(".")[0] for name in imported(tree)} & BANNED_MODULES
    for node in ast.walk(tree):
        if isinstance(node, ast.Call):
            name = getattr(node.func, "id", None)
            method = getattr(node.func, "attr", None)
            assert name not in BANNED_CALLS, f"line {node.lineno}: {name}()"
            assert method not in BANNED_METHODS, f"line {node.lineno}: .{method}()"


@pytest.mark.parametrize("path", modules("."), ids=lambda path: str(path.relative_to(GENERATOR)))
def test_no_module_imports_a_later_layer(path):
    own = path.relative_to(GENERATOR).parts[0].removesuffix(".py")
    if own == "__init__":
        return
    for name in imported(parsed(path)):
        if name.startswith("generator."):
            assert LAYER[name.split(".")[1]] <= LAYER[own], f"{path} imports {name}"


def test_only_inputs_read_yaml():
    for path in modules("."):
        if "yaml" in {name.split(".")[0] for name in imported(parsed(path))}:
            assert path.relative_to(GENERATOR).parts[0] == "inputs"


def test_only_deliver_knows_mkdocs():
    for path in modules("."):
        if "mkdocs" in {name.split(".")[0] for name in imported(parsed(path))}:
            assert path.relative_to(GENERATOR).parts[0] == "deliver"


def test_no_module_outgrows_its_noun():
    for path in modules("."):
        assert len(path.read_text("utf-8").splitlines()) <= 400, path
