"""Serving: this computer only, one server for a folder, a busy port in words."""

from __future__ import annotations

import http.client
import os
import signal
import socket
import stat
import subprocess
import sys
from pathlib import Path

import pytest

from app.core.errors import WorkshopError, WorkspaceBusy
from app.serving import listen, make_app, serve
from app.store.workspace import SIGNING_KEY, Workspace, hold_for_serving


def test_it_listens_on_this_computer_only() -> None:
    with listen(0) as ear:
        assert ear.getsockname()[0] == "127.0.0.1"


def test_a_busy_port_is_refused_with_one_that_is_free() -> None:
    with listen(0) as ear:
        port = ear.getsockname()[1]
        with pytest.raises(WorkshopError, match=f"Port {port} is in use") as refused:
            listen(port)
    assert refused.value.input == "port"
    with listen(int(refused.value.nearest)):
        pass


def test_no_such_port_is_refused() -> None:
    with pytest.raises(WorkshopError, match="Port 70000"):
        listen(70_000)


def test_without_a_port_the_next_free_one_is_taken() -> None:
    with listen(None) as first, listen(None) as second:
        assert first.getsockname()[1] != second.getsockname()[1]


def test_a_folder_that_is_served_is_not_served_twice(tmp_path: Path) -> None:
    with hold_for_serving(tmp_path), pytest.raises(WorkspaceBusy):
        serve(tmp_path, port=0, browser=False)


def test_the_signing_key_is_kept_between_starts_and_private(
    workspace: Workspace,
) -> None:
    keys = {make_app(workspace, 8642).secret_key for _ in range(2)}
    assert len(keys) == 1
    mode = stat.S_IMODE((workspace.folder / SIGNING_KEY).stat().st_mode)
    assert os.name == "nt" or mode == 0o600


def test_a_real_server_answers_says_where_and_stops(tmp_path: Path) -> None:
    order = (
        "from pathlib import Path; from app.serving import serve; "
        f"serve(Path({str(tmp_path)!r}), 0, False)"
    )
    with subprocess.Popen(
        [sys.executable, "-c", order], stdout=subprocess.PIPE, text=True
    ) as server:
        assert server.stdout
        address = server.stdout.readline().split()[-1]
        port = int(address.rsplit(":")[-1].strip("/"))
        caller = http.client.HTTPConnection("127.0.0.1", port, timeout=10)
        caller.request("GET", "/")
        answer = caller.getresponse()
        assert answer.status == 200
        assert answer.getheader("Server") is None
        assert b"Where to begin" in answer.read()
        caller.close()
        server.send_signal(signal.SIGTERM)
        assert server.wait(15) == 0
    with socket.socket() as trial, pytest.raises(ConnectionRefusedError):
        trial.connect(("127.0.0.1", port))
