"""Settings for one person on one machine: SQLite in `.carrydown/`, tasks in process, no certificates."""

from projects.config.env import env, read_env_file

read_env_file()

from .base import *  # noqa: E402  the file must be read before the shared settings look at the environment

DEBUG = env.bool("DEBUG", default=True)
# Signs nothing that leaves this machine; production refuses it.
SECRET_KEY = env.str("SECRET_KEY", default="insecure-development-key-for-one-machine-only")
ALLOWED_HOSTS = ["127.0.0.1", "localhost", "[::1]"]
VAR_DIR.mkdir(parents=True, exist_ok=True)
