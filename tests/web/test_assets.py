"""The built page files: what they hold, that they are the ones recorded, and that both themes can be read."""

import hashlib
import json
import re
import subprocess
from importlib.resources import files
from pathlib import Path
from typing import Any

import pytest

PROJECT = Path(__file__).parents[2]
SOURCES = PROJECT / "pages-src"
STATIC = Path(str(files("woodreeve.web"))) / "static"
VERSIONS: dict[str, Any] = json.loads((STATIC / "versions.json").read_text("utf-8"))
VENDORED = [
    (name, inside["package"], inside["licence_text"])
    for name, about in sorted({**VERSIONS["files"], **VERSIONS["tests_only"]}.items())
    for inside in about["contains"]
]
TEXT = {".css", ".js", ".html", ".svg", ".webmanifest"}

WORDS = ["ink", "ink-soft", "lichen", "lichen-deep", "bark", "wrong"]
READ_AS_TEXT = [
    *((word, ground) for word in WORDS for ground in ("paper", "leaf")),
    ("ink", "shade"),
    ("ink-soft", "shade"),
    ("lichen-deep", "shade"),
    ("ink", "lichen-wash"),
    ("lichen-deep", "lichen-wash"),
    ("ink", "bark-wash"),
    ("bark", "bark-wash"),
    ("ink", "care-wash"),
    ("care", "care-wash"),
    ("ink", "wrong-wash"),
    ("wrong", "wrong-wash"),
    ("on-lichen", "lichen"),
    ("on-lichen", "lichen-deep"),
]
"""Colour of the words and of the ground under them: WCAG 2.2, 1.4.3, asks for 4.5."""

SEEN_AS_SHAPE = [
    *((shape, ground) for shape in ("edge", "focus") for ground in ("paper", "leaf")),
    *((f"line-{n}", "leaf") for n in (1, 2, 3, 4)),
    ("focus", "shade"),
    ("focus", "bark-wash"),
    ("care-edge", "care-wash"),
    ("care-edge", "paper"),
    ("wrong", "paper"),
    ("lichen", "paper"),
]
"""Borders of fields, rings of focus and lines of charts: WCAG 2.2, 1.4.11, asks for 3."""


def sha256(path: Path) -> str:
    """The digest of a file, in hex."""
    return hashlib.sha256(path.read_bytes()).hexdigest()


def themes() -> list[tuple[str, dict[str, str]]]:
    """Every block of the built style sheet that sets our colours, with the scheme it is for."""
    css = (STATIC / "woodreeve.css").read_text("utf-8")
    blocks = re.findall(r"color-scheme:\s*(light|dark);([^}]*--paper:[^}]*)}", css)
    return [(scheme, dict(re.findall(r"--([a-z0-9-]+):\s*(#[0-9a-f]{6})", body))) for scheme, body in blocks]


def luminance(colour: str) -> float:
    """Relative luminance of a colour as WCAG 2.2 defines it."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """Contrast of two colours, 1 to 21, as WCAG 2.2 defines it."""
    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


def without_comments(text: str, kind: str) -> str:
    """The text of a file less its comments, which nothing loads."""
    return re.sub(r"<!--.*?-->" if kind in {".html", ".svg"} else r"/\*.*?\*/", "", text, flags=re.DOTALL)


def test_every_file_is_the_one_recorded() -> None:
    """What stands in the folder and what versions.json lists are the same, to the byte."""
    found = {path.name: sha256(path) for path in STATIC.iterdir() if path.name != "versions.json"}
    assert found == {name: about["sha256"] for name, about in VERSIONS["files"].items()}
    for name, about in VERSIONS["tests_only"].items():
        assert sha256(PROJECT / name) == about["sha256"], name


def test_the_files_were_built_from_the_sources_beside_them() -> None:
    """No source has changed since the last build: else run `npm run build` in pages-src."""
    folders = ["css", "js", "assets"]
    listed = [path for folder in folders for path in (SOURCES / folder).rglob("*") if path.is_file()]
    listed += [SOURCES / name for name in ("build.js", "package.json", "package-lock.json")]
    assert {str(path.relative_to(SOURCES)): sha256(path) for path in listed} == VERSIONS["sources"]


@pytest.mark.parametrize(
    ("name", "package", "licence"), VENDORED, ids=[f"{name}-{pkg}" for name, pkg, _ in VENDORED]
)
def test_every_vendored_package_brings_its_licence(name: str, package: str, licence: str) -> None:
    """Its text stands under LICENSES, and what is shipped repeats it in licences.txt."""
    text = (PROJECT / licence).read_text("utf-8").strip()
    assert re.search("copyright|permission|licen[cs]e", text, re.IGNORECASE)
    if name in VERSIONS["files"]:
        shipped = (STATIC / "licences.txt").read_text("utf-8")
        assert text in shipped
        assert f"{package} " in shipped


def test_packages_are_those_pinned() -> None:
    """Each vendored version is pinned exactly, in the package file and in the lock."""
    pinned = json.loads((SOURCES / "package.json").read_text("utf-8"))["devDependencies"]
    locked = json.loads((SOURCES / "package-lock.json").read_text("utf-8"))["packages"]
    assert all(re.fullmatch(r"\d+\.\d+\.\d+", version) for version in pinned.values())
    for about in [*VERSIONS["files"].values(), *VERSIONS["tests_only"].values()]:
        for inside in about["contains"]:
            package = inside["package"]
            assert inside["version"] == pinned[package] == locked[f"node_modules/{package}"]["version"]


def test_the_lock_names_no_registry() -> None:
    """The lock holds digests and versions, and no address of any machine."""
    lock = (SOURCES / "package-lock.json").read_text("utf-8")
    assert "resolved" not in lock
    assert "://" not in lock


@pytest.mark.parametrize(
    "path", sorted(p for p in STATIC.iterdir() if p.suffix in TEXT), ids=lambda p: p.name
)
def test_a_built_file_loads_nothing_from_elsewhere(path: Path) -> None:
    """No address of another machine, no data: address, no eval: the page's policy is default-src 'self'."""
    text = without_comments(path.read_text("utf-8"), path.suffix)
    names_of_formats = "http://www.w3.org/"
    told_to_developers = "https://bit.ly/wb-precache"  # in the text of a warning that workbox writes
    addresses = re.findall(r"(?:https?:)?//[a-z0-9-]+(?:\.[a-z0-9-]+)+[^\s\"'`)]*", text, re.IGNORECASE)
    assert [a for a in addresses if not a.startswith((names_of_formats, told_to_developers))] == []
    assert not re.search(r"url\(\s*[\"']?data:", text)
    if path.suffix == ".js" and path.name != "htmx.js":
        assert not re.search(
            r"\beval\(|new Function\(|setAttribute\(\s*[\"'`]style|insertAdjacentHTML|innerHTML", text
        )


