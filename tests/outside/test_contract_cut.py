"""``cut`` as another program calls it: one job in, one document out, an exit code.

Only the document is looked at. Every number is worked out here from the job as it
was written, in whole nanometres.
"""

from __future__ import annotations

import json
import re
from collections import Counter
from pathlib import Path
from typing import Any

import pytest

from app import cli
from app.services import cut_jobs
from tests.outside.written_jobs import BARS, JOBS, Document, nm

OBJECTIVES = ["cost", "stock_pieces", "offcut_value", "set_ups", "cuts"]
TOTALS = {"cost", "stock_pieces", "set_ups", "cuts"}
HEAPS = ("parts", "kerf", "offcuts", "scrap")
BOX = {"x_nm", "y_nm", "length_nm", "width_nm"}


class Shell:
    """The command run in place; what reached both streams, read from the system."""

    def __init__(self, streams: pytest.CaptureFixture[str], folder: Path) -> None:
        self.streams, self.folder = streams, folder

    def __call__(self, job: object, *words: str) -> tuple[int, str, str]:
        path = self.folder / "job.json"
        path.write_text(job if isinstance(job, str) else json.dumps(job))
        code = cli.main(["cut", str(path), *words])
        return code, *self.streams.readouterr()

    def document(self, job: object, *words: str) -> Document:
        code, out, beside = self(job, "--json", *words)
        found: Document = json.loads(out)
        assert code == 0, found
        assert beside.splitlines() == found["warnings"]
        return found


@pytest.fixture
def shell(capfd: pytest.CaptureFixture[str], tmp_path: Path) -> Shell:
    return Shell(capfd, tmp_path)


@pytest.fixture(params=JOBS)
def job(request: pytest.FixtureRequest) -> Document:
    found: Document = json.loads(json.dumps(JOBS[request.param]))
    return found


def test_the_document_has_the_keys_it_promises(shell: Shell, job: Document) -> None:
    found = shell.document(job, "--seconds", "2")
    assert {"layouts", "unplaced", "totals", "levels", "seconds"} <= found.keys()
    stock, parts = ({one["id"] for one in job[name]} for name in ("stock", "parts"))
    for layout in found["layouts"]:
        assert layout["stock"] in stock
        assert layout["period"] in job["periods"]
        assert layout["copies"] >= 1
        for piece in layout["pieces"]:
            assert {"part", "turned"} | BOX <= piece.keys()
            assert piece["part"] in parts
        for left in layout["leftovers"]:
            assert {"keep", "used_in"} | BOX <= left.keys()
            assert left["used_in"] in [None, *job["periods"]]
        for cut in layout["cuts"]:
            assert cut["direction"] in ("rip", "crosscut")
            assert all(type(n) is int for n in (cut["at_nm"], *cut["of_nm"]))
            assert len(cut["of_nm"]) == 4
            assert cut["set_up"]
    assert [one["objective"] for one in found["levels"]] == OBJECTIVES
    assert found["seconds"] >= 0


def test_all_parts_are_placed_or_listed_with_their_reason(
    shell: Shell, job: Document
) -> None:
    found = shell.document(job, "--seconds", "2")
    placed: Counter[object] = Counter()
    for layout in found["layouts"]:
        for piece in layout["pieces"]:
            placed[piece["part"]] += layout["copies"]
    for out in found["unplaced"]:
        assert out["why"].endswith(".")
        placed[out["part"]] += out["quantity"]
    assert placed == {one["id"]: one["quantity"] for one in job["parts"]}


def test_areas_add_up_exactly(shell: Shell, job: Document) -> None:
    found = shell.document(job, "--seconds", "2")
    flat = "width" not in job["parts"][0]
    sums = found["totals"]
    key = "length_{}_nm" if flat else "area_{}_nm2"
    assert sums.keys() >= TOTALS | {key.format(name) for name in ("stock", *HEAPS)}

    def extent(one: Document) -> int:
        return int(one["length_nm"] * (1 if flat else one["width_nm"]))

    def size(one: Document) -> int:
        wide = 1 if flat else nm(one["width"], job["unit"])
        return nm(one["length"], job["unit"]) * wide

    stock = {one["id"]: one for one in job["stock"]}
    whole = parts = offcuts = scrap = cost = 0
    for layout in found["layouts"]:
        many, board = layout["copies"], stock[layout["stock"]]
        # What a later part of the series cuts up stands in its own pieces.
        left = [one for one in layout["leftovers"] if one["used_in"] is None]
        whole += many * size(board)
        cost += many * (board.get("cost") or 0)
        parts += many * sum(map(extent, layout["pieces"]))
        offcuts += many * sum(extent(one) for one in left if one["keep"])
        scrap += many * sum(extent(one) for one in left if not one["keep"])
    assert sums["cost"] == cost
    assert sums[key.format("stock")] == whole
    assert [sums[key.format(n)] for n in ("parts", "offcuts", "scrap")] == [
        parts,
        offcuts,
        scrap,
    ]
    assert whole == sum(sums[key.format(name)] for name in HEAPS)


