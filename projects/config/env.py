"""The one reader of environment variables."""

from pathlib import Path

import environ

BASE_DIR = Path(__file__).resolve().parents[2]

env = environ.Env()


def read_env_file() -> None:
    """Read `.env` beside manage.py; what the environment already says wins over the file."""
    path = BASE_DIR / ".env"
    if path.is_file():
        env.read_env(path)
