"""The timeline: one painted view of a timetable, by station or by dish."""
