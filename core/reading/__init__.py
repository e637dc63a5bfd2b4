"""What cooks write, read.

Doors, each a module, so that nobody loads the patterns of another: `line` (one step in a line, as cooks say it),
`line_write` (a step as a line), `line_dish` (a dish as a block of lines), `line_names` (what a line may name),
`line_value` (chips, faults, values), `line_grammar` (the help page), `sentence` (a recipe's instructions as draft
steps), `phrases` (lengths, temperatures, places and cues in a sentence), `ingredient` (an ingredient line).
"""
