"""``python3 -m app``: the commands, after whatever set-up this machine lacks."""

from __future__ import annotations

from app.bootstrap import ready


def main() -> int:
    """Set up if need be, then run the command. Returns the exit code."""
    ready("requirements.lock", "app")
    # Only now can the libraries that the commands use be imported.
    from app.cli import main as run  # noqa: PLC0415

    return run()


if __name__ == "__main__":
    raise SystemExit(main())
