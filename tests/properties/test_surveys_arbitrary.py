"""Whatever a survey file holds, it is read and reported on, or refused in our own words."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from stairaudit import check, load_ruleset
from stairaudit.commands.demo import SURVEY
from stairaudit.documents import read_document
from stairaudit.errors import InputError
from stairaudit.loading import survey_of
from stairaudit.output.csv_text import render_csv
from stairaudit.output.json_text import render_json
from stairaudit.output.markdown import render_markdown
from stairaudit.output.terminal import WIDTH, render_text
from stairaudit.words.results import result_data
from stairaudit.words.view import Audited, report_view

TEXT = SURVEY.read_text(encoding="utf-8")
LINES = TEXT.splitlines(keepends=True)
PIECES = st.sampled_from(
    [
        "~",
        "none",
        "[]",
        "{}",
        "7 3/4",
        "[[~, 7], 8]",
        "no",
        "0",
        "999999",
        "open",
        "wall",
        "\n",
        ": ",
        "'",
        '"',
        "é",
        "#",
    ]
)


@st.composite
def mutilated(draw: st.DrawFn) -> str:
    lines = list(LINES)
    for _ in range(draw(st.integers(1, 3))):
        at = draw(st.integers(8, len(lines) - 1))
        line = lines[at]
        head, colon, _rest = line.partition(": ")
        match draw(st.integers(0, 3)):
            case 0:
                del lines[at]
            case 1:
                lines[at] = f"{head}{colon}{draw(PIECES)}\n"
            case 2:
                cut = draw(st.integers(0, len(line)))
                lines[at] = line[:cut] + draw(PIECES) + line[cut:]
            case _:
                lines[at] = line + line
    return "".join(lines)


@settings(max_examples=150, deadline=None)
@given(mutilated())
def test_a_mutilated_survey_is_reported_on_or_refused(text: str) -> None:
    try:
        survey = survey_of(read_document(text, "a.yaml"))
    except InputError:
        return
    audits = tuple(check(survey, load_ruleset(name)) for name in ("us-irc-2021", "good-practice"))
    audited = [Audited("a.yaml", survey, audits)]
    view, data = report_view(audited, "", "0"), result_data(audited, [], "", "0")

    assert max(map(len, render_text(view).splitlines())) <= WIDTH
    assert render_markdown(view)
    assert render_csv(data)
    assert render_json(data)
    for audit in audits:
        assert {f.rule.id for f in audit.findings} == {rule.id for rule in audit.ruleset.rules}
