"""A log line stays one line whatever a visitor typed."""

import json
import logging

from projects.config.logs import JsonFormatter, OneLineFormatter

FORGED = "wrong password for ann\r\n2026-01-01 INFO root: signed in as boss"


def record(message):
    return logging.LogRecord("axes", logging.WARNING, __file__, 1, "%s", (message,), None)


def test_plain_lines_show_their_breaks():
    line = OneLineFormatter("%(levelname)s %(message)s").format(record(FORGED))
    assert line == "WARNING wrong password for ann\\r\\n2026-01-01 INFO root: signed in as boss"


def test_json_lines_are_one_object():
    line = JsonFormatter().format(record(FORGED))
    assert "\n" not in line
    assert json.loads(line)["message"] == FORGED
