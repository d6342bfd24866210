"""What the words say of a finding: both ends of a range, where a value comes from, what is missing, how many."""

from __future__ import annotations

import dataclasses
import re
from html import unescape
from typing import Any

import pytest
from cases import audit_of, finding, survey_of

from stairaudit import Audit, Survey, check, load_ruleset, load_survey
from stairaudit.conditions import CONDITIONS
from stairaudit.errors import InputError
from stairaudit.measures import MEASURES
from stairaudit.output.html import render_html
from stairaudit.output.markdown import render_markdown
from stairaudit.output.terminal import render_text
from stairaudit.shipped import shipped_folder
from stairaudit.words.data_notes import DISAGREE, WORDS
from stairaudit.words.figures import in_one_unit
from stairaudit.words.missing_names import _book, _split, missing_of, plainly, topic_of
from stairaudit.words.readers import READERS, Reader
from stairaudit.words.results import finding_data, result_data
from stairaudit.words.rows import Row
from stairaudit.words.sections import sections_of
from stairaudit.words.view import Audited, ReportView, report_view

STEPS: dict[str, Any] = {"risers": ["7"] * 5, "treads": ["11"] * 4}
FEW = {**STEPS, "treads": ["11", None, "11", "11"]}


def view_of(survey: Survey, *rulesets: str, reader: Reader | None = None) -> ReportView:
    audits = tuple(check(survey, load_ruleset(name)) for name in rulesets or ("us-irc-2021",))
    return report_view([Audited("a.yaml", survey, audits)], "", "0", reader)


def text_of(survey: Survey, *rulesets: str, reader: Reader | None = None) -> str:
    return " ".join(render_text(view_of(survey, *rulesets, reader=reader)).split())


def row(audit: Audit, title: str, key: str) -> Row:
    section = next(section for section in sections_of(audit, "in") if section.key == key)
    return next(row for row in section.rows if row.title == title)


@pytest.mark.parametrize(
    ("heights", "reading", "margin", "deciding"),
    [
        (["33 1/2", "36", "40"], "33 1/2 in at the bottom, 40 in at the top", "1/2 in under and 2 in over", "40 in"),
        (["33", "39"], "33 in at the bottom, 39 in at the top", "1 in under and 1 in over", "33 in"),
        (["40", "36", "33"], "40 in at the bottom, 33 in at the top", "1 in under and 2 in over", "40 in"),
        (["33", "33 1/2", "36"], "33 in", "1 in under", "33 in"),
    ],
)
def test_a_range_that_is_left_at_both_ends_tells_both(
    heights: list[str], reading: str, margin: str, deciding: str
) -> None:
    # 34 in to 38 in is R311.7.8.1.
    audit = audit_of(survey_of({**STEPS, "handrails": [{"side": "left", "heights": heights}]}))
    told = row(audit, "Handrail height", "outside")
    data = finding_data(finding(audit, "handrail-height", "handrail left"), "in")

    assert (told.reading, told.limit, told.margin) == (reading, "34 in to 38 in", margin)
    assert data["reading"]["shown"] == deciding
    assert ("Outside at the other end too" in data["note"]) == (" and " in margin)


def test_several_rails_that_leave_a_range_at_both_ends_tell_the_whole_range() -> None:
    rails = [{"side": side, "heights": ["33", "36", "40"]} for side in ("left", "right")]
    told = row(audit_of(survey_of({**STEPS, "handrails": [*rails, {"side": "centre", "heights": ["41"]}]})),
               "Handrail height", "outside")  # fmt: skip

    assert told.reading == "33 in to 41 in"


WINDERS = {
    "form": "winder", "risers": ["7"] * 4, "width": "36", "walkline_out": "12",
    "treads": [{"narrow": "7", "walkline": "11"}, {"narrow": "7", "wide": "19"}, {"narrow": "7", "walkline": "11"}],
}  # fmt: skip


def test_only_the_part_that_was_worked_out_is_said_to_be() -> None:
    told = row(audit_of(survey_of(WINDERS)), "Winder depth at the walkline", "within")

    assert told.part == "all 3 treads"
    assert told.origin == ("Tread 2: worked out from other readings.",)
    assert told.notes == told.origin


def test_the_terminal_says_in_within_what_was_worked_out() -> None:
    assert "11 in; at least 10 in. Tread 2: worked out from other readings." in text_of(survey_of(WINDERS))


