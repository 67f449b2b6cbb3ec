"""Run by an environment that holds only the wheel: the first page answers.

Not a test module: the tests and CI start it where the checkout is not on the
path, so that templates, pictures and tables can only come from the wheel.
"""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path

import app
from app.main import create_app
from app.store.workspace import open_workspace

CHECKOUT = Path(__file__).resolve().parent.parent


def main() -> None:
    """Open an empty workspace and ask for its first page and its style."""
    if CHECKOUT in Path(app.__file__).resolve().parents:
        sys.exit("app came from the checkout, not from the wheel")
    with tempfile.TemporaryDirectory() as folder:
        workspace = open_workspace(Path(folder) / "data")
        client = create_app(workspace, TESTING=True).test_client()
        for address in ("/", "/static/css/base.css"):
            answer = client.get(address, base_url="http://127.0.0.1")
            if answer.status_code != 200 or not answer.data:
                sys.exit(f"{address} answered {answer.status_code}")
            answer.close()
        workspace.close()


if __name__ == "__main__":
    main()
