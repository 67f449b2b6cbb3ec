"""The look: contrast, type, nothing from elsewhere, nothing the policy forbids.

Contrast ratio and the limits 4.5:1 for text, 3:1 for meaningful lines, 7:1: WCAG 2.2,
definitions of relative luminance and contrast ratio, criteria 1.4.3, 1.4.6, 1.4.11.
"""

from __future__ import annotations

import re

import pytest
from fontTools.ttLib import TTFont

from app.main import resource

CSS = (resource("static") / "css" / "base.css").read_text("utf-8")
TEXT = ("ink", "quiet", "link", "caution", "wrong", "right")
LINES = ("thread", "edge", "caution", "wrong", "right", "link")
TINTED = {"caution-paper": ("caution", "ink"), "wrong-paper": ("wrong", "ink")}


def themes() -> dict[str, dict[str, str]]:
    blocks = {
        "light": r"\n:root \{",
        "dark, by the system": r":root:not\(\[data-theme\]\) \{",
        "dark": r':root\[data-theme="dark"\] \{',
        "shop": r'\n:root\[data-theme="shop"\] \{',
    }
    found = {}
    for name, head in blocks.items():
        match = re.search(head + r"([^}]*)\}", CSS)
        assert match, name
        found[name] = dict(re.findall(r"--([\w-]+): (#[0-9a-f]{6});", match[1]))
    return found


def luminance(colour: str) -> float:
    def channel(part: str) -> float:
        value = int(part, 16) / 255
        return value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4

    red, green, blue = (channel(colour[i : i + 2]) for i in (1, 3, 5))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def test_contrast_is_reckoned_as_published() -> None:
    # WCAG: black on white is 21:1; #767676 on white is the grey at 4.54:1.
    assert round(contrast("#000000", "#ffffff"), 2) == 21
    assert round(contrast("#767676", "#ffffff"), 2) == 4.54


@pytest.mark.parametrize("theme", themes())
def test_text_stands_out_from_the_paper(theme: str) -> None:
    colours = themes()[theme]
    least = 7 if theme == "shop" else 4.5
    for paper in ("paper", "leaf"):
        for name in TEXT:
            assert contrast(colours[name], colours[paper]) >= least, (theme, name)
    for paper, names in TINTED.items():
        for name in names:
            assert contrast(colours[name], colours[paper]) >= least, (theme, name)
    # Buttons: paper on ink, and on the thread under the pointer.
    assert contrast(colours["leaf"], colours["thread"]) >= least


@pytest.mark.parametrize("theme", themes())
def test_lines_that_mean_something_can_be_seen(theme: str) -> None:
    colours = themes()[theme]
    for name in LINES:
        for paper in ("paper", "leaf"):
            assert contrast(colours[name], colours[paper]) >= 3, (theme, name)


def test_every_theme_has_every_colour() -> None:
    names = [set(colours) for colours in themes().values()]
    assert all(found == names[0] for found in names)
    assert len(names[0]) >= 12
    dark = themes()
    assert dark["dark"] == dark["dark, by the system"]


@pytest.mark.parametrize("style", ["regular", "italic", "semibold"])
def test_the_type_has_tabular_figures_and_fractions(style: str) -> None:
    with TTFont(resource("static") / "fonts" / f"source-serif-4-{style}.woff2") as font:
        features = {
            item.FeatureTag for item in font["GSUB"].table.FeatureList.FeatureRecord
        }
        licence = font["name"].getDebugName(13)
    assert {"tnum", "frac"} <= features
    assert "Open Font License" in licence


def test_the_types_licence_travels_with_it() -> None:
    text = (resource("static") / "fonts" / "SourceSerif4-OFL.txt").read_text("utf-8")
    assert "SIL OPEN FONT LICENSE Version 1.1" in text


def test_nothing_is_loaded_from_elsewhere() -> None:
    for sheet in (resource("static") / "css").glob("*.css"):
        text = sheet.read_text("utf-8")
        assert "http" not in text, sheet.name
        assert "@import" not in text, sheet.name


def test_templates_hold_nothing_that_the_policy_forbids() -> None:
    for template in resource("templates").glob("**/*.html"):
        text = template.read_text("utf-8")
        assert not re.search(r"\sstyle=|<style|\son\w+=|hx-on|javascript:", text), (
            template
        )
        for script in re.findall(r"<script[^>]*>", text):
            assert "src=" in script, template
