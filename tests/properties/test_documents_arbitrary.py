"""Whatever bytes a file holds: plain data comes out, or a message for the person."""

from __future__ import annotations

import json

import pytest
import yaml
from hypothesis import example, given, settings
from hypothesis import strategies as st

from stairaudit.documents import Document, read_document
from stairaudit.errors import InputError

FILES = st.sampled_from(["s.yaml", "s.json", "-"])
SOUND = (
    b"format: 1\nunits: in\nstairs:\n  - id: porch\n    risers: [6, 7 7/8, ~]\n    top: {depth: 40, x: 'a'}\n",
    b'{"format": 1, "stairs": [{"id": "porch", "risers": [6, "7 7/8\\"", null, true]}]}',
    b'a: |\n  text\nb: >-\n  more\nc: "\\u00bd"\nd: [{e: f}, [g]]\n# end\n',
)
PIECES = (
    b'"', b"'", b"\t", b": ", b"- ", b"[", b"]", b"{", b"}", b"&a ", b"*a ", b"!t ", b"\n", b"\r", b"\0", b"\xff",
    b"---\n", b"...\n", b"%", b"@", b"#", b"? ", b"<<: ", b"\\ud83d", b"\\UFFFFFFFF", b"\xe2\x80\xa8", b"\\",
    b"|", b",",
)  # fmt: skip
TEXT = st.text(
    st.characters(exclude_categories=["Cc", "Cs"], exclude_characters="\u2028\u2029\ufeff\ufffe\uffff"), max_size=12
)
TREES = st.recursive(
    st.none() | TEXT,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(TEXT.filter(bool), inner, max_size=4),
    max_leaves=12,
)


@st.composite
def spoilt(draw: st.DrawFn) -> bytes:
    """A sound document with pieces put in, taken out or cut off."""
    text = draw(st.sampled_from(SOUND))
    for _ in range(draw(st.integers(1, 4))):
        at = draw(st.integers(0, len(text)))
        piece = draw(st.sampled_from(PIECES) | st.binary(max_size=3))
        text = text[:at] + piece + text[at + draw(st.integers(0, 3)) :]
    return text


def leaves_are_text(data: object) -> bool:
    if isinstance(data, dict):
        return all(isinstance(key, str) and leaves_are_text(value) for key, value in data.items())
    if isinstance(data, list):
        return all(leaves_are_text(value) for value in data)
    return data is None or isinstance(data, str)


def paths(data: object, path: tuple[str | int, ...] = ()) -> set[tuple[str | int, ...]]:
    inner: list[tuple[str | int, object]] = []
    if isinstance(data, dict):
        inner = list(data.items())
    elif isinstance(data, list):
        inner = list(enumerate(data))
    return {path}.union(*(paths(value, (*path, step)) for step, value in inner))


def read(text: bytes, file: str) -> Document | InputError:
    """Return what a person gets: the document or the messages."""
    try:
        return read_document(text, file)
    except InputError as error:
        return error


@pytest.fixture(params=["libyaml", "plain"], autouse=True, scope="module")
def parser(request: pytest.FixtureRequest) -> object:
    with pytest.MonkeyPatch.context() as patch:
        if request.param == "plain":
            patch.delattr(yaml, "CSafeLoader", raising=False)
        yield


@settings(deadline=None)  # the plain parser is slow, and time is not what is proved here
@given(text=st.binary(max_size=60) | spoilt(), file=FILES)
@example(text=b"[" * 3000, file="s.yaml")
@example(text=b'a: "\\UFFFFFFFF"', file="s.yaml")
@example(text=b'a: "\\ud83d"', file="s.yaml")
@example(text=b"%5\n", file="s.yaml")
@example(text=b'{"a": "\\u', file="s.json")
def test_any_bytes_give_marked_text_or_a_message(text: bytes, file: str) -> None:
    result = read(text, file)
    if isinstance(result, InputError):
        assert result.problems
        assert all(problem.mark and min(problem.mark) >= 1 for problem in result.problems)
        assert all(problem.found for problem in result.problems)
    elif result.marks:
        assert leaves_are_text(result.data)
        assert set(result.marks) == paths(result.data)


@settings(deadline=None)
@given(TREES)
def test_json_reads_back_what_the_standard_library_wrote(tree: object) -> None:
    assert read_document(json.dumps(tree), "s.json").data == tree
    assert read_document(json.dumps(tree, ensure_ascii=False, indent=1), "s.json").data == tree


@settings(deadline=None)
@given(TREES)
def test_json_text_read_as_yaml_is_the_same_data(tree: object) -> None:
    text = json.dumps(tree, ensure_ascii=False)
    assert read_document(text, "s.yaml").data == read_document(text, "s.json").data