@pytest.mark.parametrize("ruleset", ["us-irc-2021", "good-practice"])
def test_headline_sections_and_json_count_findings_alike(ruleset: str) -> None:
    survey = survey_of({**FEW, "risers": ["7", "7 3/4", "8", "7", None], "handrails": "none"})
    audit = audit_of(survey, ruleset)
    (view,) = view_of(survey, ruleset).surveys[0].audits
    held = {section.key: section.held for section in view.sections}
    summary = result_data([Audited("a", survey, (audit,))], [], "", "0")["audits"][0]["summary"]
    told = [int(number) for number in re.findall(r"\d+", view.headline)]

    assert sum(held.values()) == len(audit.findings)
    assert sorted(told) == sorted(count for key, count in held.items() if key != "not-applicable")
    assert held.get("outside", 0) == summary["warn"]
    assert held.get("within", 0) + held.get("close", 0) == summary["pass"]
    assert held.get("advice", 0) == summary["advice"]
    for text in (render_html(view_of(survey, ruleset)), render_markdown(view_of(survey, ruleset))):
        assert f"{held['unmeasured']} not measured" in text
        assert f"Not measured ({held['unmeasured']})" in text


@pytest.mark.parametrize("reader", ["buyer", "builder"])
def test_the_heading_of_what_was_not_measured_counts_findings_and_says_so(reader: Reader) -> None:
    survey = survey_of(FEW)
    count = next(section.held for section in sections_of(audit_of(survey), "in") if section.key == "unmeasured")

    assert f"NOT MEASURED ({count} FINDINGS WAIT)" in text_of(survey, reader=reader)


def three(**more: Any) -> Survey:
    flights = [{"id": "f", **STEPS}]
    stairs = [{"id": name, "flights": flights, **more} for name in ("a", "b", "c")]
    return load_survey({"format": 1, "units": "in", "stairs": stairs})


def test_what_three_stairs_lack_alike_is_told_once_and_nothing_is_left_out() -> None:
    view = view_of(three(), reader="buyer").surveys[0]
    waiting = [row for section in view.audits[0].sections if section.key == "unmeasured" for row in section.rows]
    told = {(place.partition("/")[0], check.title) for item in view.open for place in item.places
            for check in item.checks}  # fmt: skip

    assert len(view.open) < len(waiting) / 6
    assert all(item.places[0][0] == "a" and len(item.places) == 3 for item in view.open)
    assert told == {(row.stair, row.title) for row in waiting}


def test_a_topic_of_which_nothing_was_told_is_one_name() -> None:
    rails = [{"side": "left", "heights": ["36"]}]
    bare = view_of(survey_of({**STEPS, "handrails": rails}), reader="buyer").surveys[0]
    round_rail = {**rails[0], "grip": {"shape": "round"}}
    lit = survey_of({**STEPS, "handrails": [round_rail]}, {"lighting": {"level": "20 lux"}})
    some = view_of(lit, reader="buyer").surveys[0]
    needs = {item.topic: item.needs for item in bare.open}
    told = {item.topic: item.needs for item in some.open}

    assert needs["Grip of the handrail"] == ("grip of the rail: not told",)
    assert needs["Light"][0] == "light on the stair: not told"
    assert told["Grip of the handrail"] == ("handrail left: diameter of the grip",)
    assert "whether every tread is lit" in told["Light"]


def test_what_was_read_so_far_stands_beside_the_check_that_waits() -> None:
    guard = {"side": "right", "openings": [{"ball": "5", "passes": "no"}]}

    assert "(read: a 5 in ball does not pass" in text_of(survey_of({**STEPS, "guards": [guard]}))


def test_how_to_measure_is_told_once_for_all_stairs() -> None:
    page = render_html(view_of(three()))
    how = next(rule.how_to_measure for rule in load_ruleset("us-irc-2021").rules if rule.id == "headroom-flight")

    assert page.replace("\u00a0", " ").count(how) == 1


def test_only_what_disagrees_is_counted_as_disagreeing() -> None:
    carpet = survey_of({**STEPS, "measured_over": "carpet"})
    count = survey_of({**STEPS, "risers": ["7"] * 4, "riser_count": "5"})
    rise = survey_of({**STEPS, "total_rise": "50"})
    doubts = [view_of(survey).surveys[0].doubts for survey in (carpet, count, rise)]

    assert [len(audit_of(survey).notes) for survey in (carpet, count)] == [1, 1]
    assert doubts[0] == (
        "The steps were read over carpet. Have them read again on the hard surface, which may be less even.",
    )
    assert doubts[1] == ()
    assert doubts[2] == ("In one place the readings do not agree with each other: have them taken again.",)
    assert set(WORDS) - DISAGREE == {
        "riser-count", "covering-mixed", "covering-at-ends", "total-rise-at-edge", "cross-slope-at-foot",
        "close-trigger",
    }  # fmt: skip
    assert set(WORDS) > DISAGREE


def test_a_builder_is_not_told_to_build_to_a_way_of_reading() -> None:
    survey = survey_of({**STEPS, "measured_over": "carpet"})
    page = render_html(view_of(survey, reader="builder"))

    assert "<strong>expected: yes</strong>" not in page
    assert "<strong>nothing to build: read again as advised</strong>" in page


