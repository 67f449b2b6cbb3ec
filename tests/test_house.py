"""House rules that a reader relies on and a reviewer forgets."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

from app.bootstrap import CHECKOUT

# A migration is a record of one change and grows with it.
PYTHON = sorted(
    path
    for path in [*CHECKOUT.glob("app/**/*.py"), *CHECKOUT.glob("tests/**/*.py")]
    if path.parent.name != "versions"
)
TEMPLATES = sorted(CHECKOUT.glob("templates/**/*.html"))
OWN_FILES = sorted(
    path
    for kind in ("js", "css")
    for path in CHECKOUT.glob(f"static/**/*.{kind}")
    if "vendor" not in path.parts
)
LONGEST = 400


def named(path: Path) -> str:
    return path.relative_to(CHECKOUT).as_posix()


def test_there_is_something_to_hold_to_the_rules() -> None:
    assert PYTHON
    assert TEMPLATES
    assert OWN_FILES


def test_the_package_itself_loads_nothing() -> None:
    assert (CHECKOUT / "app/__init__.py").read_bytes() == b""


@pytest.mark.parametrize("path", [*PYTHON, *TEMPLATES, *OWN_FILES], ids=named)
def test_no_file_outgrows_a_readers_patience(path: Path) -> None:
    assert len(path.read_text(encoding="utf-8").splitlines()) <= LONGEST


def test_there_is_no_drawer_for_odds_and_ends() -> None:
    names = {path.stem for path in PYTHON}
    assert not names & {"utils", "util", "helpers", "common", "misc"}


@pytest.mark.parametrize("path", sorted(CHECKOUT.glob("app/**/*.py")), ids=named)
def test_every_public_module_says_what_it_is_for(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert not text.strip() or ast.get_docstring(ast.parse(text))


# The content security policy of every page refuses both, so they would be dead.
INLINE = re.compile(r"\sstyle\s*=|<style\b|\son[a-z]+\s*=|hx-on|<script(?![^>]*\bsrc=)")


@pytest.mark.parametrize("path", TEMPLATES, ids=named)
def test_a_template_holds_no_style_and_no_script_of_its_own(path: Path) -> None:
    text = re.sub(r"{[{%#].*?[#%}]}", "", path.read_text(encoding="utf-8"), flags=re.S)
    found = INLINE.search(text)
    assert not found, found


@pytest.mark.parametrize("path", TEMPLATES, ids=named)
def test_a_template_never_lets_text_through_unescaped(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert not re.search(r"\|\s*safe\b|autoescape\s+false", text)


@pytest.mark.parametrize("path", TEMPLATES, ids=named)
def test_every_posting_form_carries_its_token(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    for form in re.findall(r'<form[^>]*method="post".*?</form>', text, re.S):
        assert "top(" in form or "csrf_token" in form, form[:120]


@pytest.mark.parametrize("path", [*TEMPLATES, *OWN_FILES], ids=named)
def test_nothing_is_loaded_from_elsewhere(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    loads = r'(?:src|href|action)="(?:https?:)?//|url\(\s*["\']?(?:https?:)?//|@import'
    assert not re.search(loads, text)
