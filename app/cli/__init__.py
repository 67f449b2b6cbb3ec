"""The commands. Errors become sentences, documents and exit codes.

0: done; 2: the input is wrong; 1: the program failed, or `check` found something.
With ``--json`` standard output holds one document and nothing else. Each command
imports what it needs when it runs, so that starting is quick.
"""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Sequence

from app.cli.answer import FAILED, WRONG_INPUT, refuse, speak, tell
from app.cli.arguments import parser
from app.core.errors import WorkshopError


def _read(given: list[str]) -> argparse.Namespace:
    """The command line, with a form's inputs also after its options."""
    made = parser()
    arguments, rest = made.parse_known_args(given)
    if rest and not (hasattr(arguments, "inputs") and all(map(_is_input, rest))):
        made.error(f"unrecognized arguments: {' '.join(rest)}")
    if rest:
        arguments.inputs = [*arguments.inputs, *rest]
    return arguments


def _is_input(text: str) -> bool:
    return "=" in text and not text.startswith("-")


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command; gives its exit code."""
    try:
        code = _run(list(sys.argv[1:] if argv is None else argv))
        sys.stdout.flush()
    except BrokenPipeError:
        # Whoever read has seen enough; the rest goes nowhere, without a word.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return FAILED
    return code


def _run(given: list[str]) -> int:
    as_json = "--json" in given
    speak(as_json)
    try:
        arguments = _read(given)
        code: int = arguments.run(arguments)
        return code
    except WorkshopError as error:
        refuse(error, as_json)
        return WRONG_INPUT
    except BrokenPipeError:
        raise
    except KeyboardInterrupt:
        tell("Stopped.")
        return FAILED
    except Exception as error:
        if "--debug" in given:
            raise
        reason = " ".join(str(error).split()) or "no more is known"
        tell(f"stockthread failed: {type(error).__name__}: {reason[:300]}")
        return FAILED
