"""Pages of the estimating app: thin, each joins a form, a service and a template."""
