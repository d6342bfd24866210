"""The page as a PDF; the one module that knows the library that makes it, loaded only when one is asked for."""

from __future__ import annotations

import io
import logging
import os
import warnings
from collections.abc import Iterator
from contextlib import contextmanager, redirect_stdout
from typing import Any, NamedTuple

from stairaudit.errors import InputError, Problem
from stairaudit.lengths import Unit

NO_LIBRARY = ('a PDF needs the extra pdf: pip install "stairaudit[pdf]"', "or open the HTML and print it")
NO_PANGO = (
    "a PDF needs the Pango library (Debian: apt install libpangoft2-1.0-0 libharfbuzz-subset0)",
    "or write a .html and print it from a browser",
)
LOUD = ("weasyprint", "fontTools")


class _Maker(NamedTuple):
    """What this module takes from the library."""

    page: Any
    fetcher: Any


def paper_of(unit: Unit) -> str:
    """Return the paper that goes with a unit: Letter with inches and feet, else A4."""
    return "Letter" if unit in ("in", "ft") else "A4"


@contextmanager
def _quiet() -> Iterator[None]:
    """Keep the remarks of the libraries off the terminal; they are no result."""
    loggers = [logging.getLogger(name) for name in LOUD]
    levels = [logger.level for logger in loggers]
    try:
        for logger in loggers:
            logger.setLevel(logging.CRITICAL + 1)
        with redirect_stdout(io.StringIO()), warnings.catch_warnings():
            warnings.simplefilter("ignore")
            yield
    finally:
        for logger, level in zip(loggers, levels, strict=True):
            logger.setLevel(level)


@contextmanager
def _still_clock() -> Iterator[None]:
    """Hold the clock that fontTools stamps into a font it has cut, so that the same page is the same bytes."""
    before = os.environ.get("SOURCE_DATE_EPOCH")
    os.environ["SOURCE_DATE_EPOCH"] = "0"
    try:
        yield
    finally:
        if before is None:
            del os.environ["SOURCE_DATE_EPOCH"]
        else:
            os.environ["SOURCE_DATE_EPOCH"] = before


def _load() -> _Maker | tuple[str, str]:
    try:
        with _quiet():
            from weasyprint import HTML
            from weasyprint.urls import URLFetcher
    except ImportError:
        return NO_LIBRARY
    except OSError:
        return NO_PANGO
    return _Maker(HTML, URLFetcher)


def why_no_pdf(file: str) -> list[Problem]:
    """Return the problem that keeps a PDF from being made on this machine; empty when one can be made."""
    found = _load()
    return [] if isinstance(found, _Maker) else [Problem(file, *found)]


def render_pdf(html: str) -> bytes:
    """Return a page of `render_html` as a tagged PDF with the page's title and language.

    The same page gives the same bytes on one machine; fonts and releases of the library differ between machines.
    Nothing outside the page is read: of every address in it only `data:` is followed.

    Raises
    ------
    InputError
        When the extra `pdf` or the Pango library is missing.
    """
    maker = _load()
    if not isinstance(maker, _Maker):
        raise InputError([Problem("PDF", *maker)])
    with _quiet(), _still_clock():
        fetcher = maker.fetcher(allowed_protocols=("data",), allow_redirects=False)
        made: bytes = maker.page(string=html, url_fetcher=fetcher).write_pdf(pdf_tags=True)
    return made
