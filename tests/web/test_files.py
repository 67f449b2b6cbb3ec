"""Series and backups through the pages."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

import pytest
from flask.testing import FlaskClient
from werkzeug.test import TestResponse

from app.main import create_app
from app.publish.zips import zipped
from app.services import care, files, tasks
from app.store.workspace import Workspace, open_workspace
from tests.conftest import NOON
from tests.services.two_series import fill


@pytest.fixture
def zip_of_series(tmp_path: Path) -> bytes:
    other = open_workspace(tmp_path / "other")
    fill(other)
    made = files.zipped_series(other, "sill")
    other.close()
    return made


def send(client: FlaskClient, content: bytes, **fields: str) -> TestResponse:
    data = {"file": (BytesIO(content), "sill.zip"), **fields}
    return client.post("/import", data=data, headers={"Sec-Fetch-Site": "same-origin"})


def finished(answer: TestResponse) -> tasks.TaskState:
    return tasks.wait(answer.location.rsplit("/", 1)[-1], 30)


def test_a_series_comes_in_by_page_and_goes_out_as_the_same_zip(
    client: FlaskClient, zip_of_series: bytes
) -> None:
    assert "The zip" in client.get("/import").text
    answer = send(client, zip_of_series)
    assert answer.status_code == 303
    assert finished(answer).result == "/series/sill"
    sent = client.get("/series/sill/files.zip")
    assert "attachment" in sent.headers["Content-Disposition"]
    assert sent.data == zip_of_series
    sent.close()
    assert client.get("/series/sill").status_code == 200


def test_a_series_that_is_there_is_refused_beside_the_field_that_renames_it(
    client: FlaskClient, zip_of_series: bytes
) -> None:
    finished(send(client, zip_of_series))
    answer = send(client, zip_of_series)
    assert answer.status_code == 422
    assert "a series “sill” here already" in answer.text
    answer = send(client, zip_of_series, slug="sill-2")
    assert finished(answer).result == "/series/sill-2"


@pytest.mark.parametrize(
    ("content", "sentence"),
    [
        (b"no zip", "not a zip archive"),
        (zipped([("../../escape", b"")]), "names a place outside the archive"),
        (zipped([("a.txt", b"")]), "no series folder"),
    ],
)
def test_what_is_no_series_is_refused_at_once(
    client: FlaskClient, content: bytes, sentence: str
) -> None:
    answer = send(client, content)
    assert answer.status_code == 422
    assert sentence in answer.text


def test_no_zip_chosen_is_said(client: FlaskClient) -> None:
    answer = client.post("/import", headers={"Sec-Fetch-Site": "same-origin"})
    assert answer.status_code == 422
    assert "Choose the zip" in answer.text


def test_a_series_that_is_not_there_gives_no_zip(client: FlaskClient) -> None:
    assert client.get("/series/none/files.zip").status_code == 404


def test_the_backup_from_the_settings_restores(
    workspace: Workspace, tmp_path: Path
) -> None:
    fill(workspace)
    client = create_app(workspace, TESTING=True, CLOCK=lambda: NOON).test_client()
    sent = client.get("/settings/backup.zip")
    assert "stockthread-backup-2026-03-02" in sent.headers["Content-Disposition"]
    (tmp_path / "b.zip").write_bytes(sent.data)
    sent.close()
    care.restore(tmp_path / "b.zip", tmp_path / "restored")
    restored = open_workspace(tmp_path / "restored")
    assert care.check(restored, deep=True).findings == ()
    restored.close()
