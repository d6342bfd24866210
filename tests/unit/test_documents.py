"""Reading YAML and JSON: the data, where everything stands, and what is refused in which words.

The positions and messages are our own; no published source applies. What is legal JSON is RFC 8259, section 7
for escapes and surrogate pairs, section 6 for numbers (from memory).
"""

from __future__ import annotations

import subprocess
import sys

import pytest

from stairaudit import documents
from stairaudit.documents import Document, read_document
from stairaudit.errors import InputError, Mark

SAVE = "save the file as UTF-8 (in the save dialog of the editor)"
QUOTE = "put the text in single quotes if it is meant as text"
INCH = "a value in double quotes contains an inch mark; leave the quotes off, or write in for the inch mark"


pytestmark = pytest.mark.usefixtures("each_parser")


def told(text: bytes | str, file: str = "s.yaml") -> str:
    with pytest.raises(InputError) as caught:
        read_document(text, file)
    return str(caught.value)


def data(text: bytes | str, file: str = "s.yaml") -> object:
    return read_document(text, file).data


@pytest.mark.parametrize(
    "typed", ["6:8", "010", "no", "yes", "true", "1e3", "7.80", "1_000", "2026-04-18", '7 3/4"', "2' 11 5/16\""]
)
def test_a_plain_yaml_scalar_stays_as_typed(typed: str) -> None:
    assert data(f"a: {typed}") == {"a": typed}
    assert data(f"a: [{typed}, x]") == {"a": [typed, "x"]}


@pytest.mark.parametrize(("typed", "value"), [("", None), ("~", None), ("null", None)])
def test_nothing_is_none_when_plain(typed: str, value: None) -> None:
    assert data(f"a: {typed}") == {"a": value}


@pytest.mark.parametrize("typed", ["", "~", "null"])
def test_a_quoted_nothing_is_text(typed: str) -> None:
    assert data(f"a: '{typed}'") == {"a": typed}
    assert data(f'{{"a": "{typed}"}}', "s.json") == {"a": typed}


def test_json_leaves_are_text_or_none() -> None:
    text = '{"a": 7.80, "b": -0, "c": 1E+3, "d": true, "e": false, "f": null, "g": []}'
    assert data(text, "s.json") == {
        "a": "7.80", "b": "-0", "c": "1E+3", "d": "yes", "e": "no", "f": None, "g": []
    }  # fmt: skip


def test_yaml_and_json_twins_give_equal_data() -> None:
    block = "units: in\nrisers:\n  - 7.80\n  - ~\n  - {again: [6, 010]}\ncontinuous: yes\nempty: {}\n"
    twin = '{"units": "in", "risers": [7.80, null, {"again": [6, "010"]}], "continuous": true, "empty": {}}'
    assert data(block) == data(twin, "s.json")


@pytest.mark.parametrize(
    ("file", "value"), [("s.json", "yes"), ("S.JSON", "yes"), ("-", "yes"), ("s.yaml", "true"), ("s.YML", "true")]
)
def test_the_name_picks_the_reader_and_else_the_look(file: str, value: str) -> None:
    assert data(' {\n "a": true}', file) == {"a": value}


def test_text_without_a_name_that_is_no_json_is_yaml() -> None:
    assert data("{a: true}", "-") == {"a": "true"}
    assert data("a: true", "-") == {"a": "true"}


@pytest.mark.parametrize("file", ["s.yaml", "s.json"])
@pytest.mark.parametrize("text", [b"", b"\n \n", b"\xef\xbb\xbf"])
def test_an_empty_file_holds_nothing(text: bytes, file: str) -> None:
    assert data(text, file) is None


def test_a_file_of_comments_holds_nothing() -> None:
    assert read_document("# later\n", "s.yaml") == Document("s.yaml", None, {}, {})


def test_marks_of_block_style() -> None:
    document = read_document("stairs:\n  - id: porch\n    width: 40\n  - id: cellar\n", "s.yaml")
    assert document.marks == {
        (): Mark(1, 1),
        ("stairs",): Mark(2, 3),
        ("stairs", 0): Mark(2, 5),
        ("stairs", 0, "id"): Mark(2, 9),
        ("stairs", 0, "width"): Mark(3, 12),
        ("stairs", 1): Mark(4, 5),
        ("stairs", 1, "id"): Mark(4, 9),
    }
    assert document.key_marks == {
        ("stairs",): Mark(1, 1),
        ("stairs", 0, "id"): Mark(2, 5),
        ("stairs", 0, "width"): Mark(3, 5),
        ("stairs", 1, "id"): Mark(4, 5),
    }


