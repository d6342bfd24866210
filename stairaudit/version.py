"""The version, as plain text so that `--version` imports nothing else."""

__version__ = "0.1.0"
