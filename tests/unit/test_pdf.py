"""The PDF: read back by another library, the same bytes twice, nothing fetched, plain words when it cannot be."""

from __future__ import annotations

import base64
import builtins
import io
import logging
import os
import sys
import warnings
from functools import lru_cache
from pathlib import Path
from typing import Any
from urllib.request import OpenerDirector

import pytest
from cases import audit_of, survey_of
from pypdf import PdfReader
from typer.testing import CliRunner, Result

from stairaudit import Survey, load_survey
from stairaudit.cli import app
from stairaudit.errors import InputError
from stairaudit.lengths import Unit
from stairaudit.output.html import render_html
from stairaudit.output.pdf import NO_PANGO, paper_of, render_pdf, why_no_pdf
from stairaudit.words.view import Audited, report_view

DEMO = Path(__file__).parents[2] / "stairaudit" / "demo" / "porch.yaml"
EXTRA_LINE = 'x.pdf: a PDF needs the extra pdf: pip install "stairaudit[pdf]"; or open the HTML and print it\n'
PANGO_LINE = (
    "x.pdf: a PDF needs the Pango library (Debian: apt install libpangoft2-1.0-0 libharfbuzz-subset0); "
    "or write a .html and print it from a browser\n"
)


@pytest.fixture
def pango() -> None:
    problems = why_no_pdf("x.pdf")
    if problems and problems[0].found == NO_PANGO[0]:
        pytest.skip("the Pango library is not on this machine: apt install libpangoft2-1.0-0")
    assert problems == []


def page(survey: Survey, paper: str | None = None) -> str:
    return render_html(report_view([Audited("a.yaml", survey, (audit_of(survey),))], "2026-01-02", "0"), paper)


def read(made: bytes) -> PdfReader:
    return PdfReader(io.BytesIO(made))


def words(made: bytes) -> str:
    return " ".join(" ".join(sheet.extract_text() for sheet in read(made).pages).split())


STEPS = survey_of({"risers": ["7", "8", None]}, {"name": "Fern Row <b>5</b>"})


@lru_cache
def demo(paper: str) -> bytes:
    return render_pdf(page(load_survey(DEMO), paper))


@pytest.mark.usefixtures("pango")
def test_it_is_tagged_and_tells_its_language_and_title() -> None:
    """ISO 32000-1:2008 (PDF 1.7): 14.7.2 StructTreeRoot, 14.8.1 MarkInfo, 14.9.2 Lang, 14.3.3 Title (from memory)."""
    reader = read(render_pdf(page(survey_of({"risers": ["7"]}, {"name": "Fern Row <b>5</b>"}))))
    root: Any = reader.trailer["/Root"]

    assert reader.metadata is not None
    assert reader.metadata.title == "Stair check: Fern Row <b>5</b>"
    assert (root["/Lang"], root["/MarkInfo"]["/Marked"]) == ("en", True)
    assert root["/StructTreeRoot"]["/Type"] == "/StructTreeRoot"
    assert reader.metadata.creation_date is None


@pytest.mark.usefixtures("pango")
def test_it_says_what_the_page_says_and_numbers_its_pages() -> None:
    text = words(demo("A4"))
    pages = len(read(demo("A4")).pages)

    assert pages > 1
    assert all(f"page {number} of {pages}" in text for number in range(1, pages + 1))
    for told in ("The local authority decides", "7 13/16 in", "! outside", "? not measured", "How it was judged"):
        assert told in text


@pytest.mark.usefixtures("pango")
@pytest.mark.parametrize(("paper", "size"), [("A4", (210 / 25.4 * 72, 297 / 25.4 * 72)), ("Letter", (612, 792))])
def test_the_paper_has_its_size(paper: str, size: tuple[float, float]) -> None:
    """A4 is 210 mm by 297 mm (ISO 216); Letter is 8 1/2 in by 11 in (ANSI/ASME Y14.1, size A; from memory)."""
    sheets = read(demo(paper)).pages

    assert [(float(s.mediabox.width), float(s.mediabox.height)) for s in sheets] == [
        pytest.approx(size, abs=0.1) for _ in sheets
    ]