@pytest.mark.parametrize("file", ["s.yaml", "s.json"])
def test_marks_of_flow_style_are_the_same_in_both_formats(file: str) -> None:
    document = read_document('{"a": [1, {"b": "x"}],\r\n  "😀": null}', file)
    assert document.marks == {
        (): Mark(1, 1),
        ("a",): Mark(1, 7),
        ("a", 0): Mark(1, 8),
        ("a", 1): Mark(1, 11),
        ("a", 1, "b"): Mark(1, 17),
        ("😀",): Mark(2, 8),
    }
    assert document.key_marks == {("a",): Mark(1, 2), ("a", 1, "b"): Mark(1, 12), ("😀",): Mark(2, 3)}


def test_a_column_counts_characters() -> None:
    assert read_document("{😀é: x}", "s.yaml").mark(("😀é",)) == Mark(1, 6)


def test_a_byte_order_mark_moves_no_column() -> None:
    assert read_document(b"\xef\xbb\xbfa: 1", "s.yaml").mark(("a",)) == Mark(1, 4)


def test_a_path_that_is_not_there_has_the_mark_of_its_nearest_parent() -> None:
    document = read_document("a:\n  - b: 1\n", "s.yaml")
    assert document.mark(("a", 0, "c", "d")) == Mark(2, 5)
    assert document.mark(("a", 0, "c"), key=True) == Mark(2, 5)
    assert document.mark(("a", 0, "b"), key=True) == Mark(2, 5)
    assert document.mark(("a", 0, "b")) == Mark(2, 8)
    assert Document("s.yaml", {}, {}, {}).mark(("a",)) is None


def test_every_key_written_twice_is_named_with_both_places() -> None:
    assert told("a: 1\nb: 2\na: 3\nc:\n  d: 1\n  d: 2\nb: 4\n").splitlines() == [
        "s.yaml:3:1: the key 'a' stands here again (first at line 1, column 1); keep one of them",
        "s.yaml:6:3: the key 'd' stands here again (first at line 5, column 3); keep one of them",
        "s.yaml:7:1: the key 'b' stands here again (first at line 2, column 1); keep one of them",
    ]


def test_json_names_keys_written_twice_alike() -> None:
    assert told('{"a": 1,\n "a": 2}', "s.json") == (
        "s.json:2:2: the key 'a' stands here again (first at line 1, column 2); keep one of them"
    )


def test_what_stands_below_a_key_written_twice_is_not_twice_itself() -> None:
    assert told("a: {x: 1}\na: {x: 2}\n") == (
        "s.yaml:2:1: the key 'a' stands here again (first at line 1, column 1); keep one of them"
    )


def test_keys_written_twice_are_told_with_the_problem_that_ended_the_reading() -> None:
    assert told("a: 1\na: 2\nb: *x\n").splitlines() == [
        "s.yaml:2:1: the key 'a' stands here again (first at line 1, column 1); keep one of them",
        f"s.yaml:3:4: & and * (anchors and aliases) are not read here; {QUOTE}",
    ]


def test_one_key_in_two_groups_is_no_problem() -> None:
    assert data("[{a: 1}, {a: 2}]") == [{"a": "1"}, {"a": "2"}]


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("a: &x 1", f"s.yaml:1:4: & and * (anchors and aliases) are not read here; {QUOTE}"),
        ("a: *x", f"s.yaml:1:4: & and * (anchors and aliases) are not read here; {QUOTE}"),
        ("a: !!str 1", f"s.yaml:1:4: tags (tag:yaml.org,2002:str) are not read here; {QUOTE}"),
        ("a: ! 1", f"s.yaml:1:4: tags (!) are not read here; {QUOTE}"),
        (
            "a: !!python/object/apply:os.getcwd []",
            f"s.yaml:1:4: tags (tag:yaml.org,2002:python/object/apply:os.getcwd) are not read here; {QUOTE}",
        ),
        ("a:\n  <<: {b: 1}", "s.yaml:2:3: << merges are not read here; write the keys out"),
        ("a: 1\n---\nb: 2", "s.yaml:2:1: a second document begins here; keep one in a file"),
        ("? [1]\n: 2", "s.yaml:1:3: a list or group stands where a key is needed; a key is plain text"),
        ("{{a: 1}: 2}", "s.yaml:1:2: a list or group stands where a key is needed; a key is plain text"),
        ("? \n: 2", "s.yaml:1:2: a key without a name stands here; a key is plain text"),
        ("'': 2", "s.yaml:1:1: a key without a name stands here; a key is plain text"),
    ],
)
def test_yaml_that_has_no_place_here_is_refused(text: str, message: str) -> None:
    assert told(text) == message


