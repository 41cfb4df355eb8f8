"""Reads a pattern folder. Nothing outside the folder and the shared texts beside it is opened."""

from __future__ import annotations

import os
from codecs import BOM_UTF8
from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType
from unicodedata import category

from msgspec import Struct
from msgspec.structs import replace

from stitchproof.diagnostics.faults.source_too_large import source_too_large
from stitchproof.diagnostics.report import Report
from stitchproof.kept import Kept, made_once
from stitchproof.plain_file import NoPlainFile, read_plain
from stitchproof.reading.faults.file_not_readable import file_not_readable
from stitchproof.reading.header import read_header
from stitchproof.reading.pattern_source import Header, PatternSource, TextFile
from stitchproof.reading.templates import Registry, make_template
from stitchproof.reading.text_acceptances import text_acceptances
from stitchproof.reading.yaml_tree import read_yaml
from stitchproof.source import TURNS_THE_LINE, SourceFile, Span

HEADER = "pattern.yaml"
SHARED = "shared_text"
MOST_BYTES = 2_000_000
MOST_BYTES_OF_A_PHOTO = 30_000_000
MOST_TEXTS = 200
LONGEST_SHOWN = 120
"""Characters of a name that is told."""


def read_pattern(
    folder: Path,
    shown: str,
    report: Report,
    instead: Mapping[str, str] = MappingProxyType({}),
    kept: Kept | None = None,
) -> PatternSource | None:
    """A pattern folder as PatternSource; None where there is nothing to go on with (reported).

    shown: the folder as the user sees it, relative to the workspace. instead: by name, the text of pattern.yaml and of the
    body table to be read in place of what lies on the disk. kept: what earlier readings of the same folder made.
    """
    files = _Files(folder, shown, report, instead, kept)
    header_file = files.text(HEADER)
    if header_file is None:
        return None
    header = made_once(kept, "header", (header_file,), report, lambda report: _header(header_file, report))
    if header is None:
        return None
    header = _with_photos(files, _with_body_file(files, header))
    registry = Registry()
    texts, all_read = _texts(files, header, registry)
    shared = _shared_texts(folder.parent / SHARED, f"{Path(shown).parent.as_posix()}/{SHARED}", registry, report, kept)
    islands, marks = tuple(registry.islands), tuple(registry.marks)
    return PatternSource(folder.name, header, header_file, texts, shared, islands, marks, all_read)


def _header(file: SourceFile, report: Report) -> Header | None:
    tree = read_yaml(file, report)
    return None if tree is None and report.has_errors else read_header(tree, file, report)


class _Files(Struct, frozen=True):
    """The files of a folder, as they are asked for. instead: texts to be read in place of what lies on the disk."""

    folder: Path
    shown: str
    report: Report
    instead: Mapping[str, str]
    kept: Kept | None

    def text(self, name: str, asked_for: Span | None = None) -> SourceFile | None:
        shown = f"{self.shown}/{name}"
        if name in self.instead:
            return SourceFile(shown, self.instead[name])
        return _read_file(self.folder, name, shown, self.report, asked_for, self.kept)

    def content(self, name: str, most: int, asked_for: Span) -> bytes | None:
        return _read_bytes(self.folder, name, f"{self.shown}/{name}", self.report, most, asked_for)


def _with_body_file(files: _Files, header: Header) -> Header:
    """The header with the CSV file that its body table stands in, if it names one."""
    if header.body is None or not header.body.is_file:
        return header
    body, file = header.body, files.text(header.body.named.text.strip(), header.body.named.span)
    return made_once(
        files.kept, "body file", (header, file), files.report, lambda _: replace(header, body=replace(body, file=file))
    )


def _with_photos(files: _Files, header: Header) -> Header:
    """The header with the files of its photos, each a picture by its first bytes; others are reported."""
    if not header.photos:
        return header
    named = [(photo.file.text.strip(), photo.file.span) for photo in header.photos]
    contents = tuple(files.content(name, MOST_BYTES_OF_A_PHOTO, span) for name, span in named)
    return made_once(
        files.kept,
        "photos",
        (header, contents),
        files.report,
        lambda report: _with_pictures(header, contents, report),
    )


def _with_pictures(header: Header, contents: tuple[bytes | None, ...], report: Report) -> Header:
    from stitchproof.reading.photo_files import picture_or_reported  # most patterns have no photos yet

    photos = tuple(
        replace(photo, content=picture_or_reported(content, photo.file.span, report))
        for photo, content in zip(header.photos, contents, strict=True)
    )
    return replace(header, photos=photos)


def _texts(files: _Files, header: Header, registry: Registry) -> tuple[tuple[TextFile, ...], bool]:
    """The text files: in the order that pattern.yaml names, else by name; and whether that is all of them."""
    asked = [(words.text.strip(), words.span) for words in header.text_order]
    names: list[tuple[str, Span | None]] = [*asked] if asked else [(name, None) for name in _markdown_in(files.folder)]
    found = []
    if len(names) > MOST_TEXTS:
        too_many = names[MOST_TEXTS][1] or header.identity.title.span
        files.report.add(source_too_large(too_many, f"more than {MOST_TEXTS} texts"))
    for name, span in names[:MOST_TEXTS]:
        file = files.text(name, span)
        if file:
            found.append(_text(name, file, False, registry, files.report, files.kept))
    read = tuple(text for text in found if text)
    return read, len(read) == len(names)


