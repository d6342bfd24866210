"""The exit statuses."""

NOTHING_TO_WARN = 0
WARNED = 1
FAULT = 2
