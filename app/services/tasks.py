"""Work that takes longer than a page: started, watched, stopped.

One registry for a server. Nothing of it outlives the program: what a task has
done stands in the workspace, what it had not done yet is not there.
"""

from __future__ import annotations

import logging
import secrets
import threading
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from enum import StrEnum

from app.core.errors import NotFound, WorkshopError

log = logging.getLogger("stockthread")

# Finished ones are kept for pages that ask late.
MOST_FINISHED = 50


class Stage(StrEnum):
    """Where a task is."""

    WORKING = "working"
    DONE = "done"
    REFUSED = "refused"
    BROKEN = "broken"
    STOPPED = "stopped"


@dataclass(frozen=True, slots=True)
class TaskState:
    """What a page shows of a task.

    ``done`` and ``of`` count in the task's own steps; ``of`` is 0 while it is not
    known. ``result`` is what the function gave: the address to go on to.
    """

    id: str
    name: str
    stage: Stage = Stage.WORKING
    words: str = ""
    done: int = 0
    of: int = 0
    result: str = ""
    refusal: str = ""

    @property
    def over(self) -> bool:
        """Whether nothing more will happen."""
        return self.stage is not Stage.WORKING


class Stopped(Exception):
    """Raised inside a task, at its next report, after somebody stopped it."""


@dataclass
class _Task:
    state: TaskState
    stop: threading.Event = field(default_factory=threading.Event)
    over: threading.Event = field(default_factory=threading.Event)


# Called by a task as it gets on: done, of, words. It raises Stopped.
Progress = Callable[[int, int, str], None]

_tasks: dict[str, _Task] = {}
_lock = threading.Lock()


def start(name: str, work: Callable[[Progress], str]) -> str:
    """Run ``work`` beside the pages; gives the id to watch it by.

    ``work`` reports by calling its argument and returns where to go on to. It
    has to leave no half-done thing when that call raises Stopped.
    """
    task = _Task(TaskState(secrets.token_urlsafe(12), name))
    with _lock:
        _forget_old()
        _tasks[task.state.id] = task
    threading.Thread(target=_run, args=(task, work), name=name, daemon=True).start()
    return task.state.id


def state(task_id: str) -> TaskState:
    """Where a task is, or NotFound."""
    return _get(task_id).state


def stop(task_id: str) -> None:
    """Ask a task to stop at its next report."""
    _get(task_id).stop.set()


def wait(task_id: str, seconds: float) -> TaskState:
    """Where a task is when it is over or the time is up, whichever is first."""
    task = _get(task_id)
    task.over.wait(seconds)
    return task.state


def _get(task_id: str) -> _Task:
    with _lock:
        task = _tasks.get(task_id)
    if task is None:
        raise NotFound(
            "That work is not known any more: the program was started anew since. "
            "What it finished is there; what it had not finished is not."
        )
    return task


def _run(task: _Task, work: Callable[[Progress], str]) -> None:
    def report(done: int, of: int, words: str = "") -> None:
        if task.stop.is_set():
            raise Stopped
        _change(task, done=done, of=of, words=words)

    try:
        _change(task, stage=Stage.DONE, result=work(report))
    except Stopped:
        _change(task, stage=Stage.STOPPED)
    except WorkshopError as error:
        _change(task, stage=Stage.REFUSED, refusal=str(error))
    except Exception:
        number = secrets.token_hex(4)
        log.exception("error %s in %s", number, task.state.name)
        words = (
            "The program made a mistake, not you. Nothing was half saved. What "
            f"happened is in the program's log under error number {number}."
        )
        _change(task, stage=Stage.BROKEN, refusal=words)
    finally:
        task.over.set()


def _change(task: _Task, **changes: object) -> None:
    task.state = replace(task.state, **changes)  # type: ignore[arg-type]


def _forget_old() -> None:
    finished = [key for key, task in _tasks.items() if task.state.over]
    for key in finished[:-MOST_FINISHED]:
        del _tasks[key]
