"""Serving a workspace to the browser on this computer, and to nobody else."""

from __future__ import annotations

import errno
import gc
import logging
import signal
import socket
import threading
import webbrowser
from pathlib import Path
from typing import Any, NoReturn

import waitress
from flask import Flask
from waitress.server import BaseWSGIServer

from app.core.errors import WorkshopError
from app.main import create_app
from app.store.workspace import (
    Workspace,
    hold_for_serving,
    open_workspace,
    secret_key,
)
from app.web.errors import OneLine

ADDRESS = "127.0.0.1"
USUAL_PORT = 8642
TRIES = 20
THREADS = 6
# The largest archive that may be brought in; the program refuses sooner, in words.
MOST_BYTES = 8 * 1024**3


def serve(folder: Path, port: int | None = None, browser: bool = True) -> None:
    """Serve a data folder until it is told to stop.

    Raises WorkspaceBusy where another server holds the folder, WorkshopError
    (``input="port"``) where the port asked for is taken. Without ``port`` the
    first free one from the usual one on is used.
    """
    log_to_terminal()
    with hold_for_serving(folder), listen(port) as ear:
        workspace = open_workspace(folder)
        server = make_server(workspace, ear)
        address = f"http://{ADDRESS}:{ear.getsockname()[1]}/"
        print(f"Stockthread is at {address}", flush=True)
        print(f"Its data lies in {folder}. Stop it with Ctrl-C.", flush=True)
        if browser:
            threading.Thread(
                target=webbrowser.open, args=(address,), daemon=True
            ).start()
        try:
            signal.signal(signal.SIGTERM, _stop)
            server.run()
        finally:
            server.close()
            workspace.close()


def listen(port: int | None) -> socket.socket:
    """A socket that listens on this computer only."""
    if port is not None:
        return _listen_at(port)
    for tried in range(USUAL_PORT, USUAL_PORT + TRIES):
        if _is_free(tried):
            return _listen_at(tried)
    return _listen_at(0)


def _listen_at(port: int) -> socket.socket:
    ear = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    ear.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        ear.bind((ADDRESS, port))
        ear.listen(128)
    except (OSError, OverflowError) as error:
        ear.close()
        raise _refusal(port, error) from error
    return ear


def _refusal(port: int, error: Exception) -> WorkshopError:
    code = error.errno if isinstance(error, OSError) else None
    why = {
        errno.EADDRINUSE: "is in use by another program",
        errno.EACCES: "is kept for the system",
        errno.EPERM: "is kept for the system",
    }.get(code or 0, "cannot be listened on")
    free = next((n for n in range(USUAL_PORT, USUAL_PORT + TRIES) if _is_free(n)), 0)
    return WorkshopError(
        f"Port {port} {why}. Port {free} is free: try --port {free}.",
        input="port",
        nearest=str(free),
    )


def _is_free(port: int) -> bool:
    with socket.socket(socket.AF_INET, socket.SOCK_STREAM) as trial:
        trial.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            trial.bind((ADDRESS, port))
        except OSError:
            return False
    return True


def make_server(
    workspace: Workspace, ear: socket.socket, **config: object
) -> BaseWSGIServer:
    """A server for an open workspace on a socket that listens already."""
    app = make_app(workspace, ear.getsockname()[1], **config)
    # What was loaded stays: a drawing of a thousand faces is made in half the time
    # where the collector need not look through all of it again.
    gc.collect()
    gc.freeze()
    return waitress.create_server(
        app,
        sockets=[ear],
        threads=THREADS,
        ident=None,
        max_request_body_size=MOST_BYTES,
        clear_untrusted_proxy_headers=True,
    )


def make_app(workspace: Workspace, port: int, **config: object) -> Flask:
    """The pages, knowing their port and signing with the workspace's key."""
    settings: dict[str, Any] = {
        "PORT": port,
        "SECRET_KEY": secret_key(workspace.folder),
        "DEBUG": False,
    }
    return create_app(workspace, **(settings | config))


def log_to_terminal() -> None:
    handler = logging.StreamHandler()
    handler.setFormatter(OneLine("%(asctime)s %(levelname)s %(name)s: %(message)s"))
    logging.basicConfig(level=logging.WARNING, handlers=[handler])
    # A page with many photos queues for a moment; that is no news.
    logging.getLogger("waitress.queue").setLevel(logging.ERROR)


def _stop(_signal: int, _frame: object) -> NoReturn:
    raise SystemExit(0)