@pytest.mark.usefixtures("pango")
@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_no_title_stands_last_on_a_page_and_no_row_is_cut(paper: str) -> None:
    survey = load_survey(DEMO)
    (audit,) = report_view([Audited("a.yaml", survey, (audit_of(survey),))], "", "0").surveys[0].audits
    sheets = [" ".join(sheet.extract_text().split()) for sheet in read(demo(paper)).pages]
    bodies = [sheet.partition("Stair check. The local authority decides.")[0].strip() for sheet in sheets]
    titles = [f"{section.title} ({section.held})" for section in audit.sections]
    rows = [f"{row.title} {row.clause}".strip() for section in audit.sections for row in section.rows
            if section.key != "unmeasured"]  # fmt: skip
    rows += [check.told for item in audit.open for check in item.checks]

    assert [title for title in titles if sum(title in body for body in bodies) != 1] == []
    assert [title for title in (audit.title, *titles) for body in bodies if body.endswith(title)] == []
    assert [row for row in rows if not any(row in body for body in bodies)] == []


BLOCK = """<section class="survey"><div style="height:{gap}mm"></div>
<h2>set{n}</h2><p class="clause">edition{n}</p><p class="headline">headline{n}</p>
<ul class="counts"><li>counts{n}</li></ul><h3>title{n}</h3>
<div class="scroll"><table class="checks"><caption>caption{n}</caption>
<thead><tr><th scope="col">Check</th><th scope="col">Part</th></tr></thead>
<tbody><tr><th scope="row">first{n}<br><span class="clause">second{n}</span></th><td>part<br>of{n}</td></tr>
<tr class="more"><td colspan="2" class="note"><div>why{n}</div><div>advice{n}</div></td></tr></tbody>
<tbody><tr><th scope="row">next{n}<br>other{n}</th><td>part</td></tr>
<tr class="more"><td colspan="2" class="note"><div>because{n}</div></td></tr></tbody></table></div></section>"""
TOGETHER = (
    ("set", "edition", "headline", "counts", "title", "caption", "first", "second", "of", "why"),
    ("next", "other", "because"),
)


@pytest.mark.usefixtures("pango")
@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_wherever_a_page_ends_a_row_stays_whole_and_a_heading_with_its_first_row(paper: str) -> None:
    blocks = [BLOCK.format(n=f"-{gap}.", gap=gap) for gap in range(150, 245, 5)]
    style = page(survey_of({"risers": ["7"]}), paper).partition("<style>")[2].partition("</style>")[0]
    made = render_pdf(SMALL.format(f"<style>{style}</style>{''.join(blocks)}"))
    sheets = [set(sheet.extract_text().split()) for sheet in read(made).pages]

    assert len(sheets) > len(blocks)
    for gap in range(150, 245, 5):
        for names in TOGETHER:
            marks = {f"{name}-{gap}." for name in names}
            assert [sheet & marks for sheet in sheets if sheet & marks] == [marks]


SMALL = "<!doctype html><html lang=en><title>t</title><body>{}</body></html>"


@pytest.mark.usefixtures("pango")
def test_the_same_page_is_the_same_bytes() -> None:
    assert demo("A4").startswith(b"%PDF-")
    assert render_pdf(page(load_survey(DEMO), "A4")) == demo("A4")


@pytest.mark.usefixtures("pango")
@pytest.mark.parametrize("epoch", [None, "1700000000", "no number"])
def test_no_clock_reaches_the_bytes_even_where_fonts_are_cut_by_the_older_library(
    epoch: str | None, monkeypatch: pytest.MonkeyPatch
) -> None:
    from fontTools.misc import timeTools

    monkeypatch.delenv("SOURCE_DATE_EPOCH", raising=False)
    monkeypatch.setattr("weasyprint.pdf.fonts.harfbuzz_subset", None)
    first = render_pdf(SMALL.format("x"))
    monkeypatch.setattr(timeTools.time, "time", lambda: 2_000_000_000.0)
    if epoch is not None:
        monkeypatch.setenv("SOURCE_DATE_EPOCH", epoch)

    assert render_pdf(SMALL.format("x")) == first
    assert os.environ.get("SOURCE_DATE_EPOCH") == epoch


DOT = "iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAQAAAC1HAwCAAAAC0lEQVR42mNk+A8AAQUBAScY42YAAAAASUVORK5CYII="
PIXEL = f"data:image/png;base64,{DOT}"


def images(body: str) -> int:
    return sum(len(sheet.images) for sheet in read(render_pdf(SMALL.format(body))).pages)


@pytest.mark.usefixtures("pango")
def test_of_every_address_only_data_is_followed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    inside = tmp_path / "inside.png"
    inside.write_bytes(base64.b64decode(DOT))
    opened: list[str] = []
    plain = OpenerDirector.open

    def watched(self: OpenerDirector, request: Any, *rest: Any, **more: Any) -> Any:
        opened.append(request.full_url)
        return plain(self, request, *rest, **more)

    monkeypatch.setattr(OpenerDirector, "open", watched)
    elsewhere = [inside.as_uri(), "FILE" + inside.as_uri()[4:], "http://localhost:9/a.png", "ftp://localhost:9/a.png"]
    body = "".join(f'<img src="{address}" alt="a">' for address in elsewhere)
    sheets = "".join(f'<link rel="stylesheet" href="{address}">' for address in elsewhere)

    assert images(body + sheets + f'<p style="background:url({elsewhere[0]})">x</p>') == 0
    assert opened == []
    assert images(f'<img src="{PIXEL}" alt="a">') == 1
    assert opened == [PIXEL]


