"""Fixtures that several test modules share."""

from __future__ import annotations

import pytest
import yaml


@pytest.fixture(params=["libyaml", "plain"])
def each_parser(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    """Run a test with both parsers: many installations have no libyaml."""
    if request.param == "plain":
        monkeypatch.delattr(yaml, "CSafeLoader", raising=False)
    elif not hasattr(yaml, "CSafeLoader"):
        pytest.skip("this installation has no libyaml")
