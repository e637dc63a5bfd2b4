"""The parts of a plan written as text; the door is core.intake.text_plan."""
