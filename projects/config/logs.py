"""Log lines that stay one line, whatever a visitor typed."""

import json
import logging
from datetime import UTC, datetime
from typing import Any


class OneLineFormatter(logging.Formatter):
    """A message with line breaks could pretend to be two log entries: show the breaks instead."""

    def formatMessage(self, record: logging.LogRecord) -> str:  # noqa: N802  the name is logging's
        """The line with its breaks made visible; a traceback follows below as usual."""
        return super().formatMessage(record).replace("\r", "\\r").replace("\n", "\\n")


class JsonFormatter(logging.Formatter):
    """One JSON object a line: time, level, logger, message, and the traceback if there is one."""

    def format(self, record: logging.LogRecord) -> str:
        """The record as one line of JSON."""
        line: dict[str, Any] = {
            "time": datetime.fromtimestamp(record.created, tz=UTC).isoformat(),
            "level": record.levelname,
            "logger": record.name,
            "message": record.getMessage(),
        }
        if record.exc_info:
            line["traceback"] = self.formatException(record.exc_info)
        return json.dumps(line, ensure_ascii=False, default=str)
