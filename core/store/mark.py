"""What marks a file as a plan of ours."""

SUFFIX = ".cookday"

APPLICATION_ID = 0x434B4459
"""In every plan file's header (SQLite's `application_id`): the letters CKDY."""

SCHEMA = 5
"""The newest layout of tables that this program reads and writes (SQLite's `user_version`)."""
