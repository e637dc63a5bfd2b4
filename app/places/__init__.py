"""The places of the window: Menu, Kitchen, Timeline, Sheets, and the window around them."""
