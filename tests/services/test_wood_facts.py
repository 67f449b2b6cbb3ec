"""The document of the wood command: keys that stay, figures of the handbook."""

from __future__ import annotations

import json
from typing import Any

import pytest

from app import cli
from app.core.length import Display, Unit
from app.core.shop import Shop
from app.core.wood import all_species
from app.services.wood_facts import Asked, in_words, wood_document

METRIC = Shop(unit=Unit.MILLIMETRE, display=Display(Unit.MILLIMETRE))
PIECE = Asked(width="6", thickness="3/4", length="48")
AIR = {"from_rh": "30", "to_rh": "65", "temperature": "70F"}
BARE = {
    *("density", "coefficient_tangential", "shrinkage_tangential"),
    *("coefficient_radial", "shrinkage_radial"),
}


def facts(name: str, shop: Shop = Shop(), **asked: str) -> dict[str, Any]:
    return wood_document(name, Asked(**asked), shop)


def sizes(document: dict[str, Any]) -> dict[str, dict[str, Any]]:
    return {size["key"]: size for size in document["sizes"]}


def test_a_piece_between_two_airs_has_every_promised_key() -> None:
    found = wood_document("black walnut", Asked(**{**vars_of(PIECE), **AIR}), Shop())
    assert json.loads(json.dumps(found)) == found
    assert set(found) == {"species", "botanical", "sizes", "sources"}
    assert (found["species"], found["botanical"]) == ("Black walnut", "Juglans nigra")
    assert set(sizes(found)) == BARE | {
        *("mass", "board_feet", "cubic_metres", "emc_from", "emc_to"),
        *("width_change", "thickness_change"),
    }
    for one in found["sizes"]:
        assert {"label", "kind", "unit", "text", "working", "source"} <= set(one)
        assert " = " in one["working"]
    assert all(size["source"] in found["sources"] for size in found["sizes"])


def vars_of(asked: Asked) -> dict[str, str]:
    return {name: getattr(asked, name) for name in ("width", "thickness", "length")}


def test_only_what_can_be_told_is_told() -> None:
    assert set(sizes(facts("cherry"))) == BARE
    airs = {"from_rh": "30", "to_rh": "65"}
    assert set(sizes(facts("cherry", **airs))) == BARE | {"emc_from", "emc_to"}
    some = sizes(facts("cherry", width="6", length="20"))
    assert "mass" not in some


# lumber_measure, 3/4 in thick, 6 in x 48 in is 1.5 board feet by true volume; a
# board foot of black walnut weighs 1.45360 kg at 12 %, both computed there.
def test_a_walnut_board_weighs_and_measures_what_it_should() -> None:
    found = sizes(wood_document("walnut", PIECE, Shop()))
    assert found["board_feet"]["value"] == 1.5
    assert found["mass"]["value"] == pytest.approx(1.5 * 1453.60, abs=0.01)
    assert found["density"]["value"] == 616
    assert found["density"]["text"] == "38.46 lb/ft³"
    assert sizes(facts("walnut", METRIC))["density"]["text"] == "616 kg/m³"


# FPL-GTR-190 (2010): table 4-2 at 70 °F gives 6.2 % at 30 % and 12.0 % at 65 %;
# equation 13-2 with table 13-5, walnut: 0.00274 tangential, 0.00190 radial.
@pytest.mark.parametrize(
    ("cut", "width", "thickness"),
    [("flat", 0.00274, 0.0019), ("quarter", 0.0019, 0.00274)],
)
def test_a_board_moves_by_the_way_it_is_cut(
    cut: str, width: float, thickness: float
) -> None:
    found = sizes(facts("walnut", width="6", thickness="1", cut=cut, **AIR))
    assert (found["emc_from"]["value"], found["emc_to"]["value"]) == (6.2, 12.0)
    wide, thick = (found[f"{side}_change"]["nm"] for side in ("width", "thickness"))
    assert wide == pytest.approx(6 * 25.4e6 * width * 5.8, abs=1)
    assert thick == pytest.approx(25.4e6 * thickness * 5.8, abs=1)


def test_drying_makes_it_narrower() -> None:
    back = {"from_rh": "65", "to_rh": "30", "temperature": "21.1C"}
    change = sizes(facts("walnut", width="6", **back))["width_change"]
    assert change["nm"] < 0
    words = in_words(facts("walnut", width="6", **back), Shop())
    assert "0.095 in less" in words


def test_bare_numbers_are_in_the_shops_unit() -> None:
    inch = sizes(facts("white oak", width="150 mm", **AIR))["width_change"]["nm"]
    metric = sizes(facts("white oak", METRIC, width="150", **AIR))
    assert metric["width_change"]["nm"] == inch


@pytest.mark.parametrize("wood", all_species(), ids=lambda wood: wood.key)
def test_every_species_is_told_by_every_name_it_has(wood: Any) -> None:
    found = facts(wood.name, width="6", thickness="1", length="20", **AIR)
    assert found["botanical"] == wood.botanical
    assert sizes(found)["mass"]["value"] > 0
    assert sizes(found)["width_change"]["nm"] > 0


def test_the_command_speaks_words_or_one_document(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert cli.main(["wood", "black", "walnut", "--unit", "mm", "--width", "150"]) == 0
    words = capsys.readouterr().out
    assert words.startswith("Black walnut (Juglans nigra)\n")
    assert "Sources:" in words
    assert cli.main(["wood", "walnut", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["species"] == "Black walnut"