@pytest.mark.usefixtures("pango")
def test_an_image_named_in_a_note_is_text(monkeypatch: pytest.MonkeyPatch) -> None:
    note = '<img src="file:///etc/passwd">'
    opened: list[object] = []
    monkeypatch.setattr(OpenerDirector, "open", lambda *args, **_: opened.append(args))
    made = render_pdf(page(survey_of({"risers": ["7", "8"]}, site=note, surveyor=note)))

    assert words(made).count(note) >= 2
    assert opened == []


@pytest.mark.usefixtures("pango")
def test_the_libraries_stay_quiet(capfd: pytest.CaptureFixture[str], caplog: pytest.LogCaptureFixture) -> None:
    before = logging.getLogger("weasyprint").level
    render_pdf('<html lang=en><title>t</title><style>p{nonsense:1}</style><p><img src="http://localhost:9/a.png">x')

    assert capfd.readouterr() == ("", "")
    assert caplog.records == []
    assert logging.getLogger("weasyprint").level == before


@pytest.mark.parametrize(("unit", "paper"), [("in", "Letter"), ("ft", "Letter"), ("mm", "A4"), ("cm", "A4")])
def test_the_paper_goes_with_the_unit(unit: Unit, paper: str) -> None:
    assert paper_of(unit) == paper


def check(*args: str) -> Result:
    return CliRunner().invoke(app, ["check", *args])


def inches_or_mm(units: str) -> str:
    riser = {"in": "7", "mm": "180"}[units]
    Path("s.yaml").write_text(
        f"{{format: 1, units: {units}, stairs: [{{id: s, flights: [{{id: f, risers: [{riser}, {riser}]}}]}}]}}"
    )
    return "s.yaml"


@pytest.fixture
def _own_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


@pytest.mark.usefixtures("pango", "_own_folder")
@pytest.mark.parametrize(
    ("units", "asked", "width"), [("in", [], 612), ("mm", [], 595), ("mm", ["--paper", "letter"], 612)]
)
def test_check_writes_a_pdf_on_the_paper_of_the_survey_or_as_asked(units: str, asked: list[str], width: int) -> None:
    done = check(inches_or_mm(units), "--report", "x.PDF", *asked)

    assert done.exit_code == 0
    assert done.stderr.startswith("Written: x.PDF\n")
    assert round(float(PdfReader("x.PDF").pages[0].mediabox.width)) == width


@pytest.mark.usefixtures("_own_folder")
def test_html_takes_the_paper_of_the_reader_unless_told() -> None:
    check(inches_or_mm("in"), "--report", "a.html")
    check("s.yaml", "--report", "b.html", "--paper", "A4")

    assert "@page{size" not in Path("a.html").read_text()
    assert "@page{size:A4}" in Path("b.html").read_text()


def no_pango(monkeypatch: pytest.MonkeyPatch) -> None:
    plain = builtins.__import__

    def broken(name: str, *rest: Any, **more: Any) -> Any:
        if name.partition(".")[0] == "weasyprint":
            print("many lines about an installation")
            warnings.warn("and a warning", DeprecationWarning, stacklevel=2)
            raise OSError("cannot load library 'libgobject-2.0-0'")
        return plain(name, *rest, **more)

    monkeypatch.setattr(builtins, "__import__", broken)


def no_extra(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "weasyprint", None)


@pytest.mark.usefixtures("_own_folder")
@pytest.mark.parametrize(("take_away", "line"), [(no_extra, EXTRA_LINE), (no_pango, PANGO_LINE)])
def test_what_is_missing_is_told_in_one_line_before_anything_is_read_or_written(
    take_away: Any, line: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    take_away(monkeypatch)
    done = check("not-there.yaml", "--report", "x.html", "--report", "x.pdf", "--report", "y.pdf")

    assert (done.exit_code, done.stdout, done.stderr) == (2, "", line)
    assert list(Path().iterdir()) == []


@pytest.mark.parametrize("take_away", [no_extra, no_pango])
def test_the_library_call_tells_it_too(take_away: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    take_away(monkeypatch)

    with pytest.raises(InputError, match=r"^PDF: a PDF needs the "):
        render_pdf("<p>x")
