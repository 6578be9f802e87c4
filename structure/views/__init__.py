"""Pages of the structure app: thin, each joins a form, a service and a template."""