@pytest.mark.parametrize("name", ["offline.html"])
def test_a_page_of_the_worker_needs_no_inline_script_or_style(name: str) -> None:
    """It keeps to the page's policy like every other page."""
    text = (STATIC / name).read_text("utf-8")
    assert not re.search(r"<style|\sstyle=|<script(?![^>]*\ssrc=)|\son[a-z]+=", text)


def test_the_style_sheet_names_only_files_that_are_there() -> None:
    """Every picture that a style sheet asks for stands beside it."""
    for sheet in STATIC.glob("*.css"):
        named = re.findall(r"url\(\s*[\"']?([^\"')]+)", sheet.read_text("utf-8"))
        assert all((STATIC / name).is_file() for name in named), sheet.name
    assert re.search(r"url\(", (STATIC / "woodreeve.css").read_text("utf-8"))


def test_the_worker_keeps_every_file_under_its_digest() -> None:
    """The folder less the worker itself, the record and the licences, each by the digest that pages use."""
    worker = (STATIC / "worker.js").read_text("utf-8")
    kept = dict(re.findall(r"\[\"/static/([^\"]+)\",\s*\"([0-9a-f]{12})\"\]", worker))
    aside = {"worker.js", "licences.txt"}
    assert kept == {n: about["sha256"][:12] for n, about in VERSIONS["files"].items() if n not in aside}


def test_the_manifest_names_only_icons_that_are_there() -> None:
    """Each icon of the manifest is a file, and a PNG has the size it claims."""
    manifest = json.loads((STATIC / "manifest.webmanifest").read_text("utf-8"))
    for icon in manifest["icons"]:
        data = (STATIC / icon["src"].removeprefix("/static/")).read_bytes()
        if icon["type"] == "image/png":
            width, height = int.from_bytes(data[16:20], "big"), int.from_bytes(data[20:24], "big")
            assert icon["sizes"] == f"{width}x{height}"


def test_there_are_a_light_theme_and_one_dark_theme_told_twice() -> None:
    """Dark by the device and dark by choice are the same colours; light names the same set."""
    found = themes()
    assert [scheme for scheme, _ in found] == ["light", "dark", "dark"]
    light, by_choice, by_device = (colours for _, colours in found)
    assert by_choice == by_device
    assert light.keys() == by_choice.keys()


@pytest.mark.parametrize(("scheme", "colours"), themes()[:2], ids=["light", "dark"])
@pytest.mark.parametrize(
    ("front", "ground", "least"),
    [(*pair, 4.5) for pair in READ_AS_TEXT] + [(*pair, 3.0) for pair in SEEN_AS_SHAPE],
)
def test_colours_stand_out_enough(
    scheme: str, colours: dict[str, str], front: str, ground: str, least: float
) -> None:
    """Contrast by WCAG 2.2: 4.5 for words (1.4.3), 3 for borders, focus and chart lines (1.4.11)."""
    assert contrast(colours[front], colours[ground]) >= least, f"{front} on {ground}, {scheme}"


def test_contrast_is_the_published_measure() -> None:
    """Black on white is 21 to 1, a colour on itself 1 to 1 (WCAG 2.2, definition of contrast ratio)."""
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)
    assert contrast("#6a4629", "#6a4629") == pytest.approx(1.0)


def test_the_sample_page_is_not_shipped() -> None:
    """The page that shows every part is for looking at, and stays with the sources."""
    assert (SOURCES / "sample.html").is_file()
    assert not list(STATIC.parent.rglob("sample*"))
    tracked = subprocess.run(
        ["git", "ls-files", "pages-src/node_modules", "pages-src/build"],
        cwd=PROJECT, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert tracked.stdout == ""
