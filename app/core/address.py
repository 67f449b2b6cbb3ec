"""Web addresses as people paste them: http and https only."""

from __future__ import annotations

from urllib.parse import urlsplit

from app.core.errors import WorkshopError

LONGEST = 500


def read_address(typed: str, *, input: str = "") -> str:
    """A full address with its scheme; empty where nothing is typed."""
    text = typed.strip()
    if not text:
        return ""
    fault = _fault(text)
    if fault:
        raise WorkshopError(
            f"“{text[:60]}” is not an address that can be linked: {fault}. Paste it "
            "whole, like https://example.org/page.",
            input=input,
        )
    return text


def _fault(text: str) -> str:
    if len(text) > LONGEST:
        return f"it is longer than {LONGEST} characters"
    if any(mark.isspace() or not mark.isprintable() for mark in text):
        return "it has a space in it"
    try:
        parts = urlsplit(text)
        host = parts.hostname
    except ValueError:
        return "its parts do not fit together"
    if parts.scheme not in {"http", "https"}:
        return "it must start with http:// or https://"
    if not host:
        return "it names no host"
    if parts.username is not None:
        return "it holds a name or a password"
    return ""
