"""The command line from outside: exit status, standard output and standard error apart."""

from __future__ import annotations

import csv
import io
import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from stairaudit.cli import app
from stairaudit.commands.schema import schema_of

FIVE = """\
format: 1
units: in
stairs:
  - id: porch
    flights:
      - id: main
        risers: [{risers}]
"""


@pytest.fixture(autouse=True)
def _own_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("SOURCE_DATE_EPOCH", raising=False)


def run(*args: str, text: str | bytes | None = None) -> Result:
    return CliRunner().invoke(app, list(args), input=text)


def steps(risers: str = "7 1/2, 7 1/2, 7 5/8, 7 1/2, 7 1/2", name: str = "steps.yaml") -> str:
    Path(name).write_text(FIVE.format(risers=risers), encoding="utf-8")
    return name


def test_five_risers_give_a_useful_answer() -> None:
    done = run("check", steps())

    assert done.exit_code == 0
    assert "15 findings in line with the advice, 10 not measured, strength not assessed." in " ".join(
        done.stdout.split()
    )
    assert done.stderr == (
        "No rule set was named: good-practice (advice only) was used. Others: stairaudit rulesets\n"
        "1 figure used here is known from memory only; look in the document.\n"
    )


def test_a_reading_outside_exits_with_1() -> None:
    assert run("check", steps("7, 8, 7, 7, 7"), "-r", "us-irc-2021").exit_code == 1


def test_advice_never_raises_the_exit_status() -> None:
    done = run("check", steps("8 1/2, 8 1/2, 8 1/2, 8 1/2"))

    assert done.exit_code == 0
    assert "worth a look" in done.stdout


def test_strict_counts_what_was_not_measured() -> None:
    assert run("check", steps(), "-r", "us-irc-2021").exit_code == 0
    assert run("check", steps(), "-r", "us-irc-2021", "--strict").exit_code == 1


def test_guarded_counts_a_close_reading_as_outside() -> None:
    name = steps("7 3/4, 7 3/4, 7 3/4")

    assert run("check", name, "-r", "us-irc-2021").exit_code == 0
    assert run("check", name, "-r", "us-irc-2021", "--decision", "guarded").exit_code == 1


def test_nothing_that_could_be_checked_exits_with_2() -> None:
    Path("empty.yaml").write_text("format: 1\nstairs: [{id: a, flights: [{id: b}]}]\n")
    done = run("check", "empty.yaml", "-r", "us-irc-2021")

    assert done.exit_code == 2
    assert done.stderr == "Nothing could be checked: no reading met a rule that applies.\n"


def test_a_sample_within_every_figure_says_that_it_never_passes_and_exits_with_0() -> None:
    flight = "sampled: yes, riser_count: 12, tallest: 7 1/4, shortest: 7 1/8"
    text = f"format: 1\nunits: in\nstairs: [{{id: s, flights: [{{id: f, {flight}}}]}}]"
    done = run("check", "-", "-r", "us-irc-2021", text=text)

    assert done.exit_code == 0
    assert done.stderr == "A sample may warn and never pass; nothing lies outside.\n"
    assert run("check", "-", "-r", "us-irc-2021", "--strict", text=text).exit_code == 1
    assert run("check", "-", "-r", "us-irc-2021", text=text.replace("7 1/4", "8")).exit_code == 1


def test_a_reading_of_which_a_gap_keeps_a_pass_was_set_beside_its_figure() -> None:
    text = "format: 1\nunits: in\nstairs: [{id: s, flights: [{id: f, headroom: [~, 90]}]}]"
    done = run("check", "-", "-r", "us-irc-2021", text=text)

    assert done.exit_code == 0
    assert done.stderr == "Readings of which some are missing may warn and never pass; nothing lies outside.\n"


