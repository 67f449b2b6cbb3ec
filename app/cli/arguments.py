"""The command line itself: every command with its options."""

from __future__ import annotations

import argparse
from typing import Any, NoReturn

from app.cli import paper, workspace
from app.core.errors import WorkshopError


class _Parser(argparse.ArgumentParser):
    """One that refuses as everything else here does."""

    def error(self, message: str) -> NoReturn:
        raise WorkshopError(f"{message}. See: {self.prog} --help")


def _seconds(text: str) -> float:
    try:
        seconds = float(text)
    except ValueError:
        seconds = 0.0
    if not 0 < seconds <= 86_400:
        raise WorkshopError(
            f"“{text[:40]}” is not a time in seconds. Type it like 10.", input="seconds"
        )
    return seconds


def _port(text: str) -> int:
    if not text.isdecimal() or not 1 <= int(text[:9]) <= 65_535:
        raise WorkshopError(
            f"“{text[:40]}” is not a port. Give a number from 1 to 65535.", input="port"
        )
    return int(text)


def parser() -> _Parser:
    made = _Parser(
        prog="stockthread", description="Sizes, stock and story of a filmed series."
    )
    commands = made.add_subparsers(metavar="COMMAND", required=True)
    _add_serving(commands)
    _add_workspace_commands(commands)
    _add_free_commands(commands)
    return made


def _command(commands: Any, name: str, run: Any, help: str) -> _Parser:
    parser: _Parser = commands.add_parser(name, help=help, description=help)
    parser.set_defaults(run=run)
    parser.add_argument("--debug", action="store_true", help="show where it failed")
    parser.add_argument("--json", action="store_true", help="print one JSON document")
    if name != "restore":
        parser.add_argument("--data", metavar="DIR", help="the workspace's folder")
    return parser


def _add_serving(commands: Any) -> None:
    demo = _command(
        commands, "demo", workspace.run_demo, "Build the demo workspace and serve it."
    )
    serve = _command(
        commands, "serve", workspace.run_serve, "Serve a workspace to the browser."
    )
    for parser in (demo, serve):
        parser.add_argument("--port", type=_port, help="listen here")
        parser.add_argument("--no-browser", action="store_true", help="open no window")


def _add_workspace_commands(commands: Any) -> None:
    parser = _command(
        commands, "import", workspace.run_import, "Bring in a series folder or zip."
    )
    parser.add_argument("path")
    parser.add_argument("--slug", help="bring it in under this address")
    parser = _command(
        commands, "export", workspace.run_export, "Write a series as open files."
    )
    parser.add_argument("series", help="the series' slug")
    parser.add_argument("--to", required=True, help="a new folder, or FILE.zip")
    parser.add_argument("--originals", action="store_true", help="photos as they came")
    parser = _command(
        commands, "publish", workspace.run_publish, "Write an episode's pack."
    )
    parser.add_argument("series", help="the series' slug")
    parser.add_argument("episode", help="the episode's number")
    parser.add_argument("--to", required=True, metavar="DIR")
    parser.add_argument("--draft", action="store_true", help="the present state")
    parser = _command(
        commands, "backup", workspace.run_backup, "Write one verified archive."
    )
    parser.add_argument("--to", required=True, metavar="FILE")
    parser = _command(
        commands, "restore", workspace.run_restore, "Unpack a backup, newly."
    )
    parser.add_argument("file")
    parser.add_argument("--data", metavar="DIR", required=True, help="a new folder")
    parser = _command(commands, "check", workspace.run_check, "Verify a workspace.")
    parser.add_argument("--deep", action="store_true", help="read every file")


def _add_free_commands(commands: Any) -> None:
    size = _command(
        commands, "size", paper.run_size, "Work out a form's sizes and parts."
    )
    size.add_argument("form", nargs="?")
    size.add_argument("inputs", nargs="*", metavar="KEY=VALUE")
    size.add_argument("--list", action="store_true", help="name every form")
    wood = _command(
        commands, "wood", paper.run_wood, "Tell a species' weight and movement."
    )
    wood.add_argument("species", nargs="+", help="a name, like black walnut")
    for side in ("width", "thickness", "length"):
        wood.add_argument(f"--{side}", default="", help=f"the piece's {side}")
    wood.add_argument("--cut", default="flat", help="flat- or quarter-sawn")
    wood.add_argument("--from-rh", default="", metavar="P", help="humidity now, %%")
    wood.add_argument("--to-rh", default="", metavar="P", help="humidity later, %%")
    wood.add_argument("--temperature", default="", metavar="T", help="21C or 70F")
    cut = _command(commands, "cut", paper.run_cut, "Plan the cuts of a job.")
    cut.add_argument("job", metavar="JOB.json")
    cut.add_argument("--svg", metavar="DIR", help="draw the layouts there")
    cut.add_argument("--seconds", type=_seconds, help="the most effort")
    for parser in (size, wood, cut):
        parser.add_argument("--unit", choices=("in", "mm"), help="of bare numbers")
    captions = _command(
        commands, "captions", paper.run_captions, "Read a caption file."
    )
    captions.add_argument("file")
    captions.add_argument("--cues", action="store_true", help="list every cue")
