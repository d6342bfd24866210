"""Slips and escapes that both parsers must treat alike; messages and positions are our own."""

from __future__ import annotations

import pytest

from stairaudit.documents import read_document
from stairaudit.errors import InputError

INCH = "a value in double quotes contains an inch mark; leave the quotes off, or write in for the inch mark"
OPEN = "a quote is opened here and not closed; close it, or leave the quotes off"
HALF = "half of a \\u pair stands in this text; write both halves, or the character itself"


pytestmark = pytest.mark.usefixtures("each_parser")


def told(text: str, file: str = "s.yaml") -> str:
    with pytest.raises(InputError) as caught:
        read_document(text, file)
    return str(caught.value)


def test_an_escaped_surrogate_pair_in_yaml_is_its_character() -> None:
    assert read_document('{a: "\\ud83d\\ude00", b: \\ud83d}', "s.yaml").data == {"a": "😀", "b": "\\ud83d"}


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ('a: "\\ud83d"', f"s.yaml:1:4: {HALF}"),
        ('a: 1\nb: "7 3/4""\nc: 3\n', f"s.yaml:2:4: {INCH}"),
        ('s:\n  - "7 3/4""\n  - "8""\n', f"s.yaml:2:5: {INCH}"),
        ('s:\n  - {riser: "7 3/4"", tread: 10}\n', f"s.yaml:2:13: {INCH}"),
        ('note: "the 7" riser"\n', f"s.yaml:1:7: {INCH}"),
        ('a: "abc\nb: 3\n', f"s.yaml:1:4: {OPEN}"),
        ("a: 'abc\nb: 3\n", f"s.yaml:1:4: {OPEN}"),
        ("a: {\n\tb: 1}\n", "s.yaml:2:1: a tab stands at the start of this line; indent with spaces"),
    ],
)
def test_a_slip_in_yaml_is_told_at_its_beginning(text: str, message: str) -> None:
    assert told(text) == message


def test_three_thousand_brackets_are_told_as_depth() -> None:
    assert told("[" * 3000).endswith(": nested more than 40 deep; a survey needs far less")


@pytest.mark.parametrize("word", ["NaN", "Infinity", "-Infinity"])
def test_json_says_what_to_write_for_a_missing_number(word: str) -> None:
    expected = f"s.json:1:7: {word} is no reading; write null where nothing was measured"
    assert told(f'{{"a": {word}}}', "s.json") == expected


def test_json_names_a_comma_too_many_in_a_list() -> None:
    expected = "s.json:1:4: ']' stands where a value is needed; no comma follows the last entry"
    assert told("[1,]", "s.json") == expected


def test_json_counts_a_lone_carriage_return_as_a_line() -> None:
    document = read_document('{"a":\r1}', "s.json")
    assert document.mark(("a",)) == (2, 1)