def test_an_alias_bomb_is_refused_at_its_first_anchor() -> None:
    levels = [f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 9)}]" for n in range(1, 10)]
    bomb = "\n".join(["a0: &a0 [x, x]", *levels])
    assert told(bomb) == f"s.yaml:1:5: & and * (anchors and aliases) are not read here; {QUOTE}"


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ('a: 1\nb: "7 3/4""\nc: 3\n', INCH),
        ('b: "7 3/4""', INCH),
        ("a:\n  b: 1\n\tc: 2\n", "a tab stands at the start of this line; indent with spaces"),
        ("name: Stair 3: back\n", "a second colon stands in this line; put the value in single quotes"),
        ("a: @x\n", "a value starts with @; put the value in single quotes"),
        ("a:\n  - %5\n", "a value starts with %; put the value in single quotes"),
        ("a: [`x]\n", "a value starts with `; put the value in single quotes"),
        (
            "a: - 5\n",
            "a dash follows a colon on one line; put each list entry on a line of its own, or use [ ]",
        ),
        (
            "a: [1, 2\nb: 3\n",
            "this line cannot be read as YAML; look at the indentation, the colons and the brackets here and above",
        ),
    ],
)
def test_a_usual_slip_is_told_in_plain_words(text: str, message: str) -> None:
    assert told(text).split(": ", 1)[1] == message


@pytest.mark.parametrize(
    ("text", "mark"),
    [
        ('a: 1\nb: "7 3/4""\nc: 3\n', 2),
        ("a:\n  b: 1\n\tc: 2\n", 3),
        ("a: 1\nname: Stair 3: back\n", 2),
        ("a: 1\n\nb: @x\n", 3),
    ],
)
def test_a_slip_is_told_at_its_own_line(text: str, mark: int) -> None:
    with pytest.raises(InputError) as caught:
        read_document(text, "s.yaml")
    assert [problem.mark and problem.mark.line for problem in caught.value.problems] == [mark]


@pytest.mark.parametrize(
    ("text", "message"),
    [
        (
            '{"a": 1,}',
            "1:9: '}' stands where a key is needed; a key stands in double quotes, such as \"units\"; "
            "no comma follows the last entry",
        ),
        ('{"a": 1} x', "1:10: more text follows the end of the JSON value; keep one value in a file"),
        ('{"a" 1}', "1:6: a colon is missing after this key"),
        ('{"a": 7 3/4}', "1:9: '3' stands here; a comma or } is needed"),
        ('{"a": 010}', "1:8: '1' stands here; a comma or } is needed"),
        ('{"a": [1}', "1:9: '}' stands here; a comma or ] is needed"),
        ('{"a": [1', "1:9: the text ends too early; a comma or ] is needed"),
        ('{"a":', "1:6: the text ends too early; close every { and ["),
        (
            "{\"a\": 'x'}",
            '1:7: "\'" stands where a value is needed; JSON text stands in double quotes, such as "7 3/4 in"',
        ),
        ('{"a": "x', '1:7: this text in quotes cannot be read; a closing " is missing'),
        (
            '{"a": "b\nc"}',
            "1:9: this text in quotes cannot be read; line ends and tabs inside quotes are written \\n and \\t",
        ),
        (
            '{"a": "\\q"}',
            '1:8: this text in quotes cannot be read; after a backslash only " \\ / b f n r t or uXXXX can stand',
        ),
    ],
)
def test_a_slip_in_json_is_told_with_its_place(text: str, message: str) -> None:
    assert told(text, "s.json") == f"s.json:{message}"


@pytest.mark.parametrize("word", ["NaN", "Infinity", "-Infinity", "nan", "True", "+1", ".5", "0x1"])
def test_json_takes_no_word_or_number_of_its_relatives(word: str) -> None:
    assert told(f'{{"a": {word}}}', "s.json").startswith("s.json:1:")


def test_json_escapes_become_characters() -> None:
    assert data(r'{"a": "7 3\/4\" \u00bd \ud83d\ude00\n\t\\"}', "s.json") == {"a": '7 3/4" ½ 😀\n\t\\'}


@pytest.mark.parametrize("half", [r"\ud83d", r"\ude00", r"\ude00\ud83d"])
def test_half_a_surrogate_pair_is_refused(half: str) -> None:
    assert told(f'{{"a": "{half}"}}', "s.json") == (
        "s.json:1:7: half of a \\u pair stands in this text; write both halves, or the character itself"
    )


