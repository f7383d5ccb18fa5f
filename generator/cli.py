"""The command line: parse, call, print.

Words for people go to standard error, JSON for programs to standard output; so do the answers of `sum`, which are all
that it was asked for.
"""

from __future__ import annotations

import argparse
import dataclasses
import json
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

from generator.inputs.fault import BadInput

OK, FAILED, BAD_INPUT = 0, 1, 2


def parser() -> argparse.ArgumentParser:
    """The words that the program takes."""
    top = argparse.ArgumentParser(prog="shedbook", description="Writes each builder's own build guide.")
    commands = top.add_subparsers(dest="command", required=True, metavar="COMMAND")

    def command(
        name: str, does: Callable[[argparse.Namespace], int], words: str, *, folder: bool = True
    ) -> argparse.ArgumentParser:
        sub = commands.add_parser(name, help=words, description=words)
        sub.set_defaults(does=does, data=None)
        if folder:
            sub.add_argument("--data", type=Path, default=Path("site_data"), help="folder of the files (site_data)")
        return sub

    build = command("build", _build, "write the guides of all builders, or of those named")
    build.add_argument("builders", nargs="*", metavar="BUILDER", help="a file name in builders/, without .yaml")
    build.add_argument("--out", type=Path, default=Path("out"), help="folder of the guides (out)")
    figures = command("figures", _figures, "print every number of one builder's guide")
    figures.add_argument("builder", metavar="BUILDER")
    figures.add_argument("--json", action="store_true", help="JSON on standard output")
    serve = command("serve", _serve, "preview one guide in the browser; edits show at once")
    serve.add_argument("builder", metavar="BUILDER")
    serve.add_argument("--port", type=int, default=8000, help="port on this machine (8000)")
    paper = command("print", _print, "write a PDF for paper: a whole guide, one page of it, or the plan of the bench")
    paper.add_argument("builder", metavar="BUILDER")
    part = paper.add_mutually_exclusive_group()
    part.add_argument("--stage", metavar="SLUG", help="one page alone, such as glue")
    part.add_argument("--bench", action="store_true", help="the bench and the rocker alone, for the wall")
    part.add_argument("--numbers", action="store_true", help="the whole guide with all the numbers at its end")
    paper.add_argument("--paper", choices=("a4", "letter"), default="a4", help="a4 or letter (a4)")
    paper.add_argument("--out", type=Path, metavar="FILE", help="the PDF (out/BUILDER-guide.pdf and the like)")
    mail = command("mail", _mail, "write a mail draft with the builder's own link and what comes next")
    mail.add_argument("builder", metavar="BUILDER")
    mail.add_argument("--out", type=Path, metavar="FILE", help="the draft (mail/BUILDER.eml)")
    bench = command("bench", _bench, "solve the benches of a JSON file, for checks from outside", folder=False)
    bench.add_argument("file", metavar="FILE", type=Path, help="in the form that the README shows")
    one_sum = command("sum", _sum, "do one sum of the guides by itself, or list them all")
    one_sum.add_argument("name", nargs="?", metavar="NAME", help="a sum; without it, all are listed")
    one_sum.add_argument("words", nargs="*", metavar="KEY=VALUE", help="what it takes")
    one_sum.add_argument("--json", action="store_true", help="JSON on standard output")
    schema = command("schema", _schema, "write the JSON Schemas of the files, for your editor")
    schema.add_argument("--print", action="store_true", help="JSON on standard output, nothing written")
    return top


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command; the exit code is 0, 1 (a guide could not be made) or 2 (something typed is wrong)."""
    asked = _parsed(argv)
    try:
        done: int = asked.does(asked)
        return done
    except BadInput as bad:
        for fault in bad.faults:
            _say(fault if asked.data is None else fault.seen_from(asked.data.as_posix()))
        return BAD_INPUT


def _parsed(argv: Sequence[str] | None) -> argparse.Namespace:
    """What was typed; the words of a sum may stand before and after an option."""
    top = parser()
    asked, rest = top.parse_known_args(argv)
    if rest and (asked.does is not _sum or any(word.startswith("-") for word in rest)):
        top.error(f"unrecognized arguments: {' '.join(rest)}")
    if rest:
        asked.words += rest
    return asked


def _say(words: object) -> None:
    print(words, file=sys.stderr, flush=True)


def _build(asked: argparse.Namespace) -> int:
    from generator.deliver.batch import build_all

    outcome = build_all(asked.data, asked.out, asked.builders, tell=_say)
    if outcome.bad_input:
        return BAD_INPUT
    return FAILED if outcome.failed else OK


def _figures(asked: argparse.Namespace) -> int:
    from generator.guides import read_figures

    figures = read_figures(asked.data, asked.builder)
    if asked.json:
        json.dump(_plain(figures), sys.stdout, ensure_ascii=False, indent=1, sort_keys=True)
        sys.stdout.write("\n")
        return OK
    for figure in figures.values.values():
        spread = f" ({figure.low:.6g} to {figure.high:.6g})" if figure.low < figure.high else ""
        _say(f"{figure.key}: {figure.value:.6g} {figure.unit}{spread} - {figure.label} [{figure.kind}]")
    return OK


def _plain(thing: Any) -> Any:
    """The same as dicts, lists and scalars."""
    if dataclasses.is_dataclass(thing) and not isinstance(thing, type):
        return {item.name: _plain(getattr(thing, item.name)) for item in dataclasses.fields(thing)}
    if hasattr(thing, "items"):
        return {str(key): _plain(value) for key, value in thing.items()}
    if isinstance(thing, tuple | list):
        return [_plain(value) for value in thing]
    return thing


def _serve(asked: argparse.Namespace) -> int:
    from generator.deliver.serving import serve

    return serve(asked.data, asked.builder, port=asked.port)


def _print(asked: argparse.Namespace) -> int:
    from generator.deliver.chromium import CannotPrint
    from generator.deliver.printing import Wanted, known_stage, print_guide
    from generator.deliver.whole_file import CannotWrite

    data, asked.data = asked.data, None  # a stage that is typed here stands in no folder
    stage = "" if asked.stage is None else known_stage(asked.stage)
    asked.data = data
    wanted = Wanted(stage, asked.bench, asked.numbers, asked.paper)
    out = asked.out or Path("out") / f"{asked.builder}-{wanted.name}.pdf"
    try:
        print_guide(data, asked.builder, wanted, out, tell=_say)
    except (CannotPrint, CannotWrite) as stopped:
        _say(stopped)
        return FAILED
    _say(f"wrote {out}")
    return OK


def _mail(asked: argparse.Namespace) -> int:
    from generator.deliver.mail import write_draft
    from generator.deliver.whole_file import CannotWrite

    out = asked.out or Path("mail") / f"{asked.builder}.eml"
    try:
        write_draft(asked.data, asked.builder, out)
    except CannotWrite as stopped:
        _say(stopped)
        return FAILED
    _say(f"wrote {out}: open it in your mail program, fill in who it is for, read it and send it.")
    _say(f"Before that, upload what is in out/{asked.builder}/ to the address that stands in the draft.")
    _say("That address is as secret as the guide: it stands in the draft, and nowhere in what is uploaded.")
    return OK


def _bench(asked: argparse.Namespace) -> int:
    from generator.bench.case import solved_cases
    from generator.inputs.bench_file import read_benches

    json.dump({"cases": solved_cases(read_benches(asked.file))}, sys.stdout, indent=1, allow_nan=False)
    sys.stdout.write("\n")
    return OK


def _sum(asked: argparse.Namespace) -> int:
    from generator.inputs.site import read_timbers
    from generator.sums.asked import answered, listed, listed_for_programs, takes_timber

    if asked.name is None:
        told: Any = listed_for_programs() if asked.json else listed()
    else:
        timbers = read_timbers(asked.data) if takes_timber(asked.name) else ()
        asked.data = None  # what was typed here stands in no folder
        answer = answered(asked.name, asked.words, timbers)
        told = answer.by_word if asked.json else answer.lines
    text = json.dumps(told, ensure_ascii=False, indent=1, allow_nan=False) if asked.json else "\n".join(told)
    sys.stdout.write(text + "\n")
    return OK


def _schema(asked: argparse.Namespace) -> int:
    from generator.inputs.schema import schemas

    made = {name: json.dumps(schema, ensure_ascii=False, indent=1) + "\n" for name, schema in schemas().items()}
    if asked.print:
        sys.stdout.write(json.dumps(schemas(), ensure_ascii=False, indent=1) + "\n")
        return OK
    folder: Path = asked.data / "schema"
    folder.mkdir(parents=True, exist_ok=True)
    for name, text in made.items():
        (folder / f"{name}.json").write_text(text, encoding="utf-8", newline="\n")
        _say(f"wrote {folder / name}.json")
    return OK