def test_a_reading_whose_clause_may_not_apply_was_set_beside_nothing() -> None:
    rails = "[{side: left, clearance: 2}]"
    text = f"format: 1\nunits: in\nstairs: [{{id: s, flights: [{{id: f, handrails: {rails}}}]}}]"
    own = {"format": "1", "id": "own", "title": "Own", "rules": [
        {"id": "clear", "clause": "1.2", "title": "Clearance", "measure": "handrail-clearance", "provenance": "seen",
         "limit": {"at-least": "1 in"}, "when": {"beside-wall": "yes"}},
    ]}  # fmt: skip
    Path("own.json").write_text(json.dumps(own))
    done = run("check", "-", "-r", "./own.json", text=text)

    assert (done.exit_code, done.stderr) == (2, "Nothing could be checked: no reading met a rule that applies.\n")


def test_an_id_that_cannot_be_is_written_in_one_way() -> None:
    done = run("check", "-", text='format: 1\nstairs: [{id: "a\\x1b b", flights: [{id: f}]}]')

    assert done.stderr == (
        "standard input:2:15: stair 'a\\x1b b', id: 'a\\x1b b' stands here; use a to z, 0 to 9, dash, dot and "
        "underscore, without spaces\n"
    )


def test_standard_input_is_read() -> None:
    done = run("check", "-", text=FIVE.format(risers="7, 7"))

    assert done.exit_code == 0


def test_one_run_makes_every_document() -> None:
    done = run(
        "check", steps("7, 8, 7"), "-r", "us-irc-2021", "--report", "a.html", "--report", "a.md",
        "--report", "a.csv", "--report", "a.json", "--json",
    )  # fmt: skip

    assert done.exit_code == 1
    assert done.stderr == "Written: a.html\nWritten: a.md\nWritten: a.csv\nWritten: a.json\n"
    assert json.loads(done.stdout) == json.loads(Path("a.json").read_text())
    assert Path("a.html").read_text().startswith("<!doctype html>")
    assert Path("a.md").read_text().startswith("# Stair check: porch")
    assert Path("a.csv").read_bytes().startswith(b"\xef\xbb\xbffile,site,date,")


def test_a_document_that_exists_is_left_alone_without_force() -> None:
    Path("a.md").write_text("mine")
    done = run("check", steps(), "--report", "a.md")

    assert (done.exit_code, done.stdout) == (2, "")
    assert done.stderr == "a.md: is there already; use --force to write over it\n"
    assert Path("a.md").read_text() == "mine"
    assert run("check", steps(), "--report", "a.md", "--force").exit_code == 0
    assert Path("a.md").read_text() != "mine"


def test_bad_options_are_told_all_at_once_and_nothing_is_written() -> None:
    done = run("check", steps(), "--report", "a.doc", "--report", "b.html", "--report", "b.html")

    assert done.exit_code == 2
    assert done.stderr == (
        "a.doc: no document is written as .doc; accepted: .html .md .csv .json .pdf\n"
        "b.html: is named twice; name each document once\n"
    )
    assert not Path("b.html").exists()


def test_an_unreadable_survey_alone_leaves_standard_output_empty() -> None:
    done = run("check", steps("7 3/5, 7"), "--json")

    assert (done.exit_code, done.stdout) == (2, "")
    assert done.stderr.startswith("steps.yaml:7:18: stair 'porch', flight 'main', riser 1: ")


def test_good_surveys_are_checked_beside_bad_ones() -> None:
    done = run("check", steps("7 3/5"), steps("7, 7", "good.yaml"), "missing.yaml", "--json")
    data = json.loads(done.stdout)

    assert done.exit_code == 2
    assert [audit["survey"]["file"] for audit in data["audits"]] == ["good.yaml"]
    assert [problem["file"] for problem in data["problems"]] == ["steps.yaml", "missing.yaml"]


def test_an_unknown_rule_set_names_the_near_one() -> None:
    done = run("check", steps(), "-r", "us-irc-2022")

    assert done.exit_code == 2
    assert "no rule set is called 'us-irc-2022'; did you mean 'us-irc-20" in done.stderr


def test_several_rule_sets_make_one_result() -> None:
    data = json.loads(run("check", steps(), "-r", "us-irc-2021", "-r", "good-practice", "--json").stdout)

    assert [audit["ruleset"]["id"] for audit in data["audits"]] == ["us-irc-2021", "good-practice"]


