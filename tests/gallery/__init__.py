"""Pictures of the timeline to look at, and what stands where in them, approved by eye (see __main__)."""
