"""Findings as CSV for a spreadsheet: one row each, no cell that a spreadsheet could take for a formula."""

from __future__ import annotations

import csv
import io
from typing import Any

from stairaudit.output.inert import inert

COLUMNS = (
    "file", "site", "date", "ruleset", "edition", "stair", "flight", "part", "title", "clause", "rule", "level",
    "outcome", "close", "probability", "reading", "reading_mm", "reading_value", "value_unit", "uncertainty_mm",
    "relation", "limit", "limit_mm", "limit_to_mm", "margin", "margin_mm", "at", "readings", "outside", "missing",
    "assumed", "hazard", "provenance", "note", "digest", "statement",
)  # fmt: skip
BOM = "\ufeff"


def _cell(value: Any) -> Any:
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if not isinstance(value, str):
        return value
    text = inert(value).replace("\n", " ")
    return f"'{text}" if text[:1] in ("=", "+", "-", "@", "\t") else text


def _margin(finding: dict[str, Any]) -> str | None:
    margin = finding["margin"]
    if margin is None:
        return None
    shown: str = margin["shown"]
    if not margin.get("mm", margin.get("value")):
        return "exactly at the limit"
    return f"{shown[1:]} outside" if shown.startswith("-") else f"{shown} inside"


def _row(audit: dict[str, Any], finding: dict[str, Any], statement: str) -> dict[str, Any]:
    reading, limit = finding["reading"] or {}, finding["limit"]
    low = limit.get("low", limit)
    return {
        **{key: audit["survey"][key] for key in ("file", "site", "date")},
        **{key: finding[key] for key in COLUMNS if key in finding},
        "ruleset": audit["ruleset"]["id"],
        "edition": audit["ruleset"]["edition"],
        "digest": audit["ruleset"]["digest"],
        "statement": statement,
        "reading": reading.get("shown"),
        "reading_mm": reading.get("mm"),
        "reading_value": reading.get("value"),
        "value_unit": reading.get("unit"),
        "uncertainty_mm": (finding["uncertainty"] or {}).get("mm"),
        "relation": limit["relation"],
        "limit": limit["shown"],
        "limit_mm": low.get("mm"),
        "limit_to_mm": limit["high"].get("mm") if "high" in limit else None,
        "margin": _margin(finding),
        "margin_mm": (finding["margin"] or {}).get("mm"),
        "missing": "; ".join(finding["missing"]),
        "assumed": "; ".join(finding["assumed"]),
    }


def render_csv(data: dict[str, Any]) -> str:
    """Return every finding of a result as CSV (RFC 4180) with a byte order mark, so that spreadsheets read é."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(COLUMNS)
    for audit in data["audits"]:
        for finding in audit["findings"]:
            row = _row(audit, finding, data["statement"])
            writer.writerow([_cell(row[column]) for column in COLUMNS])
    return BOM + out.getvalue()