def test_the_result_follows_its_schema() -> None:
    import jsonschema

    data = json.loads(run("demo", "--survey").stdout and run("check", demo_file(), "--json").stdout)

    jsonschema.validate(data, schema_of("result"))


def demo_file() -> str:
    Path("demo.yaml").write_text(run("demo", "--survey").stdout, encoding="utf-8")
    return "demo.yaml"


def test_the_demo_survey_follows_the_schema_for_editors() -> None:
    import jsonschema
    import yaml

    jsonschema.validate(yaml.load(run("demo", "--survey").stdout, yaml.BaseLoader), schema_of("survey"))


def test_shipped_rule_sets_follow_the_schema_for_editors() -> None:
    import jsonschema
    import yaml

    from stairaudit.shipped import shipped_folder

    for path in shipped_folder().glob("*.yaml"):
        jsonschema.validate(yaml.load(path.read_text(encoding="utf-8"), yaml.BaseLoader), schema_of("ruleset"))


def test_the_demo_prints_and_writes_a_page() -> None:
    done = run("demo")

    assert done.exit_code == 0
    assert "OUTSIDE THE PUBLISHED FIGURE" in done.stdout
    assert done.stdout.endswith("The same as a page with a drawing: stairaudit-demo.html\n")
    assert max(map(len, done.stdout.splitlines())) <= 80
    assert "<svg" in Path("stairaudit-demo.html").read_text()
    assert run("demo").exit_code == 0


def test_the_issue_date_is_given_or_taken_from_the_survey() -> None:
    name = demo_file()
    told = json.loads(run("check", name, "--json", "--date", "2026-05-01").stdout)
    own = json.loads(run("check", name, "--json").stdout)

    assert (told["date"], own["date"]) == ("2026-05-01", "2026-04-18")
    assert run("check", name, "--date", "May").stderr == "--date: 'May' is no date; write it as 2026-04-18\n"