@pytest.mark.parametrize("file", ["s.yaml", "s.json"])
@pytest.mark.parametrize("code", [0x00, 0x07, 0x1B, 0x7F, 0x85, 0x2028, 0xFEFF, 0xFFFF, 0xD800])
def test_a_character_that_is_no_text_is_refused_where_it_stands(code: int, file: str) -> None:
    found = f"the character U+{code:04X} has no place in a text; delete it"
    assert told(f'{{"a":\r\n"é{chr(code)}"}}', file) == f"{file}:2:3: {found}"


@pytest.mark.parametrize("file", ["s.yaml", "s.json"])
@pytest.mark.parametrize("text", ['{"a": "x\\u0000"}', '{"a": {}, "b\\u0000": 1}'])
def test_an_escape_brings_no_nul_in(text: str, file: str) -> None:
    column = 7 if "x" in text else 11
    found = "the character U+0000 has no place in a text; delete it"
    assert told(text, file) == f"{file}:1:{column}: {found}"


@pytest.mark.parametrize("file", ["s.yaml", "s.json"])
def test_another_control_character_written_as_an_escape_is_kept(file: str) -> None:
    assert data('{"a": "x\\u0007\\u2028"}', file) == {"a": "x\x07\u2028"}


@pytest.mark.parametrize(
    ("text", "message"),
    [
        (b"a: caf\xe9\n", f"s.yaml:1:7: the byte 0xe9 is not UTF-8 text; {SAVE}"),
        (b"\xef\xbb\xbfa: caf\xe9\n", f"s.yaml:1:7: the byte 0xe9 is not UTF-8 text; {SAVE}"),
        (b"a: 1\r\nb: \xc3\xa9\xff", f"s.yaml:2:5: the byte 0xff is not UTF-8 text; {SAVE}"),
        (b"a: 1\rb: \xff", f"s.yaml:2:4: the byte 0xff is not UTF-8 text; {SAVE}"),
        ("a: 1".encode("utf-16"), f"s.yaml:1:1: the text is UTF-16; {SAVE}"),
        (b"\xfe\xff\x00a", f"s.yaml:1:1: the text is UTF-16; {SAVE}"),
    ],
)
def test_bytes_that_are_no_utf_8_are_refused(text: bytes, message: str) -> None:
    assert told(text) == message


@pytest.mark.parametrize("file", ["s.yaml", "s.json"])
def test_depth_ends_at_its_limit(file: str) -> None:
    deep = documents.MAX_DEPTH
    assert data("[" * deep + "]" * deep, file) is not None
    over = told("[" * (deep + 1) + "]" * (deep + 1), file)
    assert over == f"{file}:1:{deep + 1}: nested more than 40 deep; a survey needs far less"


@pytest.mark.parametrize("file", ["s.yaml", "s.json"])
@pytest.mark.parametrize("text", ["[" * 3000, '{"a": ' * 3000, '[{"a": ' * 3000])
def test_far_too_much_depth_is_refused_and_never_a_crash(text: str, file: str) -> None:
    assert told(text, file).startswith(f"{file}:1:")


def test_entries_end_at_their_limit(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(documents, "MAX_ENTRIES", 3)
    assert data("[1, 2]") == ["1", "2"]
    assert told("[1, 2, 3]") == "s.yaml:1:8: more than 3 entries; split the file"
    assert told("[1, 2, 3]", "s.json") == "s.json:1:8: more than 3 entries; split the file"


@pytest.mark.parametrize("text", ["a: " + "é" * 4, ("a: " + "é" * 4).encode()])
def test_size_is_counted_in_bytes(text: bytes | str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(documents, "MAX_BYTES", 11)
    assert data(text) == {"a": "éééé"}
    monkeypatch.setattr(documents, "MAX_BYTES", 10)
    assert told(text) == "s.yaml: the file is larger than 10 bytes; split it"


def test_the_limits_are_the_announced_ones() -> None:
    assert (documents.MAX_BYTES, documents.MAX_DEPTH, documents.MAX_ENTRIES) == (2_000_000, 40, 200_000)


def test_windows_line_ends_read_as_others() -> None:
    assert data(b"\xef\xbb\xbfa: 1\r\nb:\r\n  - 2\r\n") == {"a": "1", "b": ["2"]}


def test_reading_json_loads_no_yaml() -> None:
    code = (
        "import sys; from stairaudit.documents import read_document; "
        "read_document('{}', 's.json'); print('yaml' in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout == "False\n"