def test_nothing_lies_on_a_defect_nor_comes_before_its_time(
    shell: Shell, job: Document
) -> None:
    found = shell.document(job, "--seconds", "2")
    order = {period: n for n, period in enumerate(job["periods"])}
    stock = {one["id"]: one for one in job["stock"]}
    due = {one["id"]: order[one["period"]] for one in job["parts"]}
    for layout in found["layouts"]:
        board = stock[layout["stock"]]
        taken = order[layout["period"]]
        assert taken >= order.get(board.get("period"), 0)
        for piece in layout["pieces"]:
            assert due[piece["part"]] >= taken
            assert not any(on(piece, spot, job["unit"]) for spot in spots(board))
            if due[piece["part"]] > taken:
                assert waits_for(piece, layout, order) == due[piece["part"]]
        for left in layout["leftovers"]:
            if left["keep"]:
                assert not any(on(left, spot, job["unit"]) for spot in spots(board))


def spots(board: Document) -> list[Document]:
    found: list[Document] = board.get("defects", [])
    return found


def on(one: Document, spot: Document, unit: str) -> bool:
    """Whether a rectangle and a defect have wood in common."""
    pairs = [("x", "length")] + ([("y", "width")] if "y" in spot else [])
    return all(
        one[f"{start}_nm"] < nm(spot[start], unit) + nm(spot[size], unit)
        and nm(spot[start], unit) < one[f"{start}_nm"] + one[f"{size}_nm"]
        for start, size in pairs
    )


def waits_for(piece: Document, layout: Document, order: dict[object, int]) -> int:
    """The latest period that takes up a leftover in which a piece lies."""
    return max(
        order[left["used_in"]]
        for left in layout["leftovers"]
        if left["used_in"] is not None
        and all(
            left[f"{start}_nm"] <= piece[f"{start}_nm"]
            and piece[f"{start}_nm"] + piece[f"{size}_nm"]
            <= left[f"{start}_nm"] + left[f"{size}_nm"]
            for start, size in (("x", "length"), ("y", "width"))
        )
    )


def test_pinned_parts_come_from_where_they_are_pinned(
    shell: Shell, job: Document
) -> None:
    found = shell.document(job, "--seconds", "2")
    out = {one["part"]: one["quantity"] for one in found["unplaced"]}
    for pin in job["pins"]:
        there = sum(
            layout["copies"] * (piece["part"] == pin["part"])
            for layout in found["layouts"]
            if layout["stock"] == pin["stock"]
            for piece in layout["pieces"]
        )
        wanted = pin.get("quantity", 0)
        assert pin.get("prefer") or there + out.get(pin["part"], 0) >= wanted


def test_the_machine_takes_every_cut(shell: Shell, job: Document) -> None:
    found = shell.document(job, "--seconds", "2")
    limits = {key: nm(value, job["unit"]) for key, value in job["machine"].items()}
    endless = 10**12
    for layout in found["layouts"]:
        for cut in layout["cuts"]:
            _, _, length, width = cut["of_nm"]
            assert length >= limits["shortest_piece"]
            if cut["direction"] == "rip":
                assert length <= limits.get("longest_rip", endless)
            else:
                assert width <= limits.get("longest_crosscut", endless)


def test_every_bound_is_on_its_side_and_only_equal_ones_are_proof(
    shell: Shell, job: Document
) -> None:
    found = shell.document(job, "--seconds", "2")
    for level in found["levels"]:
        assert level.keys() >= {"objective", "value", "bound", "proven"}
        sign = -1 if level["objective"] == "offcut_value" else 1
        assert sign * (level["value"] - level["bound"]) >= 0
        assert level["value"] == level["bound"] or not level["proven"]
    values = {one["objective"]: one["value"] for one in found["levels"]}
    assert {key: values[key] for key in TOTALS} == {
        key: found["totals"][key] for key in TOTALS
    }


