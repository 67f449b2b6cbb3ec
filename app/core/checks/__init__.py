"""What can be missing or wrong in a story, one kind of finding per file.

A check module gives ``TITLE`` and ``find(story: Story) -> tuple[Finding, ...]``.
It is pure, and returns every finding of its kind. ``where`` is one of
``app.core.story.PLACES``.
"""
