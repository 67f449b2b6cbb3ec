"""The planner of boards: which blanks come out of which board, and how."""
