"""The hatch: the day handed out of the kitchen, to a phone, a calendar, a table program."""