def test_the_place_that_was_not_read_is_named() -> None:
    audit = audit_of(survey_of({**STEPS, "headroom": [None, "76", "79"]}))
    found = finding(audit, "headroom-flight", "flight")
    inside = finding(audit_of(survey_of({**STEPS, "headroom": ["85", "90", None]})), "headroom-flight", "flight")

    assert "Not measured besides: headroom at the bottom." in row(audit, "Headroom over the flight", "outside").notes
    assert finding_data(found, "in")["missing"] == ["headroom at the bottom"]
    assert missing_of(inside) == ("headroom at the top",)


def test_the_worst_place_along_a_guard_over_two_flights_names_the_flight() -> None:
    def flight(name: str, riser: str) -> dict[str, Any]:
        return {"id": name, "risers": [riser] * 4, "treads": ["10"] * 3, "nosings": "none", "riser_form": "closed"}

    guard = {"side": "left", "along": ["lower", "upper"], "drop": ["60"], "rake": {"rail_gap": ["2"]}}
    stair = {"id": "s", "flights": [flight("lower", "7"), flight("upper", "9")], "guards": [guard]}
    survey = load_survey({"format": 1, "units": "in", "stairs": [stair]})
    found = finding(audit_of(survey), "guard-triangle", "guard left")

    assert "Worst at: bottom of flight upper." in finding_data(found, "in")["note"]


def test_no_handrail_is_none_and_not_nought() -> None:
    told = row(audit_of(survey_of({**STEPS, "handrails": "none"})), "A handrail on the flight", "outside")

    assert (told.reading, told.limit, told.margin) == ("none", "at least 1", "")


def test_a_buyer_reads_one_unit_and_an_official_both() -> None:
    survey = survey_of({**STEPS, "risers": ["7", "203 mm", "7", "7", "7"]})

    assert "~8 in; at most 7 3/4 in; ~1/4 in over" in text_of(survey, reader="buyer")
    assert "mm)" not in text_of(survey, reader="buyer").partition("Not measured")[0]
    assert "~8 in (7.992 in, 203 mm)" in text_of(survey, reader="official")


def test_one_unit_keeps_what_is_no_length() -> None:
    read = ("1:38.2 (2.6 %)", "at least 32 in (the door width)", "0.5 % over")

    assert in_one_unit(*read) == read


def test_how_figures_are_known_is_told_once() -> None:
    survey, one = survey_of(STEPS), load_ruleset("us-irc-2021")
    sentence = next(note for note in one.notes if note.startswith("How it is known"))
    audits = tuple(check(survey, ruleset) for ruleset in (one, dataclasses.replace(one, id="other")))
    view = report_view([Audited("a", survey, audits)], "", "0")
    for text in (render_text(view), render_markdown(view), unescape(render_html(view))):
        told = " ".join(text.replace("\\", "").split())
        assert (told.count(sentence), told.count("How it is known: as for us-irc-2021.")) == (1, 1)
    assert "How it is known: as for" not in text_of(survey_of(STEPS))


PARTLY: dict[str, Any] = {
    "risers": ["7", None, "7"], "treads": ["10", None], "nosings": ["1", None, None], "riser_form": "open",
    "handrails": [{"side": "left"}, {}], "guards": [{"side": "left"}], "sides": {"left": {"drop": "40"}},
    "landings": {
        "top": {"sides": {"left": {"drop": "40"}}, "guards": [{"side": "left"}], "door": {}},
        "bottom": {"sides": {}}, "middle": [{}],
    },
}  # fmt: skip
SPIRAL = {"form": "spiral", "risers": ["7"] * 4, "treads": [{"narrow": "5"}, {"walkline": "8"}, {"wide": "9"}]}
ABOUT = {"lighting": {}, "under_stair": {}, "glazing": [{}], "guards": [{"side": "left", "along": ["f"]}]}
PLAIN = re.compile(
    r"(riser|tread|nosing) (\d+|top)|landings?( \w+)?( \d+)?( side \w+)?|guards|handrails|headroom|risers|width|pitch"
    r"|side \w+|.* at the (top|bottom|left|right|middle)"
)


@pytest.mark.parametrize("ruleset", sorted(path.stem for path in shipped_folder().glob("*.yaml")))
def test_every_name_that_a_shipped_set_can_miss_has_plain_words(ruleset: str) -> None:
    names = {
        name
        for flight in ({}, PARTLY, SPIRAL)
        for use in ("one-dwelling", "shared-dwelling", "workplace", "public")
        for finding in audit_of(survey_of(flight, {"use": use, **(ABOUT if flight else {})}), ruleset).findings
        for name in missing_of(finding)
    }
    bare = {name for name in names if _split(name) == ("", name) and name not in _book()["names"]}
    endings = {name for name in names for part, words in [_split(name)] if part and words == name[len(part) + 1 :]}

    assert {name for name in bare if not PLAIN.fullmatch(name)} == set()
    assert {name for name in endings if name[len(_split(name)[0]) + 1 :] not in _book()["of_parts"]} == set()