def test_the_same_job_gives_the_same_document(shell: Shell, job: Document) -> None:
    first, again = (shell.document(job) for _ in range(2))
    assert first | {"seconds": 0} == again | {"seconds": 0}


def test_drawings_are_of_the_plan_that_was_printed(
    shell: Shell, job: Document, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    plans, solved = [], cut_jobs._solved

    def counted(*asked: Any) -> Any:
        plans.append(solved(*asked))
        return plans[-1]

    monkeypatch.setattr(cut_jobs, "_solved", counted)
    found = shell.document(job, "--seconds", "1", "--svg", str(tmp_path / "svg"))
    assert len(plans) == 1
    drawn = sorted(path.name for path in (tmp_path / "svg").iterdir())
    assert len(drawn) >= len(found["layouts"])
    assert all(name.endswith(".svg") for name in drawn)


def test_the_words_end_with_the_proof(shell: Shell, job: Document) -> None:
    code, out, _ = shell(job, "--seconds", "2")
    assert code == 0
    last = out.splitlines()[-1]
    assert last == "Proven: nothing costs less." or (
        last.startswith("At most ")
        and last.endswith(" % of the value of the parts from the best possible.")
    )


def test_words_say_when_the_stock_is_taken(shell: Shell) -> None:
    code, out, _ = shell(BARS)
    assert code == 0
    *stock, _, _ = out.splitlines()
    assert len(stock) > 1
    for line in stock:
        assert re.match(r"\d+ × (old|new) \((frame|lid)\): [12](, [12])*$", line)


def test_without_periods_none_is_named(shell: Shell) -> None:
    plain = {key: value for key, value in BARS.items() if key != "periods"}
    for name in ("stock", "parts"):
        plain[name] = [
            {key: value for key, value in one.items() if key != "period"}
            for one in plain[name]
        ]
    found = shell.document(plain)
    assert {layout["period"] for layout in found["layouts"]} == {None}
    assert not any(
        left["used_in"] for layout in found["layouts"] for left in layout["leftovers"]
    )


def test_where_all_stock_costs_the_same_cost_and_pieces_agree(shell: Shell) -> None:
    same = BARS | {"stock": [BARS["stock"][1]], "pins": []}
    cost, pieces, *_ = shell.document(same)["levels"]
    assert cost["value"] == 900 * pieces["value"]


def test_what_cannot_be_placed_is_no_error(shell: Shell) -> None:
    long = BARS | {"parts": [{"id": "pole", "length": 5000, "period": "lid"}]}
    found = shell.document(long | {"pins": []})
    (out,) = found["unplaced"]
    assert (out["part"], out["quantity"]) == ("pole", 1)
    code, words, _ = shell(long | {"pins": []})
    assert (code, words.splitlines()[-1].startswith("Nothing is proven")) == (0, True)


@pytest.mark.parametrize(
    ("change", "path"),
    [
        ({"periods": "one"}, "periods"),
        ({"periods": ["frame", "frame"]}, "periods[0]"),
        ({"periods": ["frame"]}, "parts[1].period"),
        ({"pins": [{"part": 3, "stock": "old"}]}, "pins[0].part"),
        ({"pins": [{"part": 1, "stock": "older"}]}, "pins[0].stock"),
        ({"pins": [{"part": 1, "stock": "old", "quantity": 6}]}, "pins[0].quantity"),
        ({"machine": {"shortest_piece": "short"}}, "machine.shortest_piece"),
        ({"offcut_value": {"full_length": 0}}, "offcut_value.full_length"),
        (
            {
                "stock": [
                    {
                        "id": "old",
                        "length": 100,
                        "defects": [{"x": 90, "length": 20}],
                    }
                ]
            },
            "stock[0].defects[0].length",
        ),
    ],
)
def test_a_fault_is_a_document_with_its_path_and_exit_code_two(
    shell: Shell, change: Document, path: str
) -> None:
    code, out, beside = shell(BARS | change, "--json")
    error = json.loads(out)["error"]
    assert (code, beside, error["input"]) == (2, "", path)
    assert error["message"].endswith(".")
    assert set(error) == {"input", "message", "nearest"}
