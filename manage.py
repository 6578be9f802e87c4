#!/usr/bin/env python
"""Django's command line for Carrydown."""

import os
import sys


def main() -> None:
    """Run a management command with the development settings unless told otherwise."""
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "projects.config.settings.dev")
    try:
        from django.core.management import execute_from_command_line
    except ImportError as missing:
        raise SystemExit(
            "No Django in this Python: the README's Run it line makes a virtual environment that has it."
        ) from missing
    execute_from_command_line(sys.argv)


if __name__ == "__main__":
    main()
