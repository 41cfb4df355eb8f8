"""Photos on the page: whole, upright, scaled, and without what the camera wrote beside the picture."""

from __future__ import annotations

import base64
import re
from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image, ImageCms, ImageFile, PngImagePlugin
from pypdf import PdfReader

from stitchproof import BuildOutcome, build_pattern, check_pattern
from stitchproof.editions.assets import Asset
from stitchproof.editions.photos import LONGEST_SIDE, MOST_DOTS, prepared
from tests.checks.smallest_pattern import SMALLEST, SMALLEST_TEXT
from tests.editions.page_text import html_blocks, plain

ORIENTATION, GPS, MAKE, LATITUDE = 0x0112, 0x8825, 0x010F, 2
"""Tags of Exif 2.32 (JEITA CP-3451), from memory."""
PHOTO = """\
photos:
  front:
    file: images/front.jpg
    alt: A square of rust, its upper half lighter
    caption: The front
    shown: size M with <ease> ease
measures: {ease: 4 cm}
"""


def picture(width: int = 80, height: int = 40, mode: str = "RGB") -> Image.Image:
    """Left half dark, right half light."""
    made = Image.new(mode, (width, height), "#803020")
    made.paste("#e0c0b0", (width // 2, 0, width, height))
    return made


def as_file(made: Image.Image, kind: str = "JPEG", **options: object) -> bytes:
    out = BytesIO()
    made.save(out, kind, **options)
    return out.getvalue()


def from_camera() -> bytes:
    """A photo that lies on its side, with a place on earth, a maker, a comment, and XMP."""
    exif = Image.Exif()
    exif[ORIENTATION], exif[MAKE] = 6, "Secret Camera"
    exif.get_ifd(GPS)[LATITUDE] = (51.0, 30.0, 12.0)
    xmp = b"<x:xmpmeta xmlns:x='adobe:ns:meta/'>secret street</x:xmpmeta>"
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    return as_file(picture(), exif=exif, comment=b"secret comment", xmp=xmp, icc_profile=profile, quality=95)


def opened(asset: Asset | str) -> Image.Image:
    assert isinstance(asset, Asset), asset
    return Image.open(BytesIO(asset.content))


def test_nothing_but_the_picture_is_left() -> None:
    """Read back by the library, and by eye: none of the camera's words stands in the bytes, and no segment but those of
    the picture itself (JPEG, ITU-T T.81: APP0 and the tables)."""
    photo = prepared(from_camera())
    shown = opened(photo)
    assert not shown.getexif()
    assert set(shown.info) <= {"jfif", "jfif_version", "jfif_unit", "jfif_density"}
    assert isinstance(photo, Asset)
    for secret in (b"secret", b"Secret", b"Exif", b"xmp", b"ICC_PROFILE", b"adobe"):
        assert secret not in photo.content
    assert secrets_in(from_camera()) == {b"secret", b"Secret", b"Exif", b"xmp", b"ICC_PROFILE", b"adobe"}


def secrets_in(content: bytes) -> set[bytes]:
    return {each for each in (b"secret", b"Secret", b"Exif", b"xmp", b"ICC_PROFILE", b"adobe") if each in content}


def test_a_photo_on_its_side_is_turned_upright() -> None:
    """Orientation 6: the camera was turned; the stored left edge is the top."""
    shown = opened(prepared(from_camera()))
    assert shown.size == (40, 80)
    top, bottom = shown.getpixel((20, 10)), shown.getpixel((20, 70))
    assert isinstance(top, tuple)
    assert isinstance(bottom, tuple)
    assert sum(top) < sum(bottom)


def test_words_in_a_png_go_and_what_is_clear_becomes_white() -> None:
    words = PngImagePlugin.PngInfo()
    words.add_text("Location", "secret street")
    clear = Image.new("RGBA", (30, 30), (0, 0, 0, 0))
    photo = prepared(as_file(clear, "PNG", pnginfo=words))
    assert isinstance(photo, Asset)
    assert b"secret" not in photo.content
    assert opened(photo).getpixel((15, 15)) == (255, 255, 255)


@pytest.mark.parametrize("size", [(5000, 2000), (2000, 5000), (300, 200)])
def test_a_large_photo_is_scaled_and_a_small_one_is_left(size: tuple[int, int]) -> None:
    shown = opened(prepared(as_file(picture(*size))))
    longest = max(size)
    part = min(1.0, LONGEST_SIDE / longest)
    assert shown.size == tuple(round(each * part) for each in size)


@pytest.mark.parametrize("mode", ["L", "CMYK", "P", "1", "LA", "I;16"])
def test_every_way_of_keeping_colours_is_shown(mode: str) -> None:
    kind = "PNG" if mode in ("P", "1", "LA", "I;16") else "JPEG"
    made = picture().convert("L").convert("I;16") if mode == "I;16" else picture().convert(mode)
    assert opened(prepared(as_file(made, kind))).mode == "RGB"


def test_a_bomb_is_refused_by_its_head() -> None:
    """A PNG of 20 000 × 20 000 dots in a few hundred kilobytes: told, and never unpacked."""
    side = 20_000
    small = as_file(Image.new("1", (8, 8)), "PNG")
    head = bytearray(small)
    head[16:24] = side.to_bytes(4, "big") * 2  # width and height (PNG, ISO/IEC 15948, 11.2.2)
    import zlib

    head[29:33] = zlib.crc32(bytes(head[12:29])).to_bytes(4, "big")
    said = prepared(bytes(head))
    assert side * side > MOST_DOTS
    assert isinstance(said, str)


@pytest.mark.parametrize("lenient", [False, True])
@pytest.mark.parametrize("cut", [4, 40, 400, -200])
def test_a_photo_that_is_cut_off_is_told(cut: int, lenient: bool, monkeypatch: pytest.MonkeyPatch) -> None:
    """Also after the renderer of pages has told the library to fill up what is missing."""
    monkeypatch.setattr(ImageFile, "LOAD_TRUNCATED_IMAGES", lenient)
    assert prepared(as_file(picture(400, 300), quality=95)[:cut]) == "is damaged, or cut off"


def built(folder: Path, content: bytes | None, yaml: str = PHOTO, text: str = "") -> BuildOutcome:
    pattern = folder / "pattern_sources" / "shown"
    (pattern / "images").mkdir(parents=True)
    if content is not None:
        (pattern / "images" / "front.jpg").write_bytes(content)
    (pattern / "pattern.yaml").write_text("".join(SMALLEST.values()) + yaml, encoding="utf-8")
    (pattern / "text.md").write_text(text + SMALLEST_TEXT, encoding="utf-8")
    return build_pattern(pattern, within=folder)


def test_the_page_holds_the_photo_itself(tmp_path: Path) -> None:
    outcome = built(tmp_path, from_camera())
    assert outcome.check.findings == ()
    page = next(each for each in outcome.files if each.suffix == ".html").read_text("utf-8")
    (address,) = re.findall(
        r'<img src="data:image/jpeg;base64,([^"]+)" alt="A square of rust, its upper half lighter">', page
    )
    assert opened(Asset(base64.b64decode(address), "image/jpeg")).size == (40, 80)
    assert "The front. Shown in size M with 4 cm / 1½ in ease." in html_blocks(page)
    pdf = PdfReader(next(each for each in outcome.files if each.suffix == ".pdf"))
    (shown,) = [image for each in pdf.pages for image in each.images]
    assert shown.image is not None
    assert shown.image.size == (40, 80)
    raw = next(each for each in outcome.files if each.suffix == ".pdf").read_bytes()
    assert b"secret" not in raw


def test_a_photo_stands_where_the_text_puts_it(tmp_path: Path) -> None:
    outcome = built(tmp_path, from_camera(), text="## Notes\n\nBefore it.\n\n::: photo front\n:::\n\nAfter it.\n\n")
    page = next(each for each in outcome.files if each.suffix == ".html").read_text("utf-8")
    assert page.index("Before it.") < page.index("<img") < page.index("After it.")
    assert page.count("<img") == 1


@pytest.mark.parametrize(
    ("content", "code", "words"),
    [
        (b"<svg xmlns='http://www.w3.org/2000/svg'><script/></svg>", "SP202", "is an SVG drawing"),
        (b"GIF89a" + bytes(60), "SP202", "is not a JPEG, PNG or WebP picture"),
        (b"", "SP202", "is empty"),
        (None, "SP011", "is not there"),
        (as_file(picture(400, 300), quality=95)[:400], "SP203", "is damaged, or cut off"),
    ],
)
def test_what_is_no_photo_is_told_where_it_is_named(
    content: bytes | None, code: str, words: str, tmp_path: Path
) -> None:
    outcome = built(tmp_path, content)
    (found,) = outcome.check.findings
    assert found.page.code == code
    assert words in found.headline
    assert found.primary.span.text == "images/front.jpg"
    assert outcome.files == ()


@pytest.mark.parametrize("name", ["../outside.jpg", "/etc/hostname", "images"])
def test_a_photo_lies_inside_the_pattern(name: str, tmp_path: Path) -> None:
    (tmp_path / "pattern_sources").mkdir()
    (tmp_path / "pattern_sources" / "outside.jpg").write_bytes(as_file(picture()))
    outcome = built(tmp_path, None, PHOTO.replace("images/front.jpg", name))
    assert [each.page.code for each in outcome.check.findings] == ["SP011"]


def test_a_photo_without_words_for_those_who_do_not_see_it(tmp_path: Path) -> None:
    yaml = "photos:\n  front: {file: images/front.jpg}\n"
    outcome = built(tmp_path, from_camera(), yaml)
    (found,) = outcome.check.findings
    assert (found.page.name, "alt" in found.headline) == ("missing-key", True)


def test_a_tutorial_prints_words_address_and_code(tmp_path: Path) -> None:
    """On paper the code stands beside the address in words; on a screen the words lead there."""
    yaml = "tutorials:\n  sc: {words: How to work a single crochet, address: https://example.org/sc}\n"
    outcome = built(tmp_path, None, yaml)
    assert outcome.check.findings == ()
    page = next(each for each in outcome.files if each.suffix == ".html").read_text("utf-8")
    assert '<a href="https://example.org/sc">How to work a single crochet</a>' in page
    assert 'class="code"' not in page
    pdf = PdfReader(next(each for each in outcome.files if each.suffix == ".pdf"))
    text = plain(" ".join(each.extract_text() for each in pdf.pages))
    assert "How to work a single crochet (https://example.org/sc)" in text


@pytest.mark.parametrize("address", ["javascript:alert(1)", "example.org", "https://", "https://a.b/" + "x" * 300])
def test_an_address_that_leads_nowhere_is_told(address: str, tmp_path: Path) -> None:
    yaml = f'tutorials:\n  sc: {{words: How to, address: "{address}"}}\n'
    pattern = built(tmp_path, None, yaml)
    assert [each.page.name for each in pattern.check.findings] == ["wrong-kind-of-value"]
    assert check_pattern(tmp_path / "pattern_sources" / "shown", within=tmp_path).errors == 1
