"""What a command says: one document or words, progress beside them."""

from __future__ import annotations

import argparse
import io
import json
import sys
from typing import Any

from app.core.errors import WorkshopError

DONE, FAILED, WRONG_INPUT = 0, 1, 2
Arguments = argparse.Namespace


def refuse(error: WorkshopError, as_json: bool) -> None:
    if as_json:
        facts = {
            "input": error.input or None,
            "message": str(error),
            "nearest": error.nearest or None,
        }
        print_json({"error": facts})
    else:
        tell(str(error))


def speak(as_json: bool) -> None:
    """Let the output carry every sign, whatever encoding the shell has set.

    A document is UTF-8 (RFC 8259, section 8.1); words show ? where they must.
    """
    out = sys.stdout
    if not isinstance(out, io.TextIOWrapper) or out.encoding.lower() == "utf-8":
        return
    if as_json:
        out.reconfigure(encoding="utf-8")
    else:
        out.reconfigure(errors="replace")


def tell(words: str) -> None:
    print(words, file=sys.stderr, flush=True)


def print_json(document: object) -> None:
    print(json.dumps(document, ensure_ascii=False, indent=1))


def give(arguments: Arguments, document: dict[str, Any], words: str) -> int:
    """Print the document or the words. Gives the exit code for done."""
    if arguments.json:
        print_json(document)
    else:
        print(words)
    return DONE


def progress(done: int, of: int, words: str = "") -> None:
    # A file or a pipe is not for watching.
    if sys.stderr.isatty():
        end = "\n" if done >= of else ""
        print(f"\r{words or f'{done} of {of}'} ", end=end, file=sys.stderr, flush=True)
