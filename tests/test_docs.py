"""What the two documents say is there, is there."""

from __future__ import annotations

import importlib.util
import re

import pytest

from app.bootstrap import CHECKOUT
from app.cli import main
from app.core import registry
from app.core.discover import modules
from app.publish import exporters

README = (CHECKOUT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (CHECKOUT / "DEVELOPERS.md").read_text(encoding="utf-8")


def test_the_readme_opens_with_the_job_and_then_two_commands() -> None:
    title, job, heading, *_ = README.split("\n\n")
    assert title.startswith("# ")
    assert not job.startswith(("#", "```", "-"))
    assert heading == "## Two commands"
    section = README.split("## Two commands")[1].split("\n## ")[0]
    blocks = re.findall(r"```sh\n(.*?)```", section, re.S)
    assert blocks == ["python3 -m app demo\n", "python3 -m tests\n"]


@pytest.mark.parametrize("key", registry.forms())
def test_the_readme_names_every_form(key: str) -> None:
    assert f"`{key}`" in README


@pytest.mark.parametrize("exporter", modules(exporters).values(), ids=str)
def test_the_readme_names_what_every_exporter_writes(exporter: object) -> None:
    assert f"`{exporter.FILE}`" in README  # type: ignore[attr-defined]


def test_the_readmes_commands_are_the_programs(
    capsys: pytest.CaptureFixture[str],
) -> None:
    with pytest.raises(SystemExit):
        main(["--help"])
    listed = re.findall(r"^    ([a-z]+) ", capsys.readouterr().out, re.M)
    section = README.split("## Commands")[1].split("\n## ")[0]
    rows = [line for line in section.splitlines() if line.startswith("| `")]
    told = [name for row in rows for name in re.findall(r"`([a-z]+)[ `]", row)]
    assert listed
    assert set(told) == set(listed)


@pytest.mark.parametrize(
    "module", sorted(set(re.findall(r"python3? -m ([\w.]+)", README + DEVELOPERS)))
)
def test_every_command_of_the_documents_exists(module: str) -> None:
    assert importlib.util.find_spec(module)


@pytest.mark.parametrize("path", sorted(set(re.findall(r"\]\(([^)]+)\)", README))))
def test_every_picture_and_link_of_the_readme_is_there(path: str) -> None:
    assert (CHECKOUT / path).is_file()


def test_the_map_of_the_tree_shows_what_is_there() -> None:
    tree = DEVELOPERS.split("```")[1]
    folder = ""
    for line in tree.strip().splitlines():
        name = line.split()[0]
        if not line.startswith(" "):
            folder = name
            assert (CHECKOUT / name).exists(), name
        elif line.startswith("    "):
            (found,) = set((CHECKOUT / folder).glob(f"*/{name.rstrip('/')}"))
            assert found.is_dir()
        else:
            assert (CHECKOUT / folder / name).exists(), name