def test_every_condition_has_plain_words() -> None:
    told = _book()["names"]

    assert [c.missing for c in CONDITIONS.values() if c.missing not in told and not PLAIN.fullmatch(c.missing)] == []


@pytest.mark.parametrize(
    ("measure", "topic"),
    [("treads-lit", "Light"), ("landing-guard-height", "Guards on landings"), ("grip-depth", "Grip of the handrail"),
     ("landing-handrail-count", "Handrails"), ("door-width", "Doors"), ("walkline-depth", "Treads")],
)  # fmt: skip
def test_a_measure_belongs_to_its_topic(measure: str, topic: str) -> None:
    assert topic_of(measure).name == topic


def test_every_topic_has_a_measure() -> None:
    assert {topic_of(name).name for name in MEASURES} == {topic["name"] for topic in _book()["topics"]}


def test_what_is_missing_of_one_part_stands_together() -> None:
    names = ("handrail left clearance", "drop", "handrail left grip recess depth at", "landing bottom sides")

    assert plainly(names) == (
        "handrail left: clearance to the wall, how low the finger recess is deepest",
        "how far it falls beside the open side",
        "landing bottom: which sides are open",
    )


@pytest.mark.parametrize("reader", [*READERS, None])
def test_a_photo_of_a_part_that_is_not_listed_is_in_every_document(reader: Reader | None) -> None:
    photo = {"file": "p/a post.jpg", "shows": "newel post", "caption": "The post"}
    survey = survey_of({**STEPS, "photos": [photo]}, {"name": "Back steps"})
    view = view_of(survey, reader=reader)

    assert "Back steps, flight f, newel post: p/a post.jpg (The post)" in " ".join(render_text(view).split())
    assert "- Back steps, flight f, newel post: [The post](p/a%20post.jpg)" in render_markdown(view)
    assert 'newel post: <a href="p/a%20post.jpg">The post</a>' in render_html(view)


LANDINGS = {
    "f": {"top": {"same_as": "g landing bottom"}}, "g": {"bottom": {"same_as": "h landing bottom"}},
    "h": {"bottom": {"width": "36"}},
}  # fmt: skip


@pytest.mark.parametrize(
    ("changed", "message"),
    [
        (
            {},
            "survey: stair 's', flight 'f', landing top, same as: 'g landing bottom' is itself told as the same as "
            "'h landing bottom'; name 'h landing bottom'",
        ),
        (
            {"g": {"bottom": {"same_as": "f landing top"}}},
            "survey: stair 's', flight 'f', landing top, same as: 'g landing bottom' is itself told as the same as "
            "'f landing top'; name one that is told in full (h landing bottom)",
        ),
        (
            {"f": {"top": {"same_as": "x landing top"}}},
            "survey: stair 's', flight 'f', landing top, same as: no landing is told as 'x landing top'; accepted: "
            "h landing bottom",
        ),
    ],
)
def test_a_chain_or_ring_of_shared_landings_is_told_as_one(changed: dict[str, Any], message: str) -> None:
    flights = [{"id": name, "landings": landings} for name, landings in {**LANDINGS, **changed}.items()]
    with pytest.raises(InputError) as caught:
        load_survey({"format": 1, "units": "in", "stairs": [{"id": "s", "flights": flights}]})

    assert message in str(caught.value).splitlines()


@pytest.mark.parametrize("odd", [{"a": "1"}, ["a"]])
def test_a_group_in_place_of_a_landing_is_a_problem_and_no_defect(odd: Any) -> None:
    flights = [{"id": "f", "landings": {"top": {"same_as": odd}}}]
    guards = [{"side": "left", "along": [odd]}]
    with pytest.raises(InputError) as caught:
        load_survey({"format": 1, "units": "in", "stairs": [{"id": "s", "flights": flights, "guards": guards}]})

    assert all("text is needed here" in str(problem) for problem in caught.value.problems)


ODD: list[Any] = ["x\x1b", "", "none", "99999", "-1", {"a": "1"}, ["a", ["b"]], {"again": []}, {"again": ["x"]}, [{}]]


@pytest.mark.parametrize("odd", ODD, ids=repr)
def test_no_message_speaks_of_the_machinery(odd: Any) -> None:
    from stairaudit.survey import Flight

    told = []
    for key in Flight.model_fields:
        try:
            survey_of({**STEPS, key: odd})
        except InputError as error:
            told.append(str(error))

    assert len(told) > 10
    assert not [text for text in told if re.search(r"(?i)error,|input should|valid ", text)]
