"""The timeline: one painted view of a timetable, by station or by dish."""

from app.timeline.timeline import Timeline

__all__ = ["Timeline"]