def _shared_texts(
    folder: Path, shown: str, registry: Registry, report: Report, kept: Kept | None
) -> tuple[TextFile, ...]:
    found = []
    if os.path.lexists(folder) and not folder.is_dir():
        report.add(file_not_readable(shown, "is not a folder", "make it a folder, or give it another name"))
        return ()
    if not folder.resolve().is_relative_to(folder.parent.resolve()):
        what = "is a link that leads out of the patterns"
        report.add(file_not_readable(shown, what, "put the folder itself here"))
        return ()
    for name in _markdown_in(folder)[:MOST_TEXTS]:
        file = _read_file(folder, name, f"{shown}/{name}", report, None, kept)
        if file:
            found.append(_text(name, file, True, registry, report, kept))
    return tuple(text for text in found if text)


def _text(
    name: str, file: SourceFile, shared: bool, registry: Registry, report: Report, kept: Kept | None
) -> TextFile | None:
    """A text made into a template. Its marks and islands are numbered on from those of the texts before it."""
    own = registry.for_next_text()

    def make(report: Report) -> tuple[TextFile | None, Registry]:
        template = make_template(file, shared, own, report)
        if template is None:
            return None, own
        return TextFile(name, file, template, shared, tuple(text_acceptances(file, report))), own

    numbers = (own.first_mark, own.first_island)
    text, read = made_once(kept, ("text", shared, name), (file, *numbers), report, make)
    registry.take_in(read)
    return text


def _markdown_in(folder: Path) -> list[str]:
    try:
        return sorted(name for name in os.listdir(folder) if name.endswith(".md"))
    except OSError:
        return []


def _read_file(
    folder: Path, name: str, shown: str, report: Report, asked_for: Span | None = None, kept: Kept | None = None
) -> SourceFile | None:
    """One text file of a folder. A file that is what it was is the same SourceFile, so that all its places are the same."""
    data = _read_bytes(folder, name, shown, report, MOST_BYTES, asked_for)
    text = None if data is None else _decoded(data, shown, report, asked_for)
    if text is None:
        return None
    return made_once(kept, ("file", shown), (text,), report, lambda report: _printing(SourceFile(shown, text), report))


def _read_bytes(folder: Path, name: str, shown: str, report: Report, most: int, asked_for: Span | None) -> bytes | None:
    """One file of a folder as it is. Links, devices and paths that lead out of the folder are refused."""
    path = folder / name
    if os.path.isabs(name) or ".." in Path(name).parts or "\0" in name:
        report.add(
            file_not_readable(name, "lies outside the pattern's folder", "name a file inside the folder", asked_for)
        )
        return None
    try:
        resolved = path.resolve(strict=True)
        if not resolved.is_relative_to(folder.resolve()):
            report.add(
                file_not_readable(
                    shown, "is a link that leads out of the folder", "put the file itself here", asked_for
                )
            )
            return None
        data = read_plain(path, most)
    except NoPlainFile:
        report.add(file_not_readable(shown, "is not a file", "put the file itself here", asked_for))
        return None
    except (OSError, RuntimeError):
        report.add(
            file_not_readable(
                shown, "is not there, or cannot be opened", "restore the file, or correct its name", asked_for
            )
        )
        return None
    if len(data) > most:
        report.add(
            source_too_large(asked_for or SourceFile(shown, "").whole, f"a file of more than {most // 1_000_000} MB")
        )
        return None
    return data


def read_alone(path: Path, shown: str, report: Report) -> SourceFile | None:
    """One text file that belongs to no pattern. shown: as the user sees it. None where it cannot be read (reported)."""
    return _read_file(path.parent, path.name, shown, report)


def _decoded(data: bytes, shown: str, report: Report, asked_for: Span | None) -> str | None:
    data = data.removeprefix(BOM_UTF8)
    try:
        text = data.decode("utf-8")
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        report.add(file_not_readable(shown, f"is not text in UTF-8 (line {line})", "save it as UTF-8 text", asked_for))
        return None
    return text.replace("\r\n", "\n").replace("\r", "\n")


def _printing(file: SourceFile, report: Report) -> SourceFile | None:
    """The file, if all its characters print."""
    if file.text.replace("\n", "").replace("\t", "").isprintable():  # Python's own word for it is stricter, and quick
        return file
    for offset, character in enumerate(file.text):
        if character not in "\n\t" and (category(character) in ("Cc", "Co") or character in TURNS_THE_LINE):
            report.add(
                file_not_readable(
                    file.path,
                    f"holds a character that does not print (U+{ord(character):04X})",
                    "take it out",
                    Span(file, offset, offset + 1),
                )
            )
            return None
    return file


def no_such_pattern(asked: str, known: tuple[str, ...], report: Report) -> None:
    """Report that a pattern asked for is not there. known: the patterns that are."""
    here = f"the patterns here are {', '.join(known)}" if known else "give the folder that holds pattern.yaml"
    shown = asked if len(asked) <= LONGEST_SHOWN else f"{asked[:LONGEST_SHOWN]}…"
    report.add(file_not_readable(shown, "is not a pattern folder, nor a name under pattern_sources/", here))
