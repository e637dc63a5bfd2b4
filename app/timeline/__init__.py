"""The timeline: one painted view of a timetable, by station, by dish or by cook."""

from app.timeline.timeline import Timeline

__all__ = ["Timeline"]