def test_source_date_epoch_sets_the_issue_date(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1767225600")

    assert json.loads(run("check", demo_file(), "--json").stdout)["date"] == "2026-01-01"


def test_a_spreadsheet_takes_no_cell_for_a_formula() -> None:
    text = FIVE.format(risers="7, 8").replace("id: porch", "id: porch\n    name: =HYPERLINK(1)")
    run("check", "-", "-r", "us-irc-2021", "--report", "a.csv", text="site: =1+1\n" + text)
    rows = list(csv.reader(io.StringIO(Path("a.csv").read_text(encoding="utf-8-sig"))))

    assert rows[1][1] == "'=1+1"
    assert not [cell for row in rows for cell in row if cell[:1] in "=+@" and cell]


def test_control_characters_in_names_are_shown_and_never_sent() -> None:
    text = FIVE.format(risers="7, 8").replace("id: porch", 'id: porch\n    name: "a\\u001b[31mb\\u202e"')
    done = run("check", "-", "--report", "a.md", "--report", "a.html", "--report", "a.csv", text=text)

    for sent in (done.stdout, Path("a.md").read_text(), Path("a.html").read_text(), Path("a.csv").read_text()):
        assert "\x1b" not in sent
        assert "\u202e" not in sent
    assert "a\\u001b[31mb" in done.stdout


def test_windows_files_are_read() -> None:
    Path("w.yaml").write_bytes(b"\xef\xbb\xbf" + FIVE.format(risers="7, 7").replace("\n", "\r\n").encode())

    assert run("check", "w.yaml").exit_code == 0


def test_a_defect_is_one_line_and_status_3(monkeypatch: pytest.MonkeyPatch) -> None:
    import stairaudit.commands.check as command

    def broken(*_: object) -> None:
        raise KeyError("x")

    monkeypatch.setattr(command, "_audited", broken)
    done = run("check", steps())

    assert (done.exit_code, done.stdout) == (3, "")
    assert done.stderr == (
        "stairaudit met a defect of its own (KeyError). Please report it, with the file if you can; "
        "stairaudit --debug shows details.\n"
    )


def test_an_interrupt_exits_with_130(monkeypatch: pytest.MonkeyPatch) -> None:
    import stairaudit.commands.check as command

    def interrupted(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(command, "_audited", interrupted)

    assert run("check", steps()).exit_code == 130


def test_a_closed_pipe_is_no_defect() -> None:
    command = f'"{sys.executable}" -c "from stairaudit.cli import run; run()" rulesets measures | head -1'
    done = subprocess.run(["bash", "-c", command], capture_output=True, text=True, check=False, env=_with_package())

    assert done.stderr == ""


def _with_package() -> dict[str, str]:
    return {**os.environ, "PYTHONPATH": str(Path(__file__).parents[2])}


def test_rule_sets_are_listed_shown_and_explained() -> None:
    assert "us-irc-2021: One dwelling, United States model code, 2021" in run("rulesets").stdout
    assert run("rulesets").stdout == run("rulesets", "list").stdout
    shown = run("rulesets", "show", "us-irc-2021", "riser-height-max").stdout
    assert "Limit: at most 7 3/4 in (196.85 mm)" in shown
    assert "Unless: form: spiral or ship-ladder or alternating-tread" in shown
    done = run("rulesets", "show", "us-irc-2021", "riser-height")
    assert (done.exit_code, done.stdout) == (2, "")
    assert done.stderr == "us-irc-2021: no rule is called 'riser-height'; did you mean 'riser-height-max'?\n"


def test_measures_and_conditions_are_listed() -> None:
    assert run("rulesets", "measures").stdout.startswith("riser-height: length [nm]\n")
    assert "riser-count" in run("rulesets", "conditions").stdout


@pytest.mark.parametrize(
    "command",
    [[], ["check"], ["demo"], ["schema"], ["rulesets"], ["rulesets", "list"], ["rulesets", "show"],
     ["rulesets", "validate"], ["rulesets", "measures"], ["rulesets", "conditions"]],
)  # fmt: skip
def test_every_help_has_an_example(command: list[str]) -> None:
    done = run(*command, "--help")

    assert done.exit_code == 0
    assert "stairaudit " in done.stdout.split("\n", 2)[2]
    assert "Example" in done.stdout or not command


def test_completion_offers_rule_set_ids() -> None:
    from stairaudit.cli_rulesets import ids

    assert ids("us-irc-2021") == ["us-irc-2021"]


def test_the_version() -> None:
    from stairaudit import __version__

    assert run("--version").stdout == f"stairaudit {__version__}\n"


def test_no_absolute_path_reaches_a_document(tmp_path: Path) -> None:
    path = tmp_path / steps()
    done = run("check", str(path), "--json")

    assert json.loads(done.stdout)["audits"][0]["survey"]["file"] == "steps.yaml"
    assert str(tmp_path) not in done.stdout


def test_the_same_input_gives_the_same_bytes() -> None:
    name = demo_file()
    for number in ("1", "2"):
        run("check", name, "--report", f"{number}.html", "--report", f"{number}.json", "--report", f"{number}.csv")

    for kind in ("html", "json", "csv"):
        assert Path(f"1.{kind}").read_bytes() == Path(f"2.{kind}").read_bytes()


@pytest.mark.parametrize(
    ("redirect", "message"),
    [
        (">&-", "The result cannot be written: standard output is closed.\n"),
        (">/dev/full", "The result cannot be written: No space left on device.\n"),
    ],
)
def test_an_output_that_cannot_be_written_is_told(redirect: str, message: str) -> None:
    name = steps()
    command = f'"{sys.executable}" -c "from stairaudit.cli import run; run()" check {name} -r us-irc-2021 {redirect}'
    done = subprocess.run(["bash", "-c", command], capture_output=True, text=True, check=False, env=_with_package())

    assert (done.returncode, done.stderr) == (2, message)


def test_a_survey_named_twice_and_a_report_over_a_survey_are_refused() -> None:
    name = steps()
    Path("b.json").write_text('{"format": 1, "stairs": [{"id": "a", "flights": [{"id": "b"}]}]}')
    done = run("check", name, name, "b.json", "--report", "./b.json", "--force")

    assert done.exit_code == 2
    assert done.stderr == (
        "b.json: is read in this run; name another file for the document\n"
        "steps.yaml: is named twice; name each survey once\n"
    )


def test_the_headline_counts_what_stands_below_it() -> None:
    text = FIVE.format(risers="7, 7, 7 1/2, 7") + "        handrails: none\n        landings: {bottom: none}\n"
    done = run("check", "-", "-r", "us-irc-2021", text=text)

    told = re.search(r"(\d+) findings within, (\d+) outside, (\d+) not measured,", " ".join(done.stdout.split()))
    assert told
    assert told[2] == "3"
    for title, count in zip(("WITHIN", "OUTSIDE THE PUBLISHED FIGURE", "NOT MEASURED"), told.groups(), strict=True):
        assert re.search(rf"^{title}[A-Z ]* \({count} findings\)$", done.stdout, re.M)


def test_notes_of_the_person_stand_in_every_document() -> None:
    text = "notes: wet day\n" + FIVE.format(risers="7, 7") + "        notes: left side worn\n"
    done = run("check", "-", "--json", "--report", "a.md", "--report", "a.html", text=text)

    assert json.loads(done.stdout)["audits"][0]["survey"]["notes"] == [
        {"about": "Note", "text": "wet day"},
        {"about": "Note on flight porch/main", "text": "left side worn"},
    ]
    for name in ("a.md", "a.html"):
        assert "wet day" in Path(name).read_text()
        assert "left side worn" in Path(name).read_text()


def test_a_bad_epoch_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "9" * 20)

    assert run("check", steps()).stderr == (
        "SOURCE_DATE_EPOCH: '99999999999999999999' is no number of seconds since 1970; set it right, or give --date\n"
    )


def test_every_help_fits_80_columns() -> None:
    for command in ([], ["check"], ["demo"], ["schema"], ["rulesets"], ["rulesets", "show"]):
        assert max(map(len, run(*command, "--help").stdout.splitlines())) <= 80


@pytest.mark.parametrize("reader", ["buyer", "builder", "official"])
def test_a_document_and_the_text_are_for_the_reader_named(reader: str) -> None:
    done = run("check", demo_file(), "--for", reader, "--report", "a.html", "--report", "a.md", "--report", "a.csv")
    plain = run("check", "demo.yaml", "--report", "all.csv")

    first = done.stdout.splitlines()[0]
    assert first.startswith({"official": "For the office"}.get(reader, f"For a {reader}"))
    assert first in Path("a.html").read_text()
    assert first in Path("a.md").read_text()
    assert (done.exit_code, plain.exit_code) == (1, 1)
    assert Path("a.csv").read_bytes() == Path("all.csv").read_bytes()
    assert max(map(len, done.stdout.splitlines())) <= 80


def test_json_holds_everything_for_every_reader() -> None:
    assert run("check", demo_file(), "--for", "buyer", "--json").stdout == run("check", "demo.yaml", "--json").stdout


def test_an_unknown_reader_is_refused() -> None:
    done = run("check", steps(), "--for", "lawyer")

    assert (done.exit_code, done.stdout) == (2, "")
    assert "'buyer', 'builder', 'official'" in done.stderr


def test_what_to_look_at_first_stands_at_the_top_also_for_nobody_in_particular() -> None:
    lines = run("check", steps("7, 9, 7, 7"), "-r", "us-irc-2021").stdout.splitlines()

    assert "LOOK AT FIRST (2 OF 2)" in lines[:6]
    assert " 1. Riser spread in a flight, flight: 2 in; at most 3/8 in; 1 5/8 in over" in lines[:7]


def test_the_client_and_what_could_not_be_reached_stand_in_the_result() -> None:
    text = "client: R. Alder\naccess: the cellar side\nweather: frost\n" + FIVE.format(risers="7, 7")
    survey = json.loads(run("check", "-", "--json", text=text).stdout)["audits"][0]["survey"]

    assert (survey["client"], survey["access"], survey["weather"]) == ("R. Alder", "the cellar side", "frost")
