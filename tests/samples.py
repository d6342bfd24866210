"""Writes the sample documents of the demo into reports/; `python tests/samples.py` brings them up to date."""

from __future__ import annotations

from pathlib import Path

ROOT = Path(__file__).parent.parent
REPORTS = ROOT / "reports"


def samples() -> dict[str, bytes]:
    """Return every sample document by name."""
    from stairaudit import check, load_ruleset
    from stairaudit.commands.demo import SURVEY
    from stairaudit.loading import read_survey_file, survey_of
    from stairaudit.output.csv_text import render_csv
    from stairaudit.output.html import render_html
    from stairaudit.output.json_text import render_json
    from stairaudit.output.markdown import render_markdown
    from stairaudit.output.terminal import render_text
    from stairaudit.words.readers import READERS
    from stairaudit.words.results import result_data
    from stairaudit.words.view import Audited, report_view

    survey = survey_of(read_survey_file(SURVEY))
    audits = tuple(check(survey, load_ruleset(name)) for name in survey.rulesets or ())
    audited = [Audited(SURVEY.name, survey, audits)]
    view = report_view(audited, "2026-04-18", "sample")
    data = result_data(audited, [], "2026-04-18", "sample")
    texts = {
        "demo.txt": render_text(view),
        "demo.md": render_markdown(view),
        "demo.html": render_html(view),
        "demo.json": render_json(data),
        "demo.csv": render_csv(data),
    }
    for reader in READERS:
        texts[f"demo-for-{reader}.html"] = render_html(report_view(audited, "2026-04-18", "sample", reader))
    return {name: text.encode() for name, text in texts.items()}


if __name__ == "__main__":
    REPORTS.mkdir(exist_ok=True)
    for name, content in samples().items():
        (REPORTS / name).write_bytes(content)
